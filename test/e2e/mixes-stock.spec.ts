/** What to stock, and how it is filled. */
import { readFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { readTrip } from '../../core/document/read-trip';
import { at, expect, test as base } from './fixtures';
import { MixesPlace, onBoardText } from './pages/mixes';
import { pageSizes, printed } from './pdf';

const test = base.extend<{ mixes: MixesPlace }>({ mixes: at(MixesPlace) });

const read = readTrip(readFileSync('core/document/demo-trip.json', 'utf8'));
if (!read.ok) throw new Error('the demo trip is not read');
const trip = read.value;

test.describe('mixes to stock and to fill', () => {
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
    await expect(mixes.board).toHaveText(onBoardText(trip.mixes));
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
    await mixes.panel.getByRole('button', { name: /^Show all \d+$/ }).click();
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

  test('says how each cylinder is blended and how many bottles of oxygen that takes, prints and saves the fills', async ({
    page,
    mixes,
  }, info) => {
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
    const paper = info.outputPath('fills.pdf');
    const printedText = (await printed(page, paper, 'across')).replaceAll(/[\s\u00a0]+/g, ' ');
    expect((await pageSizes(paper)).length).toBeGreaterThan(1);
    expect(printedText).toContain(
      'Fills of the trip, by partial pressure: oxygen, then air; cylinders come back at 50 bar',
    );
    expect(printedText).toContain('Oxygen comes in bottles of 50 L, full at 200 bar.');
    // A sum at the foot of each page would be taken for that page's.
    expect(printedText.match(/In all/g)).toHaveLength(1);
    const bottles = mixes.panel.getByLabel('Oxygen bottle, litres of water');
    await expect(bottles).toHaveValue('50');
    // Whoever reads psi has bottles and cylinders called by psi, and not 2901 of it.
    await page.getByRole('button', { name: 'Units: metres. Change to feet' }).click();
    await expect(mixes.panel.getByLabel('Oxygen bottle, gas when full')).toHaveValue(/^250.cu ft$/);
    await expect(mixes.panel.getByLabel('Oxygen bottle, full at')).toHaveValue(/^2.?200.psi$/);
    await expect(mixes.panel.getByLabel('Cylinders come back with')).toHaveValue(/^700.psi$/);
    await page.getByRole('button', { name: 'Units: feet. Change to metres' }).click();
    await bottles.fill('1');
    await bottles.press('Enter');
    await expect(mixes.panel.getByText(/^\d{2,} bottles of oxygen/)).toBeVisible();
    await mixes.panel.getByLabel('Oxygen bottle, full at').fill('60');
    await mixes.panel.getByLabel('Oxygen bottle, full at').press('Enter');
    await expect(mixes.panel.getByText(/it takes a booster\.$/)).toBeVisible();
    await mixes.panel.getByLabel('Filled').selectOption('membrane');
    await expect(mixes.panel.getByText('A membrane takes no oxygen from bottles.')).toBeVisible();
    const oxygen = mixes.panel.getByRole('columnheader', { name: 'Oxygen to bring' });
    await expect(oxygen).toHaveCount(0);
    // What it takes in is no figure of ours; of the fills of air alone it is known.
    await expect(mixes.row(/^In all/)).toContainText('not known');
    await mixes.panel.getByLabel('Filled').selectOption('continuous');
    await expect(mixes.panel.getByText(/bottles of oxygen for the trip:/)).toBeVisible();
    await expect(oxygen).toHaveCount(1);
    await expect(mixes.row(/^In all/)).not.toContainText('not known');
    const loading = page.waitForEvent('download');
    await mixes.panel.getByRole('button', { name: 'Save as CSV' }).click();
    const file = await loading;
    expect(file.suggestedFilename()).toMatch(/-fills\.csv$/);
    const rows = (await readFile(await file.path(), 'utf8')).trim().split('\r\n');
    expect(rows[0]).toContain('day,oxygen (%),fills,gas put in (L),oxygen (L)');
    await expect(mixes.panel.getByLabel('Table of fills').getByRole('row')).toHaveCount(rows.length + 1);
  });
});
