/** Every sentence about the bands beneath the strip that a hand could try. */
import type { Trip } from '../../core/document/types';
import { writeTrip } from '../../core/document/write-trip';
import { bigTrip } from '../bench/big-trip';
import { expect, test } from './fixtures';
import { A4_SIDES, pageSizes, printed } from './pdf';

/** A4 held upright between margins of a centimetre, in pixels. */
const PAPER_PX = 718;

/** A fortnight of which almost everything is past a limit of somebody, each by figures of their own. */
function overdone(): Trip {
  const trip = bigTrip(60, 12);
  const party = trip.party.map((diver, i) => ({
    ...diver,
    surfaceRateLpm: 20 + i * 1.3,
    maxDepthM: 20 + i,
    gradient: { low: 0.3, high: 0.6 + i / 100 },
  }));
  return { ...trip, party };
}

test.describe('the bands', () => {
  // What reads them out comes after them.
  test.beforeEach(async ({ bench: { page } }) => {
    await expect(page.locator('.recharts-wrapper')).toHaveCount(2);
  });

  test('read out time and value under the pointer, both at once', async ({ page, strip }) => {
    const band = await page.locator('.recharts-wrapper').first().boundingBox();
    const y = band!.y + band!.height / 2;
    await page.mouse.move(band!.x + band!.width / 2, y);
    const readouts = page.locator('[data-part=readout]');
    await expect(readouts).toHaveCount(2);
    await expect(readouts.first()).toContainText(
      /^\w{3} \d+, \d\d:\d\d at the surface \d+ % of the limit, compartment \d+ leads$/,
    );
    await expect(readouts.last()).toContainText(/CNS clock \d+ %, over 24 h \d+ %$/);
    // On the bottom of a dive it says how long the diver may stay.
    const line = await strip.dive(13).locator('[data-grip=start]').boundingBox();
    await page.mouse.move(line!.x + line!.width / 2 + 6, y, { steps: 3 });
    await expect(readouts.first()).toContainText(
      /at 24 m up now: \d+ % of the limit, compartment \d+ leads; staying: limit in \d+ min$/,
    );
  });

  test('go on, dotted, to the limit had the diver stayed, where a day fills the page', async ({
    page,
    strip,
    bench,
  }) => {
    const stayed = page.locator('[data-part=stayed]');
    await expect(stayed).toHaveCount(0);
    await strip.dive(13).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Day', exact: true }).click();
    // One for each dive of whose figures are shown, who leaves two out; the card says the same.
    await expect(stayed).toHaveCount(20);
    await expect(bench.card.locator('[data-outcome="room.min"]')).toContainText('4 min');
    await expect(stayed.nth(11)).toHaveText('4 min to the limit');
  });

  test('read out the figures of now: after an edit nothing, until the pointer moves again', async ({
    page,
    strip,
  }) => {
    await strip.dive(12).focus();
    const line = await strip.dive(13).locator('[data-grip=start]').boundingBox();
    const band = await page.locator('[data-part=band]').first().boundingBox();
    // At the surface after it, where the pointer stands at the same moment whatever the depth.
    const at = { x: line!.x - 4, y: band!.y + band!.height / 2 };
    const readout = page.locator('[data-part=readout]').first();
    const cursor = page.locator('[data-part=band]').first().locator('.recharts-tooltip-cursor');
    const cursorX = async () => (await cursor.boundingBox())?.x ?? Number.NaN;
    const read = async () => {
      await page.mouse.move(at.x - 30, at.y);
      await page.mouse.move(at.x, at.y, { steps: 6 });
      await expect(readout).toContainText('up now');
      // The charts follow a pointer a frame later: until its line is under it, what is read is of the step before.
      await expect.poll(async () => Math.abs((await cursorX()) - at.x)).toBeLessThan(4);
      return (await readout.textContent()) ?? '';
    };
    const before = await read();
    for (let i = 0; i < 6; i += 1) await page.keyboard.press('ArrowUp');
    await expect(page.locator('[data-part=readout]')).toHaveCount(0);
    const after = await read();
    expect(after).not.toBe(before);
  });

  test('read out time and value under the keyboard', async ({ bench: { page } }) => {
    // A pointer that rests on the band reads out there.
    await page.mouse.move(5, 5);
    const band = page.getByRole('application', { name: 'Nitrogen on surfacing' });
    await band.focus();
    await page.keyboard.press('ArrowRight');
    const readout = page.locator('[data-part=readout]').first();
    const before = await readout.textContent();
    await page.keyboard.press('ArrowRight');
    await expect(readout).not.toHaveText(before ?? '');
  });

  test('draw the limit and the moment flying is clear', async ({ bench: { page } }) => {
    await expect(page.locator('[data-part=band]').first().locator('[data-part=limit]')).toHaveCount(1);
    await expect(page.locator('[data-part=fly]')).toHaveCount(1);
    await expect(page.locator('[data-part=flight]')).toHaveCount(1);
    const notes = page.locator('[data-part="day note"]');
    await expect(notes).toHaveText(['No flying before 13:21', 'Flight home 16:30']);
  });

  test('give the same figures as a table', async ({ bench: { page } }) => {
    await page.getByRole('button', { name: 'Curves as a table' }).click();
    const table = page.getByRole('table', { name: /Nitrogen and oxygen carried by/ });
    await expect(table.getByRole('row')).toHaveCount(1 + 2 * 22 + 1 - 4);
    await expect(table.getByRole('row', { name: /Dive 13 surfaces/ })).toContainText(/%/);
    await page.getByRole('button', { name: 'Curves as a table' }).click();
    await expect(page.locator('.recharts-wrapper')).toHaveCount(2);
  });

  test('show all sixteen compartments on demand', async ({ bench: { page } }) => {
    await expect(page.locator('[data-part=nitrogen]')).toHaveCount(1);
    await expect(page.locator('[data-part=compartment]')).toHaveCount(0);
    await page.getByRole('button', { name: 'All 16 compartments' }).click();
    await expect(page.locator('[data-part=compartment]')).toHaveCount(16);
    await page.getByRole('button', { name: 'Curves as a table' }).click();
    const table = page.getByRole('table', { name: /Nitrogen and oxygen carried by/ });
    await expect(table.getByRole('columnheader')).toHaveCount(6 + 16);
  });
});

