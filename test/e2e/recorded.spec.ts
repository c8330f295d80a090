import { expect, test as base } from './fixtures';
import { Evening } from './pages/evening';
import { uddfLog, type LoggedDive } from '../support/uddf-log';

const test = base.extend<{ readonly evening: Evening }>({
  evening: async ({ bench }, use) => {
    await use(new Evening(bench));
  },
});

const SUNDAY: readonly LoggedDive[] = [
  { startsAt: '2027-03-14T09:38:20', site: 'Thrift Garden', deepestM: 16.2, bottomMin: 41, endBar: 70 },
  { startsAt: '2027-03-14T14:02:00', site: 'Osier', deepestM: 20.4, bottomMin: 39, endBar: 64 },
  { startsAt: '2027-03-14T21:30:00', site: 'Elsewhere', deepestM: 8, bottomMin: 30, endBar: 110 },
];

test('a recorded log is matched by time, corrected, taken in one step, drawn, and undone in one', async ({
  bench,
  evening,
}) => {
  await evening.open();
  await evening.panel.getByRole('button', { name: 'Recorded profiles from a file' }).click();
  const sheet = bench.page.getByRole('dialog', { name: 'Recorded profiles' });
  await expect(sheet.getByRole('button', { name: 'Take the profiles' })).toBeDisabled();
  bench.answerNextFile('log.uddf', uddfLog(SUNDAY));
  await sheet.getByRole('button', { name: 'Choose a file' }).click();

  await expect(sheet.getByLabel('Whose dives')).toHaveValue('guest2');
  const matches = sheet.getByRole('combobox', { name: /^Dive of the trip for/ });
  await expect(matches).toHaveCount(3);
  await expect(matches.nth(0)).toHaveValue('d1');
  await expect(matches.nth(1)).toHaveValue('d2');
  await expect(matches.nth(2)).toHaveValue('');
  await expect(sheet.getByRole('row').nth(1)).toContainText('8 min later');
  // Two for one dive cannot be.
  await matches.nth(2).selectOption('d2');
  await expect(sheet.getByRole('status').last()).toContainText('Two of them stand for the same dive');
  await matches.nth(2).selectOption('d3');
  // Nothing has changed so far.
  await expect(evening.progress).toContainText('0 of 12');
  await matches.nth(2).selectOption('');
  await expect(sheet.getByRole('button', { name: 'Take 2 profiles' })).toBeEnabled();
  // What nobody had planned is added, for whoever's computer it was.
  await matches.nth(2).selectOption({ label: 'Added at Candle Harbour' });
  await sheet.getByRole('button', { name: 'Take 3 profiles' }).click();

  await expect(sheet).toBeHidden();
  await expect(evening.progress).toContainText('3 of 13');
  await expect(evening.panel.getByRole('columnheader', { name: /\+ 21:30 Candle Harbour/ })).toBeVisible();
  await expect(evening.cell('Guest 2', 1)).toContainText('9:38');
  await expect(evening.cell('Guest 2', 2)).toContainText('16.2');
  await expect(evening.cell('Guest 2', 4)).toContainText('70');
  await expect(evening.cell('Guest 2', 5)).toContainText('32');
  await expect(bench.saved).toContainText('Saved');

  // The trip reopened from its file says the same.
  await bench.reload();
  await bench.page.getByRole('combobox', { name: /^Shown/ }).selectOption('Guest 2');
  await expect(bench.dive(1)).toHaveAccessibleName(/16\.2 m.*as recorded/);
  await expect(bench.dive(4)).toHaveAccessibleName(/8 m.*as recorded/);

  // A profile is taken off again, and what was typed or read of the dive stays.
  await bench.dive(1).click();
  const record = bench.page.getByRole('group', { name: 'As dived by Guest 2' });
  await expect(record).toContainText('As recorded, ');
  await record.getByRole('button', { name: 'Take the profile off' }).click();
  await expect(record).not.toContainText('As recorded, ');
  await expect(record.getByLabel('Deepest')).toHaveValue('16.2 m');
  await expect(bench.dive(1)).not.toHaveAccessibleName(/as recorded/);
  await bench.page.getByRole('button', { name: /^Undo/ }).click();
  await expect(bench.dive(1)).toHaveAccessibleName(/as recorded/);
});

