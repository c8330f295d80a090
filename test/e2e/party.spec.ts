import { readFileSync } from 'node:fs';
import type { Trip } from '../../core/document/types';
import { writeTrip } from '../../core/document/write-trip';
import { bigTrip } from '../bench/big-trip';
import { at, expect, test as base } from './fixtures';
import { PartyPage } from './pages/party';
import { A4_SIDES, printed } from './pdf';
import { wcagBreaches } from './wcag';

const test = base.extend<{ party: PartyPage }>({ party: at(PartyPage) });

/** The demo trip as it stands in its file; a runner without a bundler imports no JSON. */
const demo = JSON.parse(
  readFileSync(new URL('../../core/document/demo-trip.json', import.meta.url), 'utf8'),
) as Pick<Trip, 'dives'>;

test.describe('the party', () => {
  test('stands in a table with gear, limits and the tightest dive of each', async ({ party }) => {
    // The heads, four divers, and the line for new ones.
    await expect(party.divers.getByRole('row')).toHaveCount(6);
    const row = party.diver('Guest 2');
    const texts = ['Guest 2', '', '13', '12 L', '', '220', '50', '30', '40', '1.4/1.6', '45/75', ''];
    const cells = async () => (await row.getByRole('gridcell').allInnerTexts()).slice(0, texts.length);
    await expect.poll(cells).toEqual(texts);
    await expect(row).toContainText('tightest of the party');
    await expect(party.sentence).toContainText(
      /Four divers\. Tightest: Guest 2 on dive \d+, \w+ \d+, \d+ min of room\./,
    );
    // The card is of the tightest until another is chosen.
    await expect(party.field('Name')).toHaveValue('Guest 2');
  });

  test('says the same of the tightest dive as Days does', async ({ page, bench, party }) => {
    const said = /dive (\d+), (\w+ \d+), (\d+) min/.exec((await party.sentence.textContent()) ?? '');
    expect(said).not.toBe(null);
    await page.getByRole('navigation').getByRole('button', { name: 'Days' }).click();
    await expect(bench.sentence).toContainText(`Tightest: ${said![2]}`);
    await expect(bench.sentence).toContainText(`${said![3]} min of room for Guest 2`);
  });

  test('changes a diver field by field, and the figures follow', async ({ page, party }) => {
    await party.choose('Guest 1');
    const rooms = await party.rooms('Guest 1').allTextContents();
    await party.set('Gradient factor high', '70');
    await expect(party.diver('Guest 1')).toContainText('50/70');
    await expect(party.rooms('Guest 1')).not.toHaveText(rooms);
    await party.set('Surface gas rate (RMV)', '16,5');
    await party.set('Fill', '200');
    await party.set('Depth limit', '100 ft');
    await party.set('PO2 working, bar', '1.3');
    await expect(party.field('Depth limit')).toHaveValue('30.4 m');
    await expect(party.diver('Guest 1')).toContainText('1.3/1.6');
    await party.set('Name', 'Photographer');
    await expect(party.diver('Photographer')).toBeVisible();
    await page.getByRole('button', { name: 'Undo name of Guest 1' }).click();
    await page.getByRole('button', { name: 'Undo PO2 limit of Guest 1' }).click();
    await expect(party.diver('Guest 1')).toContainText('1.4/1.6');
  });

  test('is typed into as a spreadsheet is, cell by cell, and takes names with commas', async ({
    page,
    party,
  }) => {
    const cell = (name: string, column: number) => party.diver(name).getByRole('gridcell').nth(column);
    await cell('Guest 1', 3).dblclick();
    await page.keyboard.press('Control+a');
    await page.keyboard.type('2x12 at 232 bar');
    await page.keyboard.press('Tab');
    await expect(cell('Guest 1', 3)).toHaveText('24 L');
    await expect(cell('Guest 1', 5)).toHaveText('232');
    await page.keyboard.type('17');
    await page.keyboard.press('Enter');
    await expect(cell('Guest 1', 4)).toHaveText('17');
    // One diver's fill for everybody, by the button below and back by one undo.
    await cell('Guest 1', 5).click();
    await page.getByRole('button', { name: 'Same for all: fill 232' }).click();
    for (const name of ['Guide', 'Guest 2', 'Guest 3']) await expect(cell(name, 5)).toHaveText('232');
    await page.getByRole('button', { name: /^Undo / }).click();
    await expect(cell('Guest 3', 5)).toHaveText('230');
    // A group enters together; its minutes reach everybody in it.
    await cell('Guest 2', 11).click();
    await page.keyboard.type('Second boat');
    await page.keyboard.press('Enter');
    await page.keyboard.type('Second boat +10');
    await page.keyboard.press('Enter');
    await expect(cell('Guest 2', 11)).toHaveText('Second boat, +10 min');
    // New divers by their names.
    await party.divers.getByText('New: type or paste names').click();
    await page.keyboard.type('Ann, Bo; Cy');
    await page.keyboard.press('Enter');
    for (const name of ['Ann', 'Bo', 'Cy']) await expect(party.diver(name)).toBeVisible();
    await expect(page.getByRole('button', { name: 'Undo three new divers' })).toBeEnabled();
    await cell('Bo', 8).click();
    await page.keyboard.type('150');
    await page.keyboard.press('Enter');
    await expect(party.divers.locator('..').locator('..')).toContainText('Oxygen ceiling is 150 %');
  });

  test('refuses what cannot be beside the field', async ({ page, party }) => {
    await party.set('PO2 working, bar', '1.9');
    await expect(party.card.getByRole('alert')).toContainText('1.9');
    await party.field('PO2 working, bar').press('Escape');
    await party.set('Name', ' ');
    await expect(party.card.getByRole('alert')).toContainText('Nothing is typed.');
    await expect(page.getByRole('button', { name: 'Undo', exact: true })).toBeDisabled();
  });

  test('shows who is the tightest on which dive, in text and not in colour alone', async ({
    bench,
    party,
  }) => {
    const dives = demo.dives;
    await expect(party.rooms('Guide')).toHaveCount(dives.length);
    await expect(party.grid.locator('tbody .unseen', { hasText: 'tightest' })).toHaveCount(dives.length);
    const off = dives.findIndex(({ divers }) => divers && !divers.includes('guest2'));
    await expect(party.rooms('Guest 2').nth(off)).toHaveText('not on it');
    await party.grid.getByRole('button', { name: /^Dive 13, / }).click();
    await expect(bench.page.getByRole('region', { name: 'Dive 13' })).toBeVisible();
  });

  test('shows one day wider, with time, site and depth', async ({ party }) => {
    await party.show('Dives of', 'Wed 17');
    await expect(party.rooms('Guide')).toHaveCount(4);
    await expect(party.grid.getByRole('columnheader').nth(2)).toContainText('Kettle Pinnacle');
  });

  test('puts divers on dives and takes them off by ticks, walked with arrows', async ({ page, party }) => {
    await party.show('Show', 'who makes it');
    const first = party.tick('Guide', 1);
    await first.focus();
    await page.keyboard.press('ArrowDown');
    await expect(party.tick('Guest 1', 1)).toBeFocused();
    await page.keyboard.press('ArrowRight');
    await expect(party.tick('Guest 1', 2)).toBeFocused();
    await page.keyboard.press('Space');
    await expect(party.tick('Guest 1', 2)).not.toBeChecked();
    await page.keyboard.press('Tab');
    await expect(party.grid.locator('input:focus')).toHaveCount(0);
    await party.show('Show', 'minutes of room');
    await expect(party.rooms('Guest 1').nth(1)).toHaveText('not on it');
    await page.getByRole('button', { name: 'Undo divers of dive 2' }).click();
    await expect(party.rooms('Guest 1').nth(1)).not.toHaveText('not on it');
  });

  test('leaves nobody off a dive that would then have nobody', async ({ party }) => {
    await party.show('Show', 'who makes it');
    for (const name of ['Guide', 'Guest 1', 'Guest 2']) await party.tick(name, 1).uncheck();
    await party.tick('Guest 3', 1).click();
    await expect(party.grid.getByRole('alert')).toContainText('Dive 1 would be left without anybody.');
    await expect(party.tick('Guest 3', 1)).toBeChecked();
  });

  test('ticks the dives of one diver on their card', async ({ party }) => {
    await party.choose('Guest 1');
    await party.card.getByText('On every dive').click();
    await party.card.getByRole('group', { name: 'Dives of Guest 1' }).getByRole('checkbox').first().uncheck();
    await expect(party.card).toContainText('On 21 of 22 dives');
    await expect(party.rooms('Guest 1').first()).toHaveText('not on it');
  });

  test('carries earlier dives into the trip', async ({ bench, party }) => {
    /** The no-stop time of the first dive for Guest 1, as Days has it. */
    const noStop = async (): Promise<string | null> => {
      await party.card.getByRole('button', { name: 'Their figures on Days' }).click();
      await bench.dive(1).click();
      await expect(bench.card.getByRole('region', { name: 'Dive 1', exact: true })).toBeVisible();
      const text = await bench.outcome('No-stop time').textContent();
      await party.go();
      return text;
    };
    await party.choose('Guest 1');
    const rested = await noStop();
    await party.card.getByText('No dives before the trip').click();
    await party.card.getByRole('button', { name: 'Add a dive before the trip' }).click();
    const dive = party.card.getByRole('group', { name: /^Earlier dive/ });
    await expect(dive).toHaveCount(1);
    await expect(party.diver('Guest 1').getByRole('gridcell').last()).toHaveText('1');
    // On the morning of the trip itself, deep and long.
    await party.set('Start', '6:00');
    await party.set('Day', demo.dives[0]!.startsAt.slice(0, 10));
    await party.set('Depth', '40');
    await party.set('Bottom time', '25');
    await dive.getByLabel('Breathed').selectOption('Air');
    await expect(dive.getByLabel('Oxygen')).toHaveCount(0);
    expect(await noStop()).not.toBe(rested);
    await party.set('Start', '9:20');
    await expect(dive.getByRole('alert')).not.toBeEmpty();
    await party.field('Start').press('Escape');
    await party.card.getByRole('button', { name: /^Remove the earlier dive/ }).click();
    await expect(party.card).toContainText('No dives before the trip');
    await expect(party.card.getByText('No dives before the trip')).toBeFocused();
    expect(await noStop()).toBe(rested);
  });

  test('asks when a diver came up to a mountain lake, only where there is one', async ({ bench, party }) => {
    await expect(party.card.getByText('Came up from sea level')).toHaveCount(0);
    await bench.command('title water');
    await bench.dialog.getByLabel('Altitude of the water').fill('1500');
    await bench.dialog.getByLabel('Altitude of the water').press('Enter');
    await bench.dialog.getByRole('button', { name: 'Close' }).click();
    await party.card.getByRole('button', { name: 'Came up from sea level recently' }).click();
    await party.set('Arrived at', '9:30');
    await expect(party.field('Arrived at')).toHaveValue('09:30');
    await expect(party.diver('Guest 2')).toContainText('climb');
    await party.card.getByRole('button', { name: 'At this height long enough' }).click();
    await expect(party.diver('Guest 2')).not.toContainText('climb');
  });

  test('grows and shrinks, and says why it cannot', async ({ page, party }) => {
    await party.choose('Guest 3');
    await party.card.getByRole('button', { name: 'Copy Guest 3' }).click();
    await expect(party.field('Name')).toHaveValue('Guest 3, copy');
    await expect(party.field('Name')).toBeFocused();
    await expect(party.field('Oxygen ceiling')).toHaveValue('36 %');
    await party.card.getByRole('button', { name: 'Remove Guest 3, copy' }).click();
    await expect(party.divers.getByRole('row')).toHaveCount(6);
    await expect(page.getByRole('button', { name: 'Add a diver' })).toBeFocused();
    await page.keyboard.press('Enter');
    await expect(party.field('Name')).toHaveValue('Diver 5');
    await party.show('Show', 'who makes it');
    for (const name of ['Guide', 'Guest 1', 'Guest 2', 'Guest 3']) await party.tick(name, 1).uncheck();
    await party.card.getByRole('button', { name: 'Remove Diver 5' }).click();
    await expect(party.card.getByRole('alert')).toContainText('Diver 5 dives dive 1 alone.');
  });

  test('leads to the figures of a diver on Days', async ({ bench, party }) => {
    await party.choose('Guest 1');
    await party.card.getByRole('button', { name: 'Their figures on Days' }).click();
    await expect(bench.sentence).toContainText('for Guest 1');
  });

  test('reads in feet, psi and cubic feet', async ({ page, party }) => {
    await page.getByRole('button', { name: 'Units: metres. Change to feet' }).click();
    await expect(party.diver('Guide')).toContainText('85 cu ft');
    await expect(party.diver('Guide')).toContainText('2900');
    await party.choose('Guide');
    await party.set('Cylinder', '100');
    await expect(party.diver('Guide')).toContainText('100 cu ft');
    await party.set('Depth limit', '100');
    await expect(party.field('Depth limit')).toHaveValue('100 ft');
    // Refusals speak the same units, with bounds that are accepted as they stand there.
    await party.set('Depth limit', '400');
    await expect(party.card.getByRole('alert')).toContainText(
      'Depth limit is 400 ft; it can be 4 to 328 ft.',
    );
    await party.field('Depth limit').press('Escape');
    await party.set('Fill', '9000');
    await expect(party.card.getByRole('alert')).toContainText('9000 psi; it can be 291 to 5076 psi.');
    await party.field('Fill').press('Escape');
    await party.set('Surface gas rate (RMV)', '9');
    await expect(party.card.getByRole('alert')).toContainText('0.11 to 3.53 cu ft/min');
    await party.field('Surface gas rate (RMV)').press('Escape');
    await page.getByRole('button', { name: 'Units: feet. Change to metres' }).click();
    await expect(party.field('Depth limit')).toHaveValue('30.4 m');
    await expect(party.field('Cylinder')).toHaveValue('14.2 L');
  });

  test('stays readable with twelve divers and 56 dives', async ({ bench, party }) => {
    await bench.openFile('big.json', writeTrip(bigTrip(56, 12)));
    await expect(bench.title).toHaveText('A full fortnight');
    await expect(party.divers.getByRole('row')).toHaveCount(14);
    await expect(party.rooms('Guest 12')).toHaveCount(56);
    await bench.expectNothingBeside();
    // All twelve stand in the window without scrolling down, none on two lines; what is further right scrolls in its box.
    await expect(party.diver('Guest 12').getByRole('gridcell').first()).toBeInViewport({ ratio: 1 });
    const highest = () =>
      party.divers
        .getByRole('row')
        .evaluateAll((rows) => Math.max(...rows.slice(1).map((row) => row.clientHeight)));
    await expect.poll(highest).toBeLessThan(40);
  });

  test('shows long names on one line with the whole as a tip, every column in feet, or scrolls in its box', async ({
    page,
    bench,
    party,
  }) => {
    const trip = bigTrip(22, 4);
    const long = 'Maximiliane Hohenstaufen-Wittelsbach of Schleswig-Holstein';
    const divers = trip.party.map((diver, i) => (i === 1 ? { ...diver, name: long } : diver));
    await page.getByRole('button', { name: 'Units: metres. Change to feet' }).click();
    await bench.openFile('long.json', writeTrip({ ...trip, party: divers }));
    await expect(party.divers.getByRole('button', { name: long, exact: true })).toHaveAttribute(
      'title',
      `Card of ${long}`,
    );
    await expect(party.rooms(long)).toHaveCount(22);
    for (const table of [party.divers, party.grid.getByRole('table')]) {
      const differencePx = () =>
        table.locator('tbody tr').evaluateAll((rows) => {
          const heights = rows.map((row) => (row as HTMLElement).offsetHeight);
          return Math.max(...heights) - Math.min(...heights);
        });
      await expect.poll(differencePx).toBeLessThanOrEqual(1);
    }
    const box = party.divers.locator('..');
    const beyond = () => box.evaluate((element) => element.scrollWidth - element.clientWidth);
    await page.setViewportSize({ width: 1920, height: 1080 });
    await expect.poll(beyond).toBeLessThanOrEqual(0);
    await page.setViewportSize({ width: 1024, height: 700 });
    await expect.poll(beyond).toBeGreaterThan(0);
    await box.evaluate((element) => element.scrollTo({ left: element.scrollWidth }));
    await expect(party.divers.getByRole('columnheader', { name: 'Earlier' })).toBeInViewport({ ratio: 1 });
    await expect(party.divers.getByRole('button', { name: 'Guest 3' })).toBeInViewport({ ratio: 1 });
  });

  test('prints every diver, figure and dive, held upright or across', async ({
    page,
    bench,
    party,
  }, info) => {
    const trip = bigTrip(60, 12);
    const long = 'Maximiliane Hohenstaufen-Wittelsbach of Schleswig';
    const divers = trip.party.map((diver, i) => (i === 6 ? { ...diver, name: long } : diver));
    await page.getByRole('button', { name: 'Units: metres. Change to feet' }).click();
    await bench.openFile('big.json', writeTrip({ ...trip, party: divers }));
    await expect(party.rooms('Guest 12')).toHaveCount(60);
    const shown = await party.rooms('Guest 12').allInnerTexts();
    for (const side of A4_SIDES) {
      const lines = (await printed(page, info.outputPath(`${side}.pdf`), side)).split('\n');
      const figures = lines.map((line) => line.trim().split(/\s+/).map(Number));
      const heads = figures.filter((of) => of.length > 3 && of.every((n, i) => n === of[0]! + i));
      expect(heads.flat()).toEqual(trip.dives.map((_, i) => i + 1));
      const rows = lines.filter((line) => line.includes('Guest 12'));
      expect(rows[0]).toMatch(/93 cu ft.*131.*32.*1\.3\/1\.6.*50\/70.*none/);
      const cells = rows.slice(1).flatMap((line) => line.replace('Guest 12', '').trim().split(/\s+/));
      expect(cells.map((cell) => cell.replace('▸', ''))).toEqual(
        shown.map((cell) => cell.replace(/▸|\s*tightest/g, '')),
      );
      for (const word of ['RMV', 'Earlier', ...long.split(/[ -]/)]) {
        expect(lines.filter((line) => line.includes(word))).not.toEqual([]);
      }
    }
    await expect(party.grid.getByRole('table')).toHaveCount(1);
  });
});

for (const look of ['light', 'cabin'] as const) {
  test.describe(() => {
    test.use({ colorScheme: look === 'cabin' ? 'dark' : 'light' });

    test(`ticks, earlier dives and refusals hold WCAG 2.2 AA in the ${look} look`, async ({
      page,
      party,
    }) => {
      await party.show('Show', 'who makes it');
      await party.card.getByText('No dives before the trip').click();
      await party.card.getByRole('button', { name: 'Add a dive before the trip' }).click();
      await party.set('PO2 working, bar', '1.9');
      await expect(party.card.getByRole('alert')).toContainText('1.9');
      expect(await wcagBreaches(page)).toEqual([]);
    });
  });
}

test('text at 200 percent loses nothing of party and sites to the side', async ({ page, bench }) => {
  await bench.enlarge();
  for (const place of ['Party', 'Sites']) {
    await page.getByRole('navigation').getByRole('button', { name: place }).click();
    await expect(page.getByRole('heading', { name: place, level: 2 })).toBeVisible();
    await bench.expectNothingBeside(place);
  }
});
