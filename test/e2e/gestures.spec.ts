/** A gesture that its owner does not end: the place goes, a sheet comes, another key is pressed, undo is asked for. */
import { expect, test } from './fixtures';
import { depthOf } from './pages/strip';

const startOf = (told: string) => /, (\w+ \d+ \w+ \d\d:\d\d), /.exec(told)?.[1];

test.describe('a dive in the hand', () => {
  test('is let go of as one step where its place goes, and the next edits are steps and saved', async ({
    bench,
    page,
    strip,
  }) => {
    const before = await strip.told(5);
    await strip.hold(5, 'depth', { y: 40 });
    await expect(strip.dive(5)).not.toHaveAttribute('aria-label', before);
    const held = await strip.told(5);
    await page.keyboard.press('Alt+2');
    await expect(strip.list).toHaveCount(0);
    await page.mouse.up();
    await page.keyboard.press('Alt+1');
    await expect(strip.dive(5)).toHaveAttribute('aria-label', held);
    await bench.waitForSave();
    await bench.set('Bottom time', '20');
    await strip.undoButton('bottom time of dive 5').click();
    await strip.undoButton('depth of dive 5').click();
    await expect(strip.dive(5)).toHaveAttribute('aria-label', before);
  });

  test('is let go of where a sheet is laid over it', async ({ bench, page, strip }) => {
    const before = await strip.told(5);
    await strip.hold(5, 'depth', { y: 40 });
    const held = await strip.told(5);
    await page.keyboard.press('F1');
    await expect(strip.live).toHaveCount(0);
    await page.mouse.move(300, 500, { steps: 4 });
    await page.mouse.up();
    await page.keyboard.press('Escape');
    await expect(bench.dialog).toHaveCount(0);
    await expect(strip.dive(5)).toHaveAttribute('aria-label', held);
    await strip.undoButton('depth of dive 5').click();
    await expect(strip.dive(5)).toHaveAttribute('aria-label', before);
  });

  test('is not undone in its midst, and is one step at its end', async ({ page, strip }) => {
    await strip.dive(2).focus();
    await page.keyboard.press('ArrowDown');
    const second = await strip.told(2);
    const before = await strip.told(5);
    await strip.hold(5, 'depth', { y: 20 });
    const held = await strip.told(5);
    await page.keyboard.press('Control+z');
    expect(await strip.told(5)).toBe(held);
    expect(await strip.told(2)).toBe(second);
    const grip = await strip.dive(5).locator('[data-grip=depth]').boundingBox();
    for (let y = 0; y < 40; y += 5) await page.mouse.move(grip!.x + 8, grip!.y + 12 + y);
    await strip.letGo();
    await expect.poll(async () => depthOf(await strip.told(5))).toBeGreaterThan(depthOf(held));
    await strip.undoButton('depth of dive 5').click();
    await expect(strip.dive(5)).toHaveAttribute('aria-label', before);
    await strip.undoButton('depth of dive 2').click();
    await expect(page.getByRole('button', { name: /^Undo/ })).toBeDisabled();
  });

  test('is let go of where the dives are removed by a key', async ({ page, strip }) => {
    const before = await strip.told(5);
    await strip.hold(5, 'depth', { y: 20 });
    const held = await strip.told(5);
    await page.keyboard.press('Delete');
    await expect(strip.dives).toHaveCount(21);
    await page.mouse.move(300, 500, { steps: 4 });
    await page.mouse.up();
    await strip.undoButton('removal of dive 5').click();
    await expect(strip.dive(5)).toHaveAttribute('aria-label', held);
    await strip.undoButton('depth of dive 5').click();
    await expect(strip.dive(5)).toHaveAttribute('aria-label', before);
  });
});

test.describe('an arrow key held down', () => {
  test('is one step that ends where its place goes', async ({ bench, page, strip }) => {
    const before = await strip.told(5);
    await strip.dive(5).focus();
    await page.keyboard.down('ArrowRight');
    await page.keyboard.down('ArrowRight');
    await page.keyboard.down('ArrowRight');
    await expect.poll(async () => startOf(await strip.told(5))).not.toBe(startOf(before));
    await page.keyboard.press('Alt+2');
    await expect(strip.list).toHaveCount(0);
    await page.keyboard.up('ArrowRight');
    await page.keyboard.press('Alt+1');
    await bench.waitForSave();
    await strip.dive(7).focus();
    await page.keyboard.press('ArrowDown');
    await strip.undoButton('depth of dive 7').click();
    await strip.undoButton('start of dive 5').click();
    await expect(strip.dive(5)).toHaveAttribute('aria-label', before);
    await expect(page.getByRole('button', { name: /^Undo/ })).toBeDisabled();
  });

  test('gives way to undo, which takes back what it did', async ({ page, strip }) => {
    const before = await strip.told(5);
    await strip.dive(5).focus();
    await page.keyboard.down('ArrowDown');
    await page.keyboard.down('ArrowDown');
    await page.keyboard.press('Control+z');
    await expect(strip.dive(5)).toHaveAttribute('aria-label', before);
    await page.keyboard.up('ArrowDown');
    await expect(page.getByRole('button', { name: /^Undo/ })).toBeDisabled();
  });
});