for (const size of [
  { width: 1280, height: 800 },
  { width: 1024, height: 700 },
]) {
  test(`the tools stand whole beneath the bands under a long title, ${size.width} by ${size.height}`, async ({
    page,
    bench,
  }) => {
    await page.setViewportSize(size);
    const title =
      'The extraordinarily long fortnight of a large family off the outer reefs of Saint Bartholomew';
    await bench.openFile('long.carryover', writeTrip({ ...bigTrip(60, 12), title }));
    await expect(bench.title).toHaveText(title);
    const tools = page.getByRole('group', { name: 'How the strip is shown' });
    const isWhole = () =>
      tools.evaluate((element) => {
        const box = element.getBoundingClientRect();
        const around = element.closest('[data-part="days strip"]')!.getBoundingClientRect();
        return box.bottom <= around.bottom + 0.5 && around.bottom <= window.innerHeight;
      });
    await expect.poll(isWhole).toBe(true);
    for (const name of ['All 16 compartments', 'Zoom in']) await tools.getByRole('button', { name }).click();
    await expect.poll(isWhole).toBe(true);
  });
}

test('a fortnight in text of 200 percent keeps its weekdays, dates and the flight readable', async ({
  page,
  bench,
}) => {
  await bench.enlarge();
  const trip = { ...bigTrip(60, 12), flight: { at: '2027-03-22T12:30' } };
  await bench.openFile('fortnight.carryover', writeTrip(trip));
  await expect(bench.title).toHaveText('A full fortnight');
  for (const width of [1280, 800]) {
    await page.setViewportSize({ width, height: 800 });
    const heads = page.locator('[data-part="day head"]');
    await expect(heads).toHaveCount(17);
    for (const [i, words] of ['Sat 6', 'Sun 7', 'Mon 8'].entries()) {
      for (const word of words.split(' ')) await expect(heads.nth(i)).toContainText(word);
    }
    await expect
      .poll(() =>
        page.locator('[data-part="day title"]').evaluateAll((titles) =>
          titles.filter((title) => {
            const head = title.closest('[data-part="day head"]')!.getBoundingClientRect();
            return title.getBoundingClientRect().right > head.right + 0.5;
          }),
        ),
      )
      .toEqual([]);
    await expect(page.locator('[data-part="day note"]').last()).toHaveText('fly 12:30');
  }
});

test.describe('on paper', () => {
  test('the strip stands whole across the page, with the flight and its line', async ({
    page,
    bench,
  }, info) => {
    for (let i = 0; i < 3; i += 1) await page.getByRole('button', { name: 'Zoom in' }).click();
    await bench.command('larger text');
    for (const side of A4_SIDES) {
      const text = await printed(page, info.outputPath(`${side}.pdf`), side);
      expect(text).toContain('Flight home 16:30');
      expect(text).toMatch(/No flying before \d\d:\d\d/);
      for (const day of ['Sun 14', 'Fri 19']) expect(text).toContain(day);
    }
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: PAPER_PX, height: 1040 });
    await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
    for (const part of ['[data-part=page]', '[data-part=flight]', '[data-part=lines]']) {
      const isOnPaper = async () => {
        const box = await page.locator(part).boundingBox();
        return box !== null && box.x >= 0 && box.x + box.width <= PAPER_PX;
      };
      await expect.poll(isOnPaper, { message: part }).toBe(true);
    }
    await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
    await page.emulateMedia({ media: 'screen' });
    await expect(page.getByRole('button', { name: 'Zoom out' })).toBeEnabled();
  });

  test('the cautions of a full fortnight are told by kind, on few pages, every dive named', async ({
    page,
    bench,
  }, info) => {
    const trip = overdone();
    await bench.openFile('overdone.carryover', writeTrip(trip));
    await expect(bench.title).toHaveText('A full fortnight');
    const cautions = page.locator('li[data-severity]');
    await expect.poll(() => cautions.count()).toBeGreaterThan(300);
    const count = await cautions.count();
    const file = info.outputPath('overdone.pdf');
    const text = (await printed(page, file, 'upright')).replaceAll(/\s+/g, ' ');
    expect((await pageSizes(file)).length).toBeLessThanOrEqual(3);
    expect(text).toContain('Dive 1, Sat 6, Guest 1: 33 m is deeper than');
    for (let dive = 1; dive <= 60; dive += 1) expect(text).toMatch(new RegExp(`[Dd]ive ${dive}, `));
    expect(text).toContain('dive 2, everybody but');
    for (const { name } of trip.party) expect(text).toContain(name);
    await expect(cautions).toHaveCount(count);
  });
});
