/** What a hand does with a dive on the strip. */
import { expect, test } from './fixtures';
import { depthOf } from './pages/strip';

const minutesOf = (told: string) => Number(/ m, ([\d.]+) min, /.exec(told)?.[1]);
const startOf = (told: string) => /, (\w+ \d+ \w+ \d\d:\d\d), /.exec(told)?.[1];

test.describe('dragging', () => {
  test('the weight changes the depth in whole metres, as one step of undo', async ({ bench, strip }) => {
    const before = await strip.told(5);
    const line = await bench.nitrogenLine();
    await strip.hold(5, 'depth', { y: 37 });
    await expect(strip.live).toContainText(/\d+ m, 38 min/);
    await strip.letGo();
    await expect.poll(async () => depthOf(await strip.told(5))).toBeGreaterThan(depthOf(before));
    const depth = depthOf(await strip.told(5));
    expect(Number.isInteger(depth)).toBe(true);
    await expect.poll(() => bench.nitrogenLine()).not.toBe(line);
    await strip.undoButton('depth of dive 5').click();
    await expect(strip.dive(5)).toHaveAttribute('aria-label', before);
    await expect(bench.page.getByRole('button', { name: /^Undo/ })).toBeDisabled();
  });

  test('with Shift the depth goes by half metres', async ({ page, strip }) => {
    const depths = new Set<number>();
    await strip.hold(5, 'depth', { y: 4 });
    await page.keyboard.down('Shift');
    const box = await strip.dive(5).locator('[data-grip=depth]').boundingBox();
    for (let y = 0; y < 24; y += 2) {
      await page.mouse.move(box!.x + 8, box!.y + 12 + y);
      await strip.drawn();
      depths.add(depthOf(await strip.told(5)));
    }
    await page.keyboard.up('Shift');
    await strip.letGo();
    expect([...depths].some((depth) => depth % 1 === 0.5)).toBe(true);
    expect([...depths].every((depth) => (depth * 2) % 1 === 0)).toBe(true);
  });

  test('the end of the bar changes the bottom time', async ({ strip }) => {
    const before = minutesOf(await strip.told(6));
    await strip.drag(6, 'time', { x: 6 });
    await expect.poll(async () => minutesOf(await strip.told(6))).toBeGreaterThan(before);
    await expect(strip.undoButton('bottom time of dive 6')).toBeEnabled();
  });

  test('the line changes the start by five minutes, under the pointer', async ({ page, strip }) => {
    const from = await strip.leftOf(14, 'start');
    await strip.hold(14, 'start', { x: 12 });
    // Five minutes at the surface are under a pixel here, so the line is where the pointer is.
    await expect.poll(async () => Math.abs((await strip.leftOf(14, 'start')) - from - 12)).toBeLessThan(2);
    await strip.letGo();
    const start = async () => startOf(await strip.told(14));
    await expect.poll(start).not.toBe('Wed 17 March 15:00');
    await expect.poll(start).toMatch(/^Wed 17 March \d\d:\d[05]$/);
    await expect(page.getByRole('button', { name: 'Undo start of dive 14' })).toBeEnabled();
  });

  test('the line goes across days', async ({ strip }) => {
    const target = await strip.openWater();
    await strip.drag(1, 'start', { x: target.x - (await strip.leftOf(1, 'start')) });
    await expect(strip.dive(22)).toHaveAttribute('aria-label', /, Sat 20 March \d\d:\d\d, /);
    await expect(strip.dive(22)).toHaveAttribute('aria-label', /Thrift Garden, 15 m, 40 min/);
  });

  test('the page slides along where a line is held at its edge', async ({ page, strip }) => {
    await strip.dive(3).focus();
    for (let i = 0; i < 4; i += 1) await page.keyboard.press('+');
    await expect.poll(() => strip.width()).toBeGreaterThan(2500);
    const view = await strip.scroller.boundingBox();
    const line = await strip.dive(3).locator('[data-grip=start]').boundingBox();
    const from = await strip.scrolled();
    await strip.hold(3, 'start', { x: view!.x + view!.width - 6 - (line!.x + line!.width / 2) });
    await expect.poll(() => strip.scrolled()).toBeGreaterThan(from + 300);
    await strip.letGo();
    await expect(strip.dive(3)).not.toHaveAttribute('aria-label', /, Sun 14 /);
  });

  test('Escape goes back to where it was and leaves no step', async ({ page, strip }) => {
    const before = await strip.told(5);
    await strip.hold(5, 'depth', { y: 40 });
    await expect(strip.dive(5)).not.toHaveAttribute('aria-label', before);
    await page.keyboard.press('Escape');
    await expect(strip.dive(5)).toHaveAttribute('aria-label', before);
    await page.mouse.up();
    await expect(page.getByRole('button', { name: /^Undo/ })).toBeDisabled();
  });

  test('what cannot be is refused with its reason, and nothing is clamped in silence', async ({
    page,
    strip,
  }) => {
    await strip.hold(5, 'depth', { y: -300 });
    await expect(strip.live).toContainText(/it can be 1 to 100 m/);
    await strip.letGo();
    await expect(page.getByText(/it can be 1 to 100 m/).first()).toBeVisible();
    await expect.poll(async () => depthOf(await strip.told(5))).toBeGreaterThanOrEqual(1);
  });
});

test('a dive that has been dived says why it is not dragged', async ({ page, bench, strip }) => {
  await strip.dive(5).locator('[data-grip=depth]').click();
  await bench.card.getByText('As dived', { exact: true }).click();
  await bench.card.getByRole('button', { name: 'Enter it, starting from the plan' }).click();
  const before = await strip.told(5);
  const box = await strip.dive(5).locator('[data-grip=depth]').boundingBox();
  await page.mouse.move(box!.x + box!.width / 2, box!.y + box!.height / 2);
  await page.mouse.down();
  await expect(page.getByText('This dive has been dived.')).toHaveCount(0);
  await page.mouse.move(box!.x + box!.width / 2, box!.y + 60, { steps: 4 });
  await expect(page.getByRole('alert')).toContainText('This dive has been dived.');
  await page.mouse.up();
  await strip.drawn();
  await expect(strip.dive(5)).toHaveAttribute('aria-label', before);
});
