import { readFile } from 'node:fs/promises';
import { at, expect, test as base } from './fixtures';
import { SitesPage } from './pages/sites';
import { A4_SIDES, printed } from './pdf';
import { wcagBreaches } from './wcag';

/** Columns of the table, the name of the site not counted. */
const DIVES = 2;
const WHEN = 3;

const test = base.extend<{ sites: SitesPage }>({ sites: at(SitesPage) });

test.describe('the sites', () => {
  test('stand in a table with depth, mix that suits, dives, days, position and notes', async ({ sites }) => {
    await expect(sites.table.getByRole('columnheader')).toHaveText([
      'Name',
      'Depth',
      /^Mix/,
      'Dives',
      'When',
      'Position',
      'Notes',
      'Remove',
    ]);
    await expect.poll(() => sites.names()).toHaveLength(6);
    // 36 m in gauge water: 1.4 bar of oxygen allows 30.3 %, so the 28 % of the boat and not the 32.
    await expect(sites.row('Anvil Head')).toContainText('EAN28');
    await expect(sites.row('Anvil Head')).toContainText('up to 30.3 %');
    await expect(sites.row('Anvil Head')).toContainText('Guest 2: to 30 m only');
    await expect(sites.row('Osier Channel').getByRole('cell').nth(DIVES)).toHaveText('5');
    await expect(sites.row('Osier Channel').getByRole('cell').nth(WHEN).getByRole('button')).toHaveCount(5);
  });

  test('print names, positions and notes whole, however long', async ({ page, sites }, info) => {
    const name = 'The extraordinarily long name of the pinnacle behind the lighthouse';
    await sites.set('Name of Anvil Head', name);
    const notes =
      'Moorings are on the lee side only, and the swell comes round the corner with the westerlies; beware';
    await sites.field(`Notes on ${name}`).fill(notes);
    await page.keyboard.press('Tab');
    await sites.set(`Position of ${name}`, '7.5 S, 148.25 E');
    for (const side of A4_SIDES) {
      const text = await printed(page, info.outputPath(`${side}.pdf`), side);
      for (const word of [...name.split(' '), '30.000′', '148°', ...notes.split(' ')]) {
        expect(text).toContain(word);
      }
      expect(text).not.toContain('Remove');
    }
  });

  test('are edited in place, and each edit is a step with a name', async ({ page, sites }) => {
    await sites.set('Depth of Anvil Head', '120 ft');
    await expect(sites.field('Depth of Anvil Head')).toHaveValue('36.5 m');
    await sites.set('Name of Anvil Head', 'Anvil Point');
    await expect(sites.field('Depth of Anvil Point')).toHaveValue('36.5 m');
    await sites.set('Position of Anvil Point', '7.5 S, 148.25 E');
    await expect(sites.field('Position of Anvil Point')).toHaveValue('7° 30.000′ S, 148° 15.000′ E');
    await page.getByRole('button', { name: 'Undo position of Anvil Point' }).click();
    await expect(sites.field('Position of Anvil Point')).toHaveValue('');
    await page.getByRole('button', { name: 'Undo name of Anvil Head' }).click();
    await page.getByRole('button', { name: 'Undo depth of Anvil Head' }).click();
    await expect(sites.field('Depth of Anvil Head')).toHaveValue('36 m');
  });

  test('carry levels, a briefing, a plan B and who may not dive them', async ({ page, sites }) => {
    await page.getByRole('button', { name: 'More about Anvil Head' }).click();
    const about = page.getByRole('group', { name: 'About Anvil Head' });
    const set = async (label: string, text: string): Promise<void> => {
      await about.getByLabel(label, { exact: true }).fill(text);
      await about.getByLabel(label, { exact: true }).press('Control+Enter');
    };
    await set('Levels, depth/min', '40/10');
    await expect(about.getByRole('alert')).toContainText('deeper than its site');
    await set('Levels, depth/min', '36/10, 20/15, 9 m/15 min');
    await expect(about.getByLabel('Levels, depth/min')).toHaveValue('36/10, 20/15, 9/15');
    await set('Note for the briefing', 'Out at the arch.');
    await set('Plan B', 'Thrift Garden');
    await set('Least depth limit', '45');
    await expect(sites.row('Anvil Head')).toContainText('three levels, briefing, plan B, not for everybody');
    // Guest 1 may go to 40 m, and is on a dive there.
    await page.getByRole('navigation').getByRole('button', { name: 'Party' }).click();
    await page
      .getByRole('grid', { name: 'The divers of the trip' })
      .getByRole('button', { name: 'Guest 1' })
      .click();
    await expect(page.getByRole('complementary', { name: 'Chosen diver' })).toContainText(
      'Anvil Head is for divers with a depth limit of 45 m or more',
    );
    await page.getByRole('button', { name: 'Undo who may dive of Anvil Head' }).click();
    await expect(page.getByRole('complementary', { name: 'Chosen diver' })).not.toContainText(
      'Anvil Head is for',
    );
  });

  test('change the mix that suits as soon as a depth does', async ({ sites }) => {
    await sites.set('Depth of Kettle Pinnacle', '38');
    await expect(sites.row('Kettle Pinnacle')).toContainText('EAN28');
    await expect(sites.row('Kettle Pinnacle')).toContainText('Guest 2: to 30 m only');
    await sites.set('Depth of Kettle Pinnacle', '25');
    await expect(sites.row('Kettle Pinnacle')).toContainText('EAN32');
    await expect(sites.row('Kettle Pinnacle')).not.toContainText('Guest 2: to 30 m only');
  });

  test('refuse what cannot be beside the field, and Escape brings back what was there', async ({
    bench,
    sites,
  }) => {
    await sites.set('Depth of Osier Channel', '400');
    await expect(sites.row('Osier Channel').getByRole('alert')).toContainText('400 m; it can be 1 to 100 m');
    await expect(sites.field('Depth of Osier Channel')).toHaveAttribute('aria-invalid', 'true');
    await sites.field('Depth of Osier Channel').press('Escape');
    await expect(sites.field('Depth of Osier Channel')).toHaveValue('21 m');
    await sites.set('Position of Osier Channel', 'by the pier');
    await expect(sites.row('Osier Channel').getByRole('alert')).toContainText('is no position');
    await expect(bench.page.getByRole('button', { name: 'Undo', exact: true })).toBeDisabled();
  });

  test('keep notes of several lines', async ({ page, bench, sites }) => {
    const notes = sites.field('Notes on Candle Harbour');
    await notes.fill('First line');
    await notes.press('Enter');
    await notes.pressSequentially('Second line');
    await notes.press('Control+Enter');
    await bench.waitForSave();
    await page.reload();
    await expect(sites.field('Notes on Candle Harbour')).toHaveValue('First line\nSecond line');
  });

  test('are sorted by any column, and a row being edited keeps its place', async ({ sites }) => {
    const asListed = await sites.names();
    await sites.sortBy('Depth');
    await expect(sites.head('Depth')).toHaveAttribute('aria-sort', 'ascending');
    await expect.poll(async () => (await sites.names())[0]).toBe('Candle Harbour');
    await sites.set('Depth of Candle Harbour', '40');
    await expect.poll(async () => (await sites.names())[0]).toBe('Candle Harbour');
    await expect(sites.field('Depth of Candle Harbour')).toBeFocused();
    await sites.filter.focus();
    await expect.poll(async () => (await sites.names()).at(-1)).toBe('Candle Harbour');
    await sites.sortBy('Depth');
    await expect(sites.head('Depth')).toHaveAttribute('aria-sort', 'descending');
    await expect.poll(async () => (await sites.names())[0]).toBe('Candle Harbour');
    await sites.sortBy('Depth');
    await expect(sites.head('Depth')).toHaveAttribute('aria-sort', 'none');
    await expect.poll(() => sites.names()).toEqual(asListed);
    for (const column of ['Name', 'Mix', 'Dives', 'When', 'Position', 'Notes']) {
      await sites.sortBy(column);
      await expect(sites.head(column)).toHaveAttribute('aria-sort', 'ascending');
    }
  });

  test('are found by name or notes', async ({ sites }) => {
    await sites.filter.fill('ledge slope');
    await expect.poll(() => sites.names()).toEqual(['Millstone Ledge']);
    await expect(sites.place.getByText('1 of 6')).toBeVisible();
    await sites.filter.fill('nowhere');
    await expect(sites.place.getByText('No site has these words.')).toBeVisible();
    await sites.filter.press('Escape');
    await expect.poll(() => sites.names()).toHaveLength(6);
  });

  test('are added by typing one after the other', async ({ page, sites }) => {
    const name = sites.place.getByLabel('New site');
    await name.fill('Gull Steps');
    await sites.place.getByLabel('Its depth, metres').fill('14,5');
    await sites.place.getByLabel('Its depth, metres').press('Enter');
    await expect(sites.field('Depth of Gull Steps')).toHaveValue('14.5 m');
    await expect(name).toBeFocused();
    await page.keyboard.type('Far Bank');
    await page.keyboard.press('Enter');
    await expect(sites.place.getByRole('alert')).toContainText('no depth');
    await expect.poll(() => sites.names()).toHaveLength(7);
  });

  test('are not removed while a dive uses them, and it is said which', async ({ page, sites }) => {
    await sites.row('Anvil Head').getByRole('button', { name: 'Remove Anvil Head' }).click();
    await expect(sites.place.getByRole('alert')).toContainText(
      /Anvil Head is the site of dives \d+ and \d+\./,
    );
    await expect.poll(() => sites.names()).toContain('Anvil Head');
    await sites.place.getByLabel('New site').fill('Gull Steps');
    await sites.place.getByLabel('Its depth, metres').fill('14');
    await sites.place.getByRole('button', { name: 'Add', exact: true }).click();
    await sites.row('Gull Steps').getByRole('button', { name: 'Remove Gull Steps' }).click();
    await expect.poll(() => sites.names()).not.toContain('Gull Steps');
    await expect(sites.row('Anvil Head').getByRole('button', { name: 'Remove Anvil Head' })).toBeFocused();
    await page.getByRole('button', { name: 'Undo removal of Gull Steps' }).click();
    await expect.poll(() => sites.names()).toContain('Gull Steps');
  });

  test('are pasted as rows of a spreadsheet, each that cannot be read told with its line', async ({
    sites,
  }) => {
    await sites.paste('Name\tDepth (ft)\tNotes\nGull Steps\t60\tSteps\nNowhere\t\t\nOsier Channel\t70\t');
    await expect(sites.sheet).toBeVisible();
    await expect(sites.sheet).toContainText('Line 3: The row has no depth.');
    await expect(sites.sheet.getByLabel('Add Osier Channel')).not.toBeChecked();
    await sites.sheet.getByRole('button', { name: 'Add the site' }).click();
    await expect(sites.sheet).toHaveCount(0);
    await expect(sites.field('Depth of Gull Steps')).toHaveValue('18.2 m');
    await expect(sites.field('Notes on Gull Steps')).toHaveValue('Steps');
    await expect.poll(() => sites.names()).toHaveLength(7);
  });

  test('are read row by row, each with its own separator, and one that reads two ways is refused', async ({
    sites,
  }) => {
    await sites.paste('Gull Steps\t18,5\nHouse Reef, 14\nFar Bank; 26\nReef, 14; 20');
    await expect(sites.sheet.getByRole('listitem')).toHaveText([/^Line 4: .*two ways.*same sign/]);
    await expect(sites.sheet.getByLabel('Add House Reef')).toBeChecked();
    await sites.sheet.getByRole('button', { name: 'Add 3 sites' }).click();
    await expect(sites.field('Depth of Gull Steps')).toHaveValue('18.5 m');
    await expect(sites.field('Depth of House Reef')).toHaveValue('14 m');
  });

  test('are pasted over a field too when they are rows, and a single cell stays its text', async ({
    sites,
  }) => {
    await sites.field('Name of Anvil Head').focus();
    await sites.paste('just a name');
    await expect(sites.sheet).toHaveCount(0);
    await sites.paste('Gull Steps\t18');
    await expect(sites.sheet.getByLabel('Add Gull Steps')).toBeChecked();
  });

  test('are read from a file of waypoints, and a depth it lacks is asked for', async ({ bench, sites }) => {
    const gpx =
      '<gpx version="1.1" creator="t" xmlns="http://www.topografix.com/GPX/1/1"><wpt lat="-7.5" lon="148.25"><name>Far Bank</name></wpt></gpx>';
    await bench.command('sites from a list');
    await expect(sites.sheet).toBeVisible();
    bench.answerNextFile('waypoints.gpx', gpx);
    await sites.sheet.getByRole('button', { name: 'Choose a file' }).click();
    await expect(sites.sheet).toContainText('The list does not say it.');
    await expect(sites.sheet.getByRole('button', { name: 'Add the site' })).toBeDisabled();
    const depth = sites.sheet.getByLabel('Depth of Far Bank');
    await depth.fill('300');
    await depth.press('Enter');
    await expect(sites.sheet.getByRole('alert')).toContainText('it can be 1 to 100 m');
    await depth.fill('26');
    await depth.press('Enter');
    await sites.sheet.getByRole('button', { name: 'Add the site' }).click();
    await expect(sites.field('Position of Far Bank')).toHaveValue('7° 30.000′ S, 148° 15.000′ E');
    await expect(sites.field('Depth of Far Bank')).toHaveValue('26 m');
  });

  test('are read with the depth that receivers write, and a height alone has to be confirmed', async ({
    bench,
    sites,
  }) => {
    const gpx =
      '<gpx version="1.1" creator="t" xmlns="http://www.topografix.com/GPX/1/1" xmlns:g="http://www.garmin.com/xmlschemas/GpxExtensions/v3">' +
      '<wpt lat="-7.5" lon="148.25"><ele>-4</ele><name>Far Bank</name><extensions><g:WaypointExtension><g:Depth>18.5</g:Depth></g:WaypointExtension></extensions></wpt>' +
      '<wpt lat="-7.6" lon="148.25"><ele>-21.4387</ele><name>Gull Steps</name></wpt></gpx>';
    await bench.command('sites from a list');
    bench.answerNextFile('waypoints.gpx', gpx);
    await sites.sheet.getByRole('button', { name: 'Choose a file' }).click();
    await expect(sites.sheet.getByRole('row', { name: /Far Bank/ })).toContainText('18.5 m');
    const row = sites.sheet.getByRole('row', { name: /Gull Steps/ });
    await expect(row).toContainText('The list has a height alone, and receivers err by metres.');
    const add = sites.sheet.getByRole('button', { name: 'Add 2 sites' });
    await expect(add).toBeDisabled();
    await row.getByRole('button', { name: 'Use 21.5 m for Gull Steps' }).click();
    const depth = sites.sheet.getByLabel('Depth of Gull Steps');
    await expect(depth).toHaveValue('21.5 m');
    await depth.fill('24');
    await depth.press('Enter');
    await add.click();
    await expect(sites.field('Depth of Gull Steps')).toHaveValue('24 m');
    await expect(sites.field('Depth of Far Bank')).toHaveValue('18.5 m');
  });

  test('and dives are handed out as files that other programs read', async ({ page, sites }) => {
    for (const [words, name, begins] of [
      ['save sites csv', /sites\.csv$/, '\uFEFFname,depth (m)'],
      ['save sites gpx', /sites\.gpx$/, '<?xml'],
      ['save ledger csv', /ledger\.csv$/, '\uFEFF'],
      ['save fills by diver csv', /stock\.csv$/, '\uFEFFdiver,site'],
      ['save dives calendar', /calendar\.ics$/, 'BEGIN:VCALENDAR'],
    ] as const) {
      const download = page.waitForEvent('download');
      await sites.bench.command(words);
      const file = await download;
      expect(file.suggestedFilename()).toMatch(name);
      const text = await readFile(await file.path(), 'utf8');
      expect(text.startsWith(begins), words).toBe(true);
      expect(text).toContain('Thrift Garden');
    }
  });

  test('are written with semicolons where Settings say so, also the next time', async ({ page, sites }) => {
    await sites.bench.command('settings');
    await sites.bench.dialog.getByLabel('Tables (CSV)').selectOption({ label: 'Semicolons: 18,5;40' });
    await page.keyboard.press('Escape');
    const save = async (): Promise<string> => {
      const download = page.waitForEvent('download');
      await sites.bench.command('save sites csv');
      return readFile(await (await download).path(), 'utf8');
    };
    const text = await save();
    expect(text).toMatch(/^\uFEFFname;depth \(m\);/);
    expect(text).toContain(';-7,412;148,318;');
    await page.reload();
    await expect(sites.row('Thrift Garden')).toBeVisible();
    expect(await save()).toBe(text);
  });

  test('lead to their dives', async ({ bench, sites }) => {
    await sites.row('Millstone Ledge').getByRole('cell').nth(WHEN).getByRole('button').first().click();
    await expect(bench.card).toContainText('Millstone Ledge');
  });

  test('say how to begin where there are none', async ({ page, bench, sites }) => {
    await bench.command('new trip empty');
    await expect(bench.dialog).toBeVisible();
    await page.keyboard.press('Escape');
    await sites.go();
    await expect(sites.place).toContainText('No sites yet.');
    await expect(sites.place.getByRole('button', { name: 'Save the sites as CSV' })).toBeDisabled();
  });

  test('are reached and edited without a pointer', async ({ page, sites }) => {
    await page.keyboard.press('Alt+1');
    await page.keyboard.press('Alt+2');
    await expect(sites.place).toBeVisible();
    await sites.filter.focus();
    // From the filter: the seven heads, then name, depth.
    for (let i = 0; i < 9; i += 1) await page.keyboard.press('Tab');
    await expect(sites.field('Depth of Thrift Garden')).toBeFocused();
    await page.keyboard.press('ArrowUp');
    await expect(sites.field('Depth of Thrift Garden')).toHaveValue('17 m');
  });
});

for (const look of ['light', 'cabin'] as const) {
  test.describe(() => {
    test.use({ colorScheme: look === 'cabin' ? 'dark' : 'light' });

    test(`a list and a refusal hold WCAG 2.2 AA in the ${look} look`, async ({ page, bench, sites }) => {
      await sites.set('Depth of Osier Channel', '400');
      const refused = await wcagBreaches(page);
      await sites.field('Depth of Osier Channel').press('Escape');
      await bench.command('sites from a list');
      await sites.sheet.getByLabel('Rows of sites').fill('Gull Steps, 18\nNowhere\nOsier Channel, 21');
      await expect(sites.sheet.getByLabel('Add Gull Steps')).toBeChecked();
      expect([...refused, ...(await wcagBreaches(page))]).toEqual([]);
    });
  });
}
