import { readFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { readTrip } from '../../core/document/read-trip';
import { at, expect, test as base } from './fixtures';
import { MixesPlace, onBoardText } from './pages/mixes';
import { printed, wordsInMargins } from './pdf';
import { wcagBreaches } from './wcag';

const test = base.extend<{ mixes: MixesPlace }>({ mixes: at(MixesPlace) });

const read = readTrip(readFileSync('core/document/demo-trip.json', 'utf8'));
if (!read.ok) throw new Error('the demo trip is not read');
const trip = read.value;

const onBoard = onBoardText(trip.mixes);

test.describe('mixes', () => {
  test('compares the mixes at every site, alone and in the trip, for the party and for one', async ({
    mixes,
  }) => {
    for (const site of trip.sites) await expect(mixes.row(new RegExp(`^${site.name}`))).toBeVisible();
    const first = mixes.row(new RegExp(`^${trip.sites[0]!.name}`));
    const inTrip = await first.innerText();
    await mixes.panel.getByLabel('No-stop time', { exact: true }).selectOption('alone');
    await expect(first).not.toHaveText(inTrip);
    const party = await mixes.panel.innerText();
    await mixes.panel.getByLabel('Whose figures').selectOption({ label: trip.party[1]!.name });
    await expect.poll(() => mixes.panel.innerText()).not.toBe(party);
  });

  test('draws each mix by depth to its MOD with the sites on it, walked by keys and read out', async ({
    page,
    mixes,
  }) => {
    const chart = mixes.panel.getByRole('figure');
    await expect(chart.getByText(/EAN32 ends at its MOD, 33 m/)).toBeVisible();
    await expect(chart.getByText(/Kettle Pinnacle 27 m/)).toBeVisible();
    await expect(chart.getByText('33 4 left')).toBeVisible();
    await chart.getByRole('application').focus();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowRight');
    const told = chart.getByRole('status');
    await expect(told).toContainText(/^Thrift Garden, EAN28: \d+ min at \d+ m/);
    await expect(mixes.panel.locator('td[data-pointed]')).toContainText(/min at \d+ m/);
    const minutes = /: (\d+ min) at/.exec(await told.innerText())![1]!;
    await expect(mixes.panel.locator('td[data-pointed]')).toContainText(minutes);
    await mixes
      .row(/^Kettle Pinnacle/)
      .getByText('33 min')
      .hover();
    await expect(told).toContainText(
      /^Kettle Pinnacle, EAN32: 33 min at 24 m; dive 13 of Guest 2 is on it, 29 min there, 4 min left/,
    );
  });

  test('prints each question as wide as the paper', async ({ page, mixes }, info) => {
    for (const [question, word] of [
      ['At the sites', 'Pinnacle'],
      ['For one dive', 'EAN32'],
      ['What to stock', '28 + 35'],
      ['Depth cards', 'EAN32'],
      ['In class', 'EAN36'],
    ] as const) {
      await mixes.ask(question);
      await expect(mixes.panel.locator('svg text, h3').first()).toBeVisible();
      const file = info.outputPath(`${question}.pdf`);
      const lines = await printed(page, file, 'upright');
      expect(lines).toContain(word);
      expect(lines.split(/\s+/)).not.toContain('Print');
      expect(await wordsInMargins(file)).toEqual([]);
    }
  });

  test('says why a mix may not go to a site', async ({ mixes }) => {
    const deepest = trip.sites.toSorted((a, b) => b.depthM - a.depthM)[0]!;
    await expect(mixes.row(new RegExp(`^${deepest.name}`))).toContainText(/MOD \d+ m for/);
  });

  test('asks about any share, and refuses what is none', async ({ mixes }) => {
    await mixes.panel.getByText('Try another mix').click();
    await mixes.panel.getByLabel('Oxygen, %').fill('30.5');
    await mixes.panel.getByRole('button', { name: 'Add column' }).click();
    await expect(mixes.panel.getByRole('button', { name: 'EAN30.5', exact: true })).toBeVisible();
    await mixes.panel.getByLabel('Oxygen, %').fill('12');
    await mixes.panel.getByRole('button', { name: 'Add column' }).click();
    await expect(mixes.panel.getByRole('alert')).toContainText('Type a percentage from 21 to 100.');
    await mixes.panel.getByRole('button', { name: 'Take away the column of 30.5 %' }).click();
    await expect(mixes.panel.getByRole('button', { name: 'EAN30.5', exact: true })).toHaveCount(0);
  });

  test('sorts by any column, both ways', async ({ mixes }) => {
    const depths = async () =>
      (await mixes.panel.getByRole('rowheader').allInnerTexts()).map((text) =>
        Number(/(\d+) m/.exec(text)?.[1]),
      );
    const listed = await depths();
    const rising = listed.toSorted((a, b) => a - b);
    await mixes.panel.getByRole('button', { name: 'Depth' }).click();
    await expect.poll(depths).toEqual(rising);
    await mixes.panel.getByRole('button', { name: 'Depth' }).click();
    await expect.poll(depths).toEqual(rising.toReversed());
  });

  test('saves the table as comma-separated values', async ({ page, mixes }) => {
    const downloading = page.waitForEvent('download');
    await mixes.panel.getByRole('button', { name: 'Save as CSV' }).click();
    const download = await downloading;
    expect(download.suggestedFilename()).toMatch(/\.csv$/);
    const text = await readFile(await download.path(), 'utf8');
    expect(text.trim().split('\r\n')).toHaveLength(1 + trip.sites.length * trip.mixes.length);
    for (const site of trip.sites) expect(text).toContain(site.name);
  });

  test('shows the mixes of one dive side by side and over its minutes, and takes one in one step', async ({
    page,
    mixes,
  }) => {
    await mixes.ask('For one dive');
    await mixes.panel.getByLabel('Dive', { exact: true }).selectOption({ index: 12 });
    const cells = async (head: string) =>
      mixes.panel
        .getByRole('row', { name: new RegExp(`^${head}`) })
        .getByRole('cell')
        .allInnerTexts();
    await expect
      .poll(() => cells('No-stop time'))
      .toEqual(['19 min at 24 m', '26 min at 24 m', '33 min at 24 m']);
    await expect.poll(() => cells('Can be used')).toEqual(['yes', 'yes', 'yes']);
    await expect.poll(async () => (await cells('Stops it would need')).at(-1)).toBe('none');
    // The picture drops to the very minutes of the table.
    const picture = mixes.panel.getByRole('figure');
    for (const [name, min] of [
      ['Air', '19 min'],
      ['EAN28', '26 min'],
      ['EAN32', '33 min'],
    ] as const) {
      await expect(picture.locator(`[data-mix="${name}"]`)).toHaveText(min);
    }
    await expect(picture.getByText('planned 29 min')).toBeVisible();
    await mixes.panel.getByText(/^What Air changes later/).click();
    await expect(mixes.panel.getByRole('columnheader', { name: 'CNS on surfacing' }).first()).toBeVisible();
    await mixes.panel.getByRole('button', { name: 'Use Air on this dive' }).click();
    await expect(mixes.panel.getByRole('columnheader', { name: 'Air now' })).toBeVisible();
    await page.getByRole('button', { name: 'Undo mix of dive 13' }).click();
    await expect(mixes.panel.getByRole('columnheader', { name: 'Air now' })).toHaveCount(0);
    await expect(mixes.panel.getByRole('columnheader', { name: 'EAN32 now' })).toBeVisible();
  });

  test('keeps the mixes on board: one more, an analysis, a price, one less', async ({ page, mixes }) => {
    await mixes.board.click();
    await page.getByLabel('One more, oxygen in %').fill('36');
    await page.getByRole('button', { name: 'Put on board', exact: true }).click();
    await expect(mixes.board).toHaveText(`${onBoard}, EAN36`);
    const added = page.getByRole('listitem', { name: 'EAN36' });
    await added.getByLabel('Analysed').fill('35.2');
    await added.getByLabel('Analysed').press('Enter');
    await expect(mixes.board).toContainText('EAN35.2 analysed');
    await page.getByLabel('Prices in').fill('EUR');
    await page.getByLabel('Prices in').press('Enter');
    await expect(mixes.panel.getByText('EUR\u00A06 a fill')).toBeVisible();
    await page.getByRole('button', { name: 'Remove EAN35.2' }).click();
    await expect(mixes.board).toHaveText(onBoard);
  });

  test('goes from question to question by arrow keys', async ({ page, mixes }) => {
    await mixes.tab('At the sites').focus();
    await page.keyboard.press('ArrowRight');
    await expect(mixes.tab('For one dive')).toBeFocused();
    await expect(mixes.tab('For one dive')).toHaveAttribute('aria-selected', 'true');
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('ArrowLeft');
    await expect(mixes.tab('In class')).toBeFocused();
  });

  for (const [look, questions] of [
    ['light', ['At the sites', 'For one dive', 'What to stock']],
    ['light', ['Fills', 'Depth cards', 'In class']],
    ['dark', ['At the sites', 'For one dive', 'What to stock']],
    ['dark', ['Fills', 'Depth cards', 'In class']],
  ] as const) {
    test(`is open to everybody in the ${look} look: ${questions.join(', ')}`, async ({ page, mixes }) => {
      await page.emulateMedia({ colorScheme: look });
      await mixes.board.click();
      for (const question of questions) {
        await mixes.ask(question);
        expect(await wcagBreaches(page), question).toEqual([]);
        if (question !== 'In class') continue;
        await mixes.panel.getByRole('button', { name: /^a loop in the place of/ }).click();
        await expect(mixes.panel.getByRole('group', { name: 'Loop' })).toBeVisible();
        expect(await wcagBreaches(page), 'In class, with a loop').toEqual([]);
      }
    });
  }
});

test.describe(() => {
  test.use({ viewport: { width: 900, height: 800 } });

  test('mixes at 200 percent text and half the width lose nothing to the side', async ({ bench, mixes }) => {
    await bench.enlarge();
    for (const question of [
      'At the sites',
      'For one dive',
      'What to stock',
      'Fills',
      'Depth cards',
      'In class',
    ]) {
      await mixes.ask(question);
      await expect(mixes.panel).not.toContainText('One moment…');
      await bench.expectNothingBeside(question);
    }
  });
});
