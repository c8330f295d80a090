/** What the strip leaves to fields and focus: nothing typed is lost, and no keyboard begins anew. */
import { expect, test } from './fixtures';
import { depthOf } from './pages/strip';
import { openWorse } from './pages/worse-trip';

test.describe('what is being typed as a dive is pressed', () => {
  for (const modifiers of [[], ['Control']] as const) {
    test(`is kept first${modifiers.length > 0 ? ', with Ctrl too' : ''}`, async ({ bench, strip }) => {
      await strip.dive(1).locator('[data-grip=depth]').click();
      await bench.field('Depth').fill('17');
      await strip
        .dive(5)
        .locator('[data-grip=depth]')
        .click({ modifiers: [...modifiers] });
      await expect(strip.chosen).toHaveCount(modifiers.length + 1);
      await expect.poll(async () => depthOf(await strip.told(1))).toBe(17);
      await expect(strip.undoButton('depth of dive 1')).toBeEnabled();
    });
  }

  test('is where a drag of the same dive begins', async ({ bench, strip }) => {
    await strip.dive(5).locator('[data-grip=depth]').click();
    await bench.field('Depth').fill('30');
    await strip.drag(5, 'depth', { y: -6 });
    const depth = async () => depthOf(await strip.told(5));
    await expect.poll(depth).toBeLessThan(30);
    await expect.poll(depth).toBeGreaterThan(25);
  });

  test('is refused in a notice where its field goes', async ({ page, bench, strip }) => {
    await strip.dive(1).locator('[data-grip=depth]').click();
    await bench.field('Depth').fill('150');
    await strip.dive(5).locator('[data-grip=depth]').click();
    await expect(bench.field('Depth')).toHaveValue('20 m');
    await expect(page.getByRole('alert')).toHaveText(
      /Depth is 150 m; it can be 1 to 100 m\. Nothing was changed\./,
    );
    await expect.poll(async () => depthOf(await strip.told(1))).toBe(15);
  });
});

test.describe('the focus after a removal', () => {
  test('goes to the dive that comes next, and after the last to the one before', async ({ page, strip }) => {
    const next = await strip.told(5);
    await strip.dive(4).focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('Delete');
    await expect(strip.dives).toHaveCount(21);
    await expect(strip.dive(4)).toBeFocused();
    await expect.poll(async () => (await strip.focused()).split(', ')[1]).toBe(next.split(', ')[1]);
    await page.keyboard.press('End');
    await page.keyboard.press('Delete');
    await expect(strip.dives).toHaveCount(20);
    await expect(strip.dive(20)).toBeFocused();
  });

  test('goes to the strip from the card too, and from the palette', async ({ page, bench, strip }) => {
    await strip.dive(4).focus();
    await page.keyboard.press('Enter');
    await bench.card.getByRole('button', { name: 'Remove the dive' }).click();
    await expect(strip.dives).toHaveCount(21);
    await expect(strip.dive(4)).toBeFocused();
    await page.keyboard.press('Enter');
    await bench.command('remove the dive');
    await expect(strip.dives).toHaveCount(20);
    await expect(strip.dive(4)).toBeFocused();
  });

  test('goes to the dive that the palette finds, from a button about the dives and from nothing too', async ({
    bench,
    strip,
  }) => {
    // Nothing has the focus yet.
    await bench.command('dive 4');
    await expect(strip.dive(4)).toBeFocused();
    await strip.whole.getByRole('button', { name: 'Zoom in' }).focus();
    await bench.command('dive 13');
    await expect(strip.dive(13)).toBeFocused();
    await bench.field('Depth').focus();
    await bench.command('dive 9');
    await expect(bench.field('Depth')).toBeFocused();
  });

  test('goes to “New dive” where none is left', async ({ page, strip }) => {
    await strip.dive(4).focus();
    await page.keyboard.press('Control+a');
    await page.keyboard.press('Delete');
    await expect(strip.whole.getByRole('button', { name: 'New dive' })).toBeFocused();
  });
});

test.describe('the focus goes along to a dive', () => {
  test('from a place that names it, and the keys of the strip go on from there', async ({
    page,
    bench,
    strip,
  }) => {
    const places = page.getByRole('navigation', { name: 'Places' });
    const before = await strip.told(9);
    const from = depthOf(before);
    await places.getByRole('button', { name: 'Party' }).click();
    await page
      .getByRole('region', { name: 'Who on which dive' })
      .getByRole('button', { name: /^Dive 9,/ })
      .click();
    await expect(strip.dive(9)).toBeFocused();
    await page.keyboard.press('ArrowDown');
    await expect.poll(async () => depthOf(await strip.told(9))).toBe(from + 1);

    await places.getByRole('button', { name: 'Sites' }).click();
    await page
      .getByRole('button', { name: /: the dive at / })
      .last()
      .click();
    await expect(strip.chosen).toHaveCount(1);
    await expect(strip.chosen).toBeFocused();

    await places.getByRole('button', { name: 'Sites' }).click();
    await page.getByRole('cell', { name: /^EAN28/ }).click({ button: 'right' });
    await page.getByRole('menuitem', { name: 'Go to its 2 dives' }).click();
    await expect(strip.chosen).toHaveCount(2);
    await expect(strip.chosen.first()).toBeFocused();

    await places.getByRole('button', { name: 'Sites' }).click();
    await bench.command('dive 4');
    await expect(strip.dive(4)).toBeFocused();
  });

  test('from the list of cautions, also with one day on show', async ({ page, bench, strip }) => {
    await openWorse(bench);
    await strip.dive(2).focus();
    await page.keyboard.press('Enter');
    await strip.whole.getByRole('button', { name: 'Day', exact: true }).click();
    await bench.command('all cautions');
    await bench.dialog
      .getByRole('button', { name: /^Dive 13,/ })
      .first()
      .click();
    await expect(bench.dialog).toBeHidden();
    await expect(strip.dive(13)).toBeFocused();
    // The same list stands in the card of the whole trip, which goes as a dive is chosen.
    await page.keyboard.press('Escape');
    await bench.card
      .getByRole('button', { name: /^Dive 13,/ })
      .first()
      .click();
    await expect(strip.dive(13)).toBeFocused();
  });
});
