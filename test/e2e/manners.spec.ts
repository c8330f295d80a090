/** What a desktop expects of a window: menus of what lies under the pointer, and files that are dropped on it. */
import { readFile } from 'node:fs/promises';
import type { Page } from '@playwright/test';
import { uddfLog } from '../support/uddf-log';
import { expect, test } from './fixtures';

/** Lets a file go over the window, as a file manager would. */
async function drop(
  page: Page,
  ...files: readonly { readonly name: string; readonly text: string }[]
): Promise<void> {
  const dataTransfer = await page.evaluateHandle((given) => {
    const transfer = new DataTransfer();
    for (const { name, text } of given) transfer.items.add(new File([text], name));
    return transfer;
  }, files);
  await page.locator('main').dispatchEvent('dragover', { dataTransfer });
  await page.locator('main').dispatchEvent('drop', { dataTransfer });
}

test('a dive has a menu of its own, by pointer and by key, that passes over what cannot be done', async ({
  page,
  bench,
}) => {
  const menu = page.getByRole('menu', { name: 'Dive 2' });
  await expect(async () => {
    await bench.dive(2).click({ button: 'right' });
    await expect(menu).toBeVisible({ timeout: 1000 });
  }).toPass();
  await expect(menu.getByRole('menuitem', { name: 'Duplicate the dive' })).toBeFocused();
  await expect(menu.getByRole('menuitem', { name: 'Paste dives' })).toBeDisabled();
  for (const name of ['Duplicate the day', 'Copy the dive', 'Swap with another dive']) {
    await page.keyboard.press('ArrowDown');
    await expect(menu.getByRole('menuitem', { name })).toBeFocused();
  }
  await page.keyboard.press('Escape');
  await expect(menu).toBeHidden();
  await expect(bench.dive(2)).toHaveAttribute('aria-selected', 'true');
  const before = await page.getByRole('listbox', { name: 'Dives' }).getByRole('option').count();
  await bench.dive(2).focus();
  await page.keyboard.press('Shift+F10');
  await expect(menu.getByRole('menuitem', { name: 'Duplicate the dive' })).toBeFocused();
  await page.keyboard.press('End');
  await expect(menu.getByRole('menuitem', { name: 'Remove the dive' })).toBeFocused();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('listbox', { name: 'Dives' }).getByRole('option')).toHaveCount(before - 1);
});

test('sites and divers have one too, and a field that is typed in keeps the system’s', async ({
  page,
  bench,
}) => {
  await page.getByRole('navigation').getByRole('button', { name: 'Sites' }).click();
  const depth = page.getByLabel('Depth of Millstone Ledge');
  const menu = page.getByRole('menu', { name: 'Millstone Ledge' });
  await depth.click();
  await depth.click({ button: 'right' });
  await expect(menu).toBeHidden();
  await page
    .getByRole('row', { name: /Millstone Ledge/ })
    .getByRole('cell')
    .nth(2)
    .click({ button: 'right' });
  await expect(menu.getByRole('menuitem', { name: 'Remove the site' })).toBeDisabled();
  await menu.getByRole('menuitem', { name: 'New dive here' }).click();
  await expect(bench.card).toContainText('Millstone Ledge');
  await page.getByRole('navigation').getByRole('button', { name: 'Party' }).click();
  await page.getByRole('gridcell', { name: 'Guest 2' }).first().click({ button: 'right' });
  const download = page.waitForEvent('download');
  await page.getByRole('menuitem', { name: 'Save the dives of Guest 2 as UDDF' }).click();
  expect((await download).suggestedFilename()).toMatch(/guest-2\.uddf$/);
});

