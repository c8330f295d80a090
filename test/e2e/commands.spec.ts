import { expect, test } from './fixtures';

test.describe('commands and keys', () => {
  test('the palette finds a command by the beginnings of its words', async ({ bench }) => {
    await bench.command('tight');
    await expect(bench.field('Depth')).toBeVisible();
  });

  test('the palette finds a dive by its site, and says where nothing is called that', async ({
    page,
    bench,
  }) => {
    await page.keyboard.press('Control+k');
    const box = page.getByRole('combobox', { name: /Find a command/ });
    await box.fill('xyzzy');
    await expect(page.getByText('Nothing is called that.')).toBeVisible();
    await box.fill('dive 4');
    await page.keyboard.press('Enter');
    await expect(bench.card.getByRole('region', { name: 'Dive 4' })).toBeVisible();
  });

  test('arrows choose in the palette and Escape leaves it', async ({ page, bench }) => {
    await page.keyboard.press('Control+k');
    await page.getByRole('combobox', { name: /Find a command/ }).press('ArrowDown');
    const commands = page.getByRole('listbox', { name: 'Commands' }).getByRole('option');
    await expect(commands.nth(0)).toHaveAttribute('aria-selected', 'false');
    await expect(commands.nth(1)).toHaveAttribute('aria-selected', 'true');
    await page.keyboard.press('Escape');
    await expect(bench.dialog).toHaveCount(0);
  });

  test('text grows, shrinks and is as usual again by the keys that every window has', async ({
    page,
    bench,
  }) => {
    const size = (): Promise<string> => page.evaluate(() => document.documentElement.style.fontSize);
    await bench.chooseTightest();
    const usual = await size();
    await bench.field('Depth').focus();
    await page.keyboard.press('Control+=');
    await expect.poll(size).not.toBe(usual);
    const larger = await size();
    await page.keyboard.press('Control++');
    await expect.poll(size).not.toBe(larger);
    await page.keyboard.press('Control+-');
    await expect.poll(size).toBe(larger);
    await page.keyboard.press('Control+0');
    await expect.poll(size).toBe(usual);
  });

  test('begins an empty trip by its key', async ({ page, bench }) => {
    await page.keyboard.press('Control+n');
    await expect(bench.title).not.toHaveText('Seven nights among the Ember Cays');
  });

  test('arrows in the menu of the trip pass over what cannot be done', async ({ page, bench }) => {
    await bench.command('mixes');
    await page.getByRole('button', { name: 'Trip', exact: true }).click();
    const items = page.getByRole('menuitem');
    const grey = page.getByRole('menuitem', { name: 'The dives as a table', disabled: true });
    await expect(grey).toBeVisible();
    const seen = new Set<string>();
    const focused = (): Promise<string> => page.locator(':focus').innerText();
    await expect(page.getByRole('menu').locator(':focus')).toHaveCount(1);
    const first = await focused();
    do {
      const at = await focused();
      expect(seen).not.toContain(at);
      seen.add(at);
      await page.keyboard.press('ArrowDown');
      await expect.poll(focused).not.toBe(at);
    } while ((await focused()) !== first);
    await expect(items.and(page.locator(':enabled'))).toHaveCount(seen.size);
    await page.keyboard.press('ArrowUp');
    await expect.poll(focused).not.toBe(first);
    await page.keyboard.press('ArrowDown');
    await expect.poll(focused).toBe(first);
  });

  test('keys undo and redo, in a field too, but leave a draft its own undo', async ({ page, bench }) => {
    await bench.chooseTightest();
    const field = bench.field('Depth');
    const depth = await field.inputValue();
    await bench.set('Depth', '12');
    await page.keyboard.press('Control+z');
    await expect(field).toHaveValue(depth);
    await page.keyboard.press('Control+y');
    await expect(field).toHaveValue('12 m');
    await expect(field).toBeFocused();
    await field.press('End');
    await page.keyboard.type('7');
    await page.keyboard.press('Control+z');
    await expect(field).toHaveValue('12 m');
    await expect(page.getByRole('button', { name: /^Undo depth of dive/ })).toBeEnabled();
    await page.keyboard.press('Control+z');
    await expect(field).toHaveValue(depth);
    await page.keyboard.press('Control+Shift+z');
    await expect(field).toHaveValue('12 m');
    await bench.field('Depth').blur();
    await page.keyboard.press('Control+z');
    await expect(bench.field('Depth')).toHaveValue(depth);
    await page.keyboard.press('Control+Shift+z');
    await expect(bench.field('Depth')).toHaveValue('12 m');
  });

  test('what is being typed is kept before a key runs a command', async ({ page, bench }) => {
    await bench.chooseTightest();
    await bench.field('Depth').fill('13');
    await page.keyboard.press('Control+s');
    await expect(bench.outcome('PO2 at 13 m')).toBeVisible();
    await bench.waitForSave();
  });

  test('the sheet of keys shows what the list has', async ({ page, bench }) => {
    await page.keyboard.press('F1');
    await expect(bench.dialog.getByRole('heading', { name: 'Keys' })).toBeVisible();
    await expect(bench.dialog).toContainText('Ctrl+K');
    await bench.dialog.getByRole('button', { name: 'Close' }).click();
    await expect(bench.dialog).toHaveCount(0);
  });

  test('what lies over the window gives the focus back as it goes', async ({ page, bench }) => {
    await bench.chooseTightest();
    const field = bench.field('Depth');
    await field.focus();
    for (const keys of ['Control+k', 'F1', 'Control+Shift+c', 'Control+Shift+o', 'Control+,']) {
      await page.keyboard.press(keys);
      await expect(bench.dialog).toBeVisible();
      await page.keyboard.press('Escape');
      await expect(bench.dialog).toHaveCount(0);
      await expect(field).toBeFocused();
    }
    const figure = bench.card.getByRole('button', { name: 'No-stop time' });
    await figure.click();
    await bench.dialog.getByRole('button', { name: 'Close' }).click();
    await expect(figure).toBeFocused();
    await bench.command('keys');
    await bench.dialog.getByRole('button', { name: 'Close' }).click();
    await expect(figure).toBeFocused();
    await bench.command('Party');
    await expect(page.getByRole('main')).toBeFocused();
  });

  test('a command of the palette takes the focus to the dive it goes to', async ({ page, bench, strip }) => {
    await strip.dive(4).focus();
    await page.keyboard.press('Enter');
    await bench.command('next dive');
    await expect(strip.dive(5)).toBeFocused();
  });

  test('“There is no flight” hands the focus to what comes in its place', async ({ bench }) => {
    await bench.command('title, water');
    await bench.dialog.getByRole('button', { name: 'There is no flight' }).click();
    const add = bench.dialog.getByRole('button', { name: 'Add the flight home' });
    await expect(add).toBeFocused();
    await add.click();
    await expect(bench.dialog.getByLabel('Day', { exact: true })).toBeFocused();
  });

  test('adds, duplicates and removes a dive', async ({ page, bench }) => {
    const dives = page.getByRole('listbox', { name: 'Dives' }).getByRole('option');
    const before = await dives.count();
    await page.keyboard.press('Insert');
    await expect(dives).toHaveCount(before + 1);
    await page.keyboard.press('Delete');
    await expect(dives).toHaveCount(before);
    await bench.chooseTightest();
    await bench.command('duplicate the dive');
    await bench.command('duplicate the dive');
    await expect(dives).toHaveCount(before + 2);
    await page.getByRole('button', { name: 'Undo copy of a dive' }).click();
    await expect(dives).toHaveCount(before + 1);
  });

  test('copies no day into the hours before the flight', async ({ page, bench }) => {
    await bench.chooseTightest();
    await bench.command('duplicate the day');
    await expect(page.getByRole('alert')).toContainText('before the flight on Sat 20, 16:30.');
  });

  test('a plan can be made without a mouse', async ({ page, bench }) => {
    await page.keyboard.press('Control+e');
    await expect(bench.field('Depth')).toBeVisible();
    // From the top of the page by Tab alone to the depth of the chosen dive.
    let reached = false;
    for (let i = 0; i < 80 && !reached; i += 1) {
      await page.keyboard.press('Tab');
      reached = await bench.field('Depth').evaluate((field) => field === document.activeElement);
    }
    expect(reached).toBe(true);
    const room = await bench.outcome('Room').textContent();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowDown');
    await expect(bench.outcome('Room')).not.toHaveText(room ?? '');
  });
});