test('undo takes back all that was taken', async ({ bench, evening }) => {
  await evening.open();
  await evening.panel.getByRole('button', { name: 'Recorded profiles from a file' }).click();
  const sheet = bench.page.getByRole('dialog', { name: 'Recorded profiles' });
  bench.answerNextFile('log.uddf', uddfLog(SUNDAY.slice(0, 2)));
  await sheet.getByRole('button', { name: 'Choose a file' }).click();
  await sheet.getByRole('button', { name: 'Take 2 profiles' }).click();
  await expect(evening.progress).toContainText('2 of 12');
  await bench.page.getByRole('button', { name: /^Undo/ }).click();
  await expect(evening.progress).toContainText('0 of 12');
});

test('a clock that was an hour off is put right before anything is matched', async ({ bench, evening }) => {
  await evening.open();
  await evening.panel.getByRole('button', { name: 'Recorded profiles from a file' }).click();
  const sheet = bench.page.getByRole('dialog', { name: 'Recorded profiles' });
  const off = SUNDAY.slice(0, 1).map((dive) => ({ ...dive, startsAt: '2027-03-14T05:35:00Z' }));
  bench.answerNextFile('log.uddf', uddfLog(off));
  await sheet.getByRole('button', { name: 'Choose a file' }).click();
  await expect(sheet).toContainText('The file gives its times as of Z');
  await expect(sheet.getByRole('button', { name: 'Take the profiles' })).toBeDisabled();
  await sheet.getByLabel('Add to its times, min').fill('240');
  await sheet.getByLabel('Add to its times, min').press('Enter');
  await expect(sheet.getByRole('row').nth(1)).toContainText('09:35');
  await sheet.getByRole('button', { name: 'Take the profile' }).click();
  await expect(evening.cell('Guest 2', 1)).toContainText('9:35');
});

test('a hostile file is refused inside the sheet, and a table is read as well as UDDF', async ({
  bench,
  evening,
}) => {
  await evening.open();
  await evening.panel.getByRole('button', { name: 'Recorded profiles from a file' }).click();
  const sheet = bench.page.getByRole('dialog', { name: 'Recorded profiles' });
  bench.answerNextFile('log.uddf', '<!DOCTYPE uddf [<!ENTITY a "b">]><uddf>&a;</uddf>');
  await sheet.getByRole('button', { name: 'Choose a file' }).click();
  await expect(sheet.getByRole('status').nth(1)).toContainText(
    'Line 1: Document types that define anything are not read',
  );
  const rows =
    'sep=;\r\ndiver;start;time (min);depth (m)\r\nGuest 1;2027-03-14 09:31;0;0\r\n;;1,5;15,4\r\n;;38;15,4\r\n;;41;0\r\n';
  bench.answerNextFile('log.csv', Buffer.from(`\uFEFF${rows}`, 'utf16le'));
  await sheet.getByRole('button', { name: 'Choose another file' }).click();
  await expect(sheet.getByLabel('Whose dives')).toHaveValue('guest1');
  await sheet.getByRole('button', { name: 'Take the profile' }).click();
  await expect(evening.cell('Guest 1', 2)).toContainText('15.4');
});

test('the dives are saved as UDDF: an archive of all, or the file of the chosen diver', async ({ bench }) => {
  const { page } = bench;
  const save = async (): Promise<string> => {
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Trip', exact: true }).click();
    await page.getByRole('menuitem', { name: 'Save the dives as UDDF' }).click();
    return (await download).suggestedFilename();
  };
  expect(await save()).toBe('seven-nights-among-the-ember-cays-uddf.zip');
  await page.getByRole('combobox', { name: /^Shown/ }).selectOption('Guest 1');
  expect(await save()).toBe('seven-nights-among-the-ember-cays-guest-1.uddf');
  await expect(page.getByText('planned, not dived')).toBeVisible();
});
