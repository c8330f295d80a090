import { readFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { readTrip } from '../../core/document/read-trip';
import { depthCard } from '../../core/mixes/depth-card';
import { pageReader, wordsOf } from '../../core/words/reader';
import { bare, figure, said } from '../../core/words/said';
import { at, expect, test as base } from './fixtures';
import { MixesPlace } from './pages/mixes';
import { wcagBreaches } from './wcag';

const test = base.extend<{ mixes: MixesPlace }>({ mixes: at(MixesPlace) });

const read = readTrip(readFileSync('core/document/demo-trip.json', 'utf8'));
if (!read.ok) throw new Error('the demo trip is not read');
const trip = read.value;
const ean32 = trip.mixes.find(({ o2 }) => o2 === 0.32)!;
const words = wordsOf(pageReader('metric'));

const names = trip.mixes
  .toSorted((a, b) => a.o2 - b.o2)
  .map(({ o2 }) => (o2 === 0.21 ? 'Air' : `EAN${Math.round(o2 * 100)}`));
const onBoard = `On board: ${names.join(', ')}`;

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

  test('works out what to stock as it is shown, says which list and why, and puts it on board in one step', async ({
    page,
    mixes,
  }) => {
    await mixes.ask('What to stock');
    await mixes.answered(91);
    await expect(mixes.panel.getByText('Stock EAN28 and EAN35.')).toBeVisible();
    await expect(
      mixes.panel.getByText(/so nitrogen room decides: half of the dives keep \d+ min/),
    ).toBeVisible();
    await expect(
      mixes.panel.getByRole('columnheader', { name: 'Nitrogen room, middle dive (decided)' }),
    ).toBeVisible();
    await expect(mixes.row(/^EAN28 and EAN35 recommended/)).toContainText('22 of 22');
    await expect(mixes.row(/^The trip/)).toContainText('€796');
    await mixes.putOnBoard.click();
    await expect(mixes.board).toHaveText('On board: Air, EAN28, EAN35');
    // What it is now is worked out at once.
    await mixes.answered(91);
    await page.getByRole('button', { name: /^Undo on board:/ }).click();
    await expect(mixes.board).toHaveText(onBoard);
  });

  test('shows what another list comes to: who breathes what where, what each pays, and its fills as a file', async ({
    mixes,
    page,
  }) => {
    await mixes.ask('What to stock');
    await mixes.lists.nth(1).click();
    const name = await mixes.lists.nth(1).innerText();
    const card = mixes.panel.getByRole('complementary', { name: `${name} on board` });
    await expect(card).toBeVisible();
    for (const { name: site } of trip.sites)
      await expect(card.getByRole('row', { name: new RegExp(`^${site}`) })).toBeVisible();
    for (const { name: diver } of trip.party)
      await expect(card.getByRole('row', { name: new RegExp(`^${diver}`) })).toContainText('€');
    await card.getByRole('button', { name: 'Fills by day' }).click();
    await expect(card.getByRole('row', { name: /^In all/ })).toBeVisible();
    const download = page.waitForEvent('download');
    await card.getByRole('button', { name: 'Save the fills as CSV' }).click();
    const file = await download;
    expect(file.suggestedFilename()).toMatch(/-stock\.csv$/);
    const [heads = '', ...rows] = (await readFile(await file.path(), 'utf8')).trim().split('\r\n');
    expect(heads).toContain('diver,site,depth of the site (m),oxygen (%),fills');
    // Those of the list, not of what is on board now: nothing was put there.
    const oxygen = new Set(rows.map((row) => row.split(',')[3]));
    oxygen.delete('21');
    expect([...oxygen].toSorted()).toEqual(name.match(/\d+/g));
    await mixes.panel.getByRole('button', { name: /^Show all \d+ told$/ }).click();
    await expect(mixes.row(/ worse /).first()).toBeVisible();
  });

  test('draws the lists that nothing beats with titled axes, each mark labelled or read out', async ({
    mixes,
  }) => {
    await mixes.ask('What to stock');
    const chart = mixes.panel.getByRole('figure');
    await expect(chart.getByText('Cost of all fills')).toBeVisible();
    await expect(chart.getByText('Nitrogen room of the middle dive, minutes')).toBeVisible();
    await expect(chart.getByText('28 + 35', { exact: true })).toBeVisible();
    // One list is compared with nothing.
    await mixes.panel.getByLabel('To choose from').selectOption('board');
    await mixes.panel.getByLabel('Mixes besides air, at most').selectOption('1');
    await mixes.panel.getByRole('button', { name: '28 %, may be stocked' }).click();
    await mixes.answered(1);
    await expect(chart).toHaveCount(0);
    await expect(mixes.panel.getByText('Stock EAN28.')).toBeVisible();
  });

  test('keeps to shares that are fixed or left out, to what is on board, and to a day from which the blender fails', async ({
    mixes,
  }) => {
    await mixes.ask('What to stock');
    await mixes.panel.getByRole('button', { name: '24 %, not asked for' }).click();
    await expect(mixes.panel.getByRole('button', { name: '24 %, in every list' })).toBeVisible();
    await mixes.answered(14);
    await mixes.panel.getByRole('button', { name: '24 %, in every list' }).click();
    await mixes.panel.getByRole('button', { name: '34 %, may be stocked' }).click();
    await mixes.panel.getByRole('button', { name: '34 %, in every list' }).click();
    await mixes.answered(12 + 66);
    await mixes.panel.getByLabel('For the dives').selectOption({ index: 3 });
    await mixes.answered(12 + 66);
    await mixes.panel.getByLabel('To choose from').selectOption('board');
    await mixes.answered(3);
  });

  test('keeps to a cost that is typed, and refuses one that is none', async ({ mixes }) => {
    await mixes.ask('What to stock');
    const cost = mixes.panel.getByLabel('Largest cost');
    await cost.fill('700');
    await cost.press('Enter');
    await expect(
      mixes.panel.getByText(/\d+ lists cost more or take more fills than you allow\./),
    ).toBeVisible();
    await cost.fill('dear');
    await cost.press('Enter');
    await expect(cost).toHaveAttribute('aria-invalid', 'true');
    await cost.press('Escape');
    await cost.fill('1');
    await cost.press('Enter');
    await expect(mixes.panel.getByText(/^No list keeps within the cost and fills you allow/)).toBeVisible();
  });

  test('says plainly what cannot be searched', async ({ mixes }) => {
    await mixes.ask('What to stock');
    await mixes.panel.getByLabel('Mixes besides air, at most').selectOption('1');
    await mixes.panel.getByRole('button', { name: '33 %, may be stocked' }).click();
    await mixes.panel.getByRole('button', { name: '34 %, may be stocked' }).click();
    await expect(mixes.panel.getByRole('alert')).toContainText(
      '2 shares are fixed, but only 1 may be stocked.',
    );
  });

  test('cancels a search and changes nothing', async ({ page, mixes }) => {
    // The worker does not come until the search is cancelled, so that there is something to cancel however quick it is.
    let isHeld = true;
    await page.route(/stock-worker/, (route) => (isHeld ? undefined : route.continue()));
    await mixes.tab('What to stock').click();
    await expect(mixes.panel.getByText('91 lists, working them out')).toBeVisible();
    await mixes.panel.getByRole('button', { name: 'Cancel' }).click();
    await expect(mixes.panel.getByText('Cancelled; nothing has changed.')).toBeVisible();
    isHeld = false;
    await expect(page.getByRole('button', { name: /^Undo$/ })).toBeDisabled();
    await mixes.panel.getByRole('button', { name: 'Work them out' }).click();
    await mixes.answered(91);
  });

  test('reckons the fills by day, banked and by partial pressure, with and without compressibility', async ({
    mixes,
  }) => {
    await mixes.ask('Fills');
    const total = mixes.row(/^In all/);
    const ideal = await total.innerText();
    await mixes.panel.getByLabel('Amounts').selectOption('real');
    await expect(total).not.toHaveText(ideal);
    await mixes.panel.getByLabel('Amounts').selectOption('ideal');
    await mixes.panel.getByLabel('Filled').selectOption('partial-pressure');
    await mixes.panel.getByLabel('What is left in them').selectOption('other');
    await expect(total).not.toHaveText(ideal);
    await mixes.panel.getByLabel('Cylinders come back with').fill('500');
    await mixes.panel.getByLabel('Cylinders come back with').press('Enter');
    await expect(mixes.panel.getByRole('alert')).toContainText('no pressure to start a fill from');
  });

  test('says how each cylinder is blended and how many bottles of oxygen that takes, and saves the fills', async ({
    page,
    mixes,
  }) => {
    await mixes.ask('Fills');
    await mixes.panel.getByLabel('Filled').selectOption('partial-pressure');
    await expect(
      mixes.panel.getByText(/^\d+ bottles? of oxygen for the trip, without a booster/),
    ).toBeVisible();
    await expect(
      mixes.panel.getByText('Blending needs training and oxygen-clean gear', { exact: false }),
    ).toBeVisible();
    const steps = mixes.panel.getByRole('region', { name: 'Blending step by step' });
    // 50 bar of 32 %, to 200 bar: 20.9 bar of oxygen by Dalton.
    await expect(steps.getByRole('row', { name: /EAN32 12 L/ }).first()).toContainText('oxygen to 71 bar');
    const bottles = mixes.panel.getByLabel('Oxygen bottle, litres of water');
    await bottles.fill('1');
    await bottles.press('Enter');
    await expect(mixes.panel.getByText(/^\d{2,} bottles of oxygen/)).toBeVisible();
    await mixes.panel.getByLabel('Oxygen bottle, full at').fill('60');
    await mixes.panel.getByLabel('Oxygen bottle, full at').press('Enter');
    await expect(mixes.panel.getByText(/it takes a booster\.$/)).toBeVisible();
    await mixes.panel.getByLabel('Filled').selectOption('membrane');
    await expect(mixes.panel.getByText('A membrane takes no oxygen from bottles.')).toBeVisible();
    await mixes.panel.getByLabel('Filled').selectOption('continuous');
    await expect(mixes.panel.getByText(/bottles of oxygen for the trip:/)).toBeVisible();
    const loading = page.waitForEvent('download');
    await mixes.panel.getByRole('button', { name: 'Save as CSV' }).click();
    const file = await loading;
    expect(file.suggestedFilename()).toMatch(/-fills\.csv$/);
    const rows = (await readFile(await file.path(), 'utf8')).trim().split('\r\n');
    expect(rows[0]).toContain('day,oxygen (%),fills,gas put in (L),oxygen (L)');
    await expect(mixes.panel.getByLabel('Table of fills').getByRole('row')).toHaveCount(rows.length + 1);
  });

  test('has a card of each mix by depth, as it is printed, for the most careful or for one', async ({
    mixes,
  }) => {
    await mixes.ask('Depth cards');
    const card = mixes.panel.getByRole('region', { name: 'Depth card of EAN32' });
    const shown = async (depth: string) =>
      (await card.getByRole('row', { name: new RegExp(`^${depth} `) }).innerText()).split(/\s*\t\s*/);
    for (const diver of [null, ...trip.party]) {
      await mixes.panel
        .getByLabel('Whose figures')
        .selectOption({ label: diver === null ? 'the most careful of the party' : diver.name });
      const { rows, modM } = depthCard(trip, ean32, diver === null ? trip.party : [diver], 'metric');
      await expect(card.getByRole('heading')).toHaveText(`EAN32 MOD ${Math.floor(modM)} m`);
      const at24 = rows.find(({ depthM }) => depthM === 24)!;
      await expect
        .poll(() => shown('24 m'))
        .toEqual([
          '24 m',
          words(said`${bare('po2Met', at24.po2Bar)}`),
          words(said`${bare('densityMet', at24.densityGL)}`),
          words(said`${figure('depthCounted', at24.eadM)}`),
          words(said`${figure('minutesLeft', at24.noStopMin!)}`),
          words(said`${figure('minutesLeft', at24.cnsMin!)}`),
        ]);
      await expect(card.getByText('only to get out of trouble')).toHaveCount(
        rows.filter(({ isPastMod }) => isPastMod).length,
      );
    }
    await expect(card).toContainText('after another dive it is shorter');
  });

  test('shows in class what mixes do at a depth, moved by keys, by hand and by typing, and nothing of it is kept', async ({
    page,
    mixes,
  }) => {
    await mixes.ask('In class');
    const depth = mixes.panel.getByRole('slider', { name: 'Depth' });
    const noStop = async () =>
      (await mixes.panel.getByRole('table').getByRole('row').allInnerTexts())
        .slice(1)
        .map((row) => row.split('\t').at(-1));
    await expect(depth).toHaveAttribute('aria-valuetext', '26 m, 3.61 bar');
    await expect.poll(noStop).toEqual(['19 min', '25 min', '30 min', '37 min']);
    await expect(mixes.panel.getByRole('img', { name: /^Nitrogen over the minutes/ })).toHaveAccessibleName(
      /Air meets the limit at 19 min, EAN28 meets the limit at 25 min, EAN32 meets the limit at 30 min, EAN36 meets the limit at 37 min/,
    );
    await expect
      .poll(() => mixes.readBack('EAN32'))
      .toEqual({ depth: 26, po2: 1.16, noStopMin: 30, meetsMin: 30 });
    await depth.focus();
    await page.keyboard.press('PageDown');
    await expect(depth).toHaveAttribute('aria-valuetext', '31 m, 4.11 bar');
    await expect
      .poll(() => mixes.readBack('EAN28'))
      .toEqual({ depth: 31, po2: 1.15, noStopMin: 17, meetsMin: 17 });
    await expect.poll(async () => (await noStop()).at(-1)).toBe('past its MOD');
    await page.keyboard.press('Shift+ArrowUp');
    await expect(depth).toHaveAttribute('aria-valuenow', '30.9');
    const line = (await depth.boundingBox())!;
    await page.mouse.move(line.x + 20, line.y + 100);
    await page.mouse.down();
    await page.mouse.move(line.x + 20, line.y + 40, { steps: 4 });
    await page.mouse.up();
    await expect.poll(async () => Number(await depth.getAttribute('aria-valuenow'))).toBeLessThan(12);
    const field = mixes.panel.getByLabel('Depth', { exact: true }).first();
    await field.fill('50');
    await field.press('Enter');
    await expect(mixes.panel.getByText('The class goes from 3 m to 42 m.')).toBeVisible();
    await field.fill('26');
    await field.press('Enter');
    // A loop beside three of them, in every picture and in the workings, by the setpoints that are typed.
    await mixes.panel.getByRole('button', { name: 'a loop in the place of EAN36' }).click();
    await expect.poll(noStop).toEqual(['19 min', '25 min', '30 min', '33 min']);
    const loop = mixes.panel.getByRole('group', { name: 'Loop' });
    await expect(mixes.panel.getByText('switch at 6 m')).toBeVisible();
    expect(await mixes.readBack('Loop 1.2')).toEqual({ depth: 26, po2: 1.2, noStopMin: 33, meetsMin: 33 });
    await loop.getByLabel('Low setpoint, bar').fill('1.3');
    await loop.getByLabel('Low setpoint, bar').press('Enter');
    await expect(loop.getByRole('alert')).toHaveText(/The low setpoint is above the high one/);
    await loop.getByLabel('Low setpoint, bar').press('Escape');
    await loop.getByLabel('High setpoint, bar').fill('1.4');
    await loop.getByLabel('High setpoint, bar').press('Enter');
    await loop.getByLabel('Depth of the switch').fill('2 m');
    await loop.getByLabel('Depth of the switch').press('Enter');
    await expect(mixes.panel.getByText('not reached above 4.5 m')).toBeVisible();
    await expect.poll(noStop).toEqual(['19 min', '25 min', '30 min', '47 min']);
    expect(await mixes.readBack('Loop 1.4')).toMatchObject({ po2: 1.4, noStopMin: 47, meetsMin: 47 });
    await mixes.panel.getByRole('button', { name: 'Workings' }).click();
    const workings = mixes.panel.getByRole('region', { name: 'Workings side by side' });
    await expect(workings.getByRole('row', { name: /^PO2/ })).toContainText('= 1.16 bar');
    await expect(workings.getByRole('columnheader').last()).toHaveText(
      'Loop: setpoint 0.7, from 2 m 1.4, diluent Air',
    );
    await expect(workings.getByRole('row', { name: /^Minimum gas/ })).toContainText('none: the way up');
    // Real fractions: the numbers stand above and below a line.
    const mod = workings.getByRole('row', { name: /^MOD/ }).locator('td').nth(2).locator('mfrac').first();
    await expect(mod).toContainText('0.32');
    const apartPx = () =>
      mod.evaluate(({ children }) => {
        const [above, below] = [...children].map((part) => part.getBoundingClientRect().top);
        return below! - above!;
      });
    await expect.poll(apartPx).toBeGreaterThan(10);
    await workings.getByRole('button', { name: 'On paper' }).click();
    const paper = page.getByRole('dialog', { name: 'Workings of the class' });
    await expect(paper.getByRole('group', { name: 'Page 1' })).toContainText('Workings at 26 m');
    await expect(paper.getByRole('group', { name: 'Page 1' })).toContainText('= 56 m, of the diluent');
    await paper.getByRole('button', { name: 'Close' }).click();
    await mixes.panel.getByRole('button', { name: 'Large type' }).click();
    // The whole window is the projector's, and the depth is moved there too.
    const large = page.getByRole('dialog', { name: 'In class, large type' });
    await expect(large.getByRole('heading', { name: 'What the mix changes at 26 m' })).toBeVisible();
    await large.getByRole('slider', { name: 'Depth' }).press('ArrowDown');
    await expect(large.getByRole('heading', { name: 'What the mix changes at 27 m' })).toBeVisible();
    await expect(large.getByText(/Loop: setpoint 0.7, from 2 m 1.4, diluent Air/)).toBeVisible();
    await expect(large.getByText(/^Plan within your training/)).toBeVisible();
    await page.keyboard.press('Escape');
    await expect(large).toBeHidden();
    await expect(mixes.panel.getByRole('button', { name: 'Large type' })).toBeFocused();
    await loop.getByRole('button', { name: 'without the loop' }).click();
    await expect(mixes.panel.getByRole('button', { name: 'add a loop' })).toBeVisible();
    // What it was set to is still there.
    await mixes.panel.getByRole('button', { name: 'add a loop' }).click();
    await expect(loop.getByLabel('High setpoint, bar')).toHaveValue('1.4');
    await expect(page.getByRole('button', { name: /^Undo$/ })).toBeDisabled();
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