test('a trip that is dropped is opened, a list of sites comes into its sheet, and more than one file is refused', async ({
  page,
  bench,
}) => {
  const download = page.waitForEvent('download');
  await bench.command('save a copy as a file');
  const text = await readFile(await (await download).path(), 'utf8');
  await drop(page, { name: 'a.csv', text: 'name' }, { name: 'b.csv', text: 'name' });
  await expect(page.getByText('Several files were dropped.')).toBeVisible();
  await drop(page, {
    name: 'other.carryover',
    text: text.replace(/"title": ?"[^"]*"/, '"title": "From the desktop"'),
  });
  await expect(bench.title).toHaveText('From the desktop');
  await drop(page, {
    name: 'sites.kml',
    text: '<kml><Placemark><name>Gull Steps</name><Point><coordinates>1,2</coordinates></Point></Placemark></kml>',
  });
  await expect(bench.dialog.getByLabel('Depth of Gull Steps')).toBeVisible();
  await drop(page, { name: 'other.carryover', text });
  await expect(bench.dialog.getByLabel('Depth of Gull Steps')).toBeVisible();
  await expect(bench.title).toHaveText('From the desktop');
});

const LOG = uddfLog([
  { startsAt: '2027-03-14T09:38:20', site: 'Thrift Garden', deepestM: 16.2, bottomMin: 41, endBar: 70 },
]);

test('recorded dives that are dropped are read beside the window into their sheet, which can be stopped', async ({
  page,
  bench,
}) => {
  await expect(bench.dive(1)).toBeVisible();
  let isHeld = true;
  // A worker that never comes reads for ever, as a log of many years would for seconds.
  await page.route(/recorded-worker.*\.js/, (route) => (isHeld ? undefined : route.continue()));
  await drop(page, { name: 'log.uddf', text: LOG });
  const sheet = page.getByRole('dialog', { name: 'Recorded profiles' });
  await expect(sheet.getByText('Reading log.uddf…')).toBeVisible();
  await sheet.getByRole('button', { name: 'Stop reading' }).click();
  await expect(sheet.getByText('Reading log.uddf…')).toHaveCount(0);
  await page.keyboard.press('Escape');
  await expect(sheet).toHaveCount(0);
  isHeld = false;
  await drop(page, { name: 'log.uddf', text: LOG });
  await expect(sheet.getByRole('combobox', { name: /^Dive of the trip for/ })).toHaveValue('d1');
  await expect(sheet.getByLabel('Whose dives')).toHaveValue('guest2');
  await expect(sheet.getByText('log.uddf')).toBeVisible();
  // What is packed is told as that.
  await page.keyboard.press('Escape');
  await drop(page, { name: 'places.kmz', text: 'PK\u0003\u0004\u0014\u0000\u0000\u0000' });
  await expect(
    page.getByText('The file is packed: an archive (ZIP), places as KMZ or a workbook.'),
  ).toBeVisible();
});

test('a dive has the same menu in the table of dives', async ({ page, bench }) => {
  await bench.command('dives as a table');
  const menu = page.getByRole('menu', { name: 'Dive 3' });
  const rows = page.getByRole('grid').getByRole('row');
  await expect(page.locator('[data-row="2"]').first()).toBeVisible();
  const before = await rows.count();
  await page.locator('[data-row="2"][data-column="3"]').click({ button: 'right' });
  await menu.getByRole('menuitem', { name: 'Duplicate the dive' }).click();
  await expect(menu).toHaveCount(0);
  await expect(rows).toHaveCount(before + 1);
});

test('the guide opens from Help, with a picture of each of its six jobs', async ({ page, bench }) => {
  await bench.command('guide');
  await expect(bench.dialog.getByRole('heading', { level: 3 })).toHaveCount(6);
  const pictures = bench.dialog.getByRole('img');
  await expect(pictures).toHaveCount(6);
  for (const picture of await pictures.all()) {
    await picture.scrollIntoViewIfNeeded();
    await expect(picture).toHaveJSProperty('naturalWidth', 1280);
  }
  await page.keyboard.press('Escape');
  await expect(bench.dialog).toHaveCount(0);
});
