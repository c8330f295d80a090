/** What mixes do, on a card of depths and before a class. */
import { readFileSync } from 'node:fs';
import { readTrip } from '../../core/document/read-trip';
import { depthCard } from '../../core/mixes/depth-card';
import { pageReader, wordsOf } from '../../core/words/reader';
import { bare, figure, said } from '../../core/words/said';
import { at, expect, test as base } from './fixtures';
import { MixesPlace } from './pages/mixes';

const test = base.extend<{ mixes: MixesPlace }>({ mixes: at(MixesPlace) });

const read = readTrip(readFileSync('core/document/demo-trip.json', 'utf8'));
if (!read.ok) throw new Error('the demo trip is not read');
const trip = read.value;
const ean32 = trip.mixes.find(({ o2 }) => o2 === 0.32)!;
const words = wordsOf(pageReader('metric'));

test.describe('mixes for who learns of them', () => {
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
});
