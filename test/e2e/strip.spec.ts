/** Every sentence about the strip that a hand could try. */
import { readFileSync } from 'node:fs';
import { expect, test } from './fixtures';
import { depthOf } from './pages/strip';
import { wcagBreaches } from './wcag';

const minutesOf = (told: string) => Number(/ m, ([\d.]+) min, /.exec(told)?.[1]);
const startOf = (told: string) => /, (\w+ \d+ \w+ \d\d:\d\d), /.exec(told)?.[1];

test.describe('the strip', () => {
  test('shows the whole week at first sight', async ({ bench, strip }) => {
    await expect(strip.dives).toHaveCount(22);
    const beyondPx = () => strip.scroller.evaluate((element) => element.scrollWidth - element.clientWidth);
    await expect.poll(beyondPx).toBe(0);
    const otu = bench.page.locator('[data-part=otu]');
    await expect
      .poll(() => otu.evaluate((row) => row.getBoundingClientRect().bottom))
      .toBeLessThanOrEqual(800);
  });

  test('heads each day with its date, dives, bottom time, oxygen and tightest dive', async ({ strip }) => {
    const head = strip.whole.getByRole('button', { name: /^Wed 17/ });
    await expect(head).toContainText('Wed 17');
    await expect(head).toContainText('4 dives');
    await expect(head).toHaveAttribute(
      'title',
      /four dives, 1 h 49 of bottom time, oxygen \d+ % of the 24 h allowance/,
    );
    await expect(head).toHaveAttribute('title', /tightest is the third: \d+ min left/);
  });

  test('tells the tightest dive by a ring and in words, not by colour alone', async ({ strip }) => {
    await expect(strip.list.locator('[data-part=ring]')).toHaveCount(1);
    await expect(strip.dive(13)).toHaveAttribute('aria-label', /tightest of the trip/);
    await expect(strip.dive(13).locator('[data-part=ring]')).toHaveCount(1);
  });

  test('marks dives that only part of the party does', async ({ strip }) => {
    await expect(strip.dive(8).locator('[data-part="hollow weight"]')).toHaveCount(1);
    await expect(strip.dive(8)).toHaveAttribute('aria-label', /3 of 4 divers/);
  });

  test('shows one diver where one is chosen, and who stays aboard', async ({ page, strip }) => {
    await page.getByRole('combobox', { name: /^Shown/ }).selectOption({ label: 'Guest 2' });
    await expect(strip.dive(8)).toHaveAttribute('aria-label', /the chosen diver stays aboard/);
    await expect(page.locator('[data-part="band title"]').first()).toContainText(
      'if Guest 2 went straight up',
    );
  });

  test('lists the dives of each day on a board, whose rows choose them as their lines do', async ({
    page,
    bench,
    strip,
  }) => {
    const rows = page.locator('[data-dive]').filter({ hasText: /^\d\d:\d\d/ });
    await expect(rows).toHaveCount(22);
    await rows.filter({ hasText: '11:35' }).click();
    await expect(strip.chosen).toHaveAttribute('aria-label', /^Dive 13, .*Kettle Pinnacle/);
    await expect(bench.field('Depth')).toHaveValue('24 m');
    await expect(page.locator('[data-part=lamp]')).toHaveCount(1);
    await expect(page.locator('[data-part=elbow]')).toHaveCount(1);
    // Arrows go on from there, as after a press on the line.
    await page.keyboard.press('ArrowDown');
    await expect(bench.field('Depth')).toHaveValue('25 m');
    await rows.filter({ hasText: '15:00' }).click({ modifiers: ['Control'] });
    await expect(strip.chosen).toHaveCount(2);
    await rows.filter({ hasText: '11:35' }).click();
    await rows
      .filter({ hasText: '07:30' })
      .last()
      .click({ modifiers: ['Shift'] });
    await expect(strip.chosen).toHaveCount(3);
    await page.keyboard.press('Escape');
    await expect(strip.chosen).toHaveCount(0);
  });

  test('opens the log of a day from its head, and by L on one of its dives', async ({ page, strip }) => {
    await strip.whole.getByRole('button', { name: 'Log Sun 14 March' }).click();
    await expect(page.getByRole('region', { name: 'Evening of Sun 14 March' })).toBeVisible();
    await strip.dive(5).focus();
    await page.keyboard.press('l');
    await expect(page.getByRole('region', { name: 'Evening of Mon 15 March' })).toBeVisible();
  });

  test('tells chosen, tightest and past a limit by three shapes', async ({ page, bench, strip }) => {
    const demo = readFileSync('core/document/demo-trip.json', 'utf8');
    const trip = JSON.parse(demo) as { readonly dives: readonly { readonly id: string }[] };
    const dives = trip.dives.map((dive) => (dive.id === 'd5' ? { ...dive, bottomMin: 75 } : dive));
    await bench.openFile('past.carryover', JSON.stringify({ ...trip, title: 'Past a limit', dives }));
    await expect(bench.title).toHaveText('Past a limit');
    await strip.dive(9).locator('[data-grip=depth]').click();
    await expect(strip.dive(5).locator('[data-part=pennant]')).toHaveCount(1);
    await expect(strip.dive(5)).toHaveAttribute('aria-label', /−\d+ min of room/);
    await expect(strip.list.locator('[data-part=ring]').first()).toBeVisible();
    await expect(strip.dive(5).locator('[data-part=ring]')).toHaveCount(0);
    await expect(strip.dive(9).locator('[data-part=pennant], [data-part=ring]')).toHaveCount(0);
    await expect(page.locator('[data-part=lamp]')).toHaveCount(1);
    const words = page.locator('[data-style=past]');
    await expect(words.first()).toHaveText(/^\d+ (min )?over/);
  });

  test('draws what is done solid, its plan behind it, what was missed crossed out, and where the clock is', async ({
    page,
    bench,
    strip,
  }) => {
    await page.clock.setFixedTime(new Date(2027, 2, 15, 20, 40));
    await page.reload();
    // A window that is not open again yet hears no key.
    await expect(strip.dives).toHaveCount(22);
    const demo = readFileSync('core/document/demo-trip.json', 'utf8');
    const trip = JSON.parse(demo) as { readonly dives: readonly { readonly id: string }[] };
    const log: Readonly<Record<string, object>> = {
      d1: { asDived: [{}] },
      d2: { asDived: [{ depthM: 20.2, bottomMin: 41 }] },
      d3: { notDived: [{ reason: 'swell' }] },
      d4: { asDived: [{}], added: true },
    };
    const dives = trip.dives.map((dive) => ({ ...dive, ...log[dive.id] }));
    await bench.openFile('way.carryover', JSON.stringify({ ...trip, title: 'Under way', dives }));
    await expect(bench.title).toHaveText('Under way');
    for (const number of [1, 2, 4]) {
      await expect(strip.dive(number).locator('[data-part=dived]')).toHaveCount(1);
      await expect(strip.dive(number).locator('[data-part=weight]')).toHaveCount(0);
    }
    await expect(strip.dive(1).locator('[data-part=ghost]')).toHaveCount(0);
    await expect(strip.dive(2).locator('[data-part=ghost]')).toHaveCount(1);
    await expect(strip.dive(3).locator('[data-part=strike]')).toHaveCount(1);
    await expect(strip.dive(3)).toHaveAttribute('aria-label', /not dived: swell/);
    await expect(strip.dive(9).locator('[data-part=weight]')).toHaveCount(1);
    await expect(page.locator('[data-part=now]')).toHaveText('Now 20:40');
    await expect(page.getByRole('button', { name: 'logged: Sun 14' })).toBeVisible();
    await expect(page.getByRole('button', { name: 'Log Mon 15' })).toBeVisible();
    await expect(page.locator('[data-state=missed]')).toHaveCount(1);
    await expect(page.locator('[data-state=added] [data-part=added]')).toHaveCount(1);
    expect(await wcagBreaches(page)).toEqual([]);
  });

  test('opens the card of a dive that is pressed', async ({ bench, strip }) => {
    await strip.dive(5).locator('[data-grip=depth]').click();
    await expect(strip.chosen).toHaveCount(1);
    await expect(bench.field('Depth')).toHaveValue('20 m');
  });
});

test.describe('the keyboard on a dive', () => {
  test('changes depth, bottom time and start in steps', async ({ page, strip }) => {
    await strip.dive(5).focus();
    await page.keyboard.press('ArrowDown');
    await expect.poll(async () => depthOf(await strip.focused())).toBe(21);
    await page.keyboard.press('Shift+ArrowUp');
    await expect.poll(async () => depthOf(await strip.focused())).toBe(20.5);
    await page.keyboard.press('Shift+ArrowRight');
    await expect.poll(async () => minutesOf(await strip.focused())).toBe(39);
    await page.keyboard.press('ArrowRight');
    await expect.poll(async () => startOf(await strip.focused())).toBe('Mon 15 March 11:20');
    await page.keyboard.press('Alt+ArrowRight');
    await expect.poll(async () => startOf(await strip.focused())).toBe('Mon 15 March 11:21');
    await page.keyboard.press('PageUp');
    await expect.poll(async () => startOf(await strip.focused())).toBe('Sun 14 March 11:21');
  });

  test('a change is told to who cannot see the strip, once the hand rests', async ({ page, strip }) => {
    await strip.dive(5).focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('ArrowDown');
    await expect(page.getByRole('status').filter({ hasText: /room/ })).toContainText(/^Dive 5: /);
  });

  test('a key held down is one step of undo', async ({ page, strip }) => {
    const before = await strip.told(5);
    await strip.dive(5).focus();
    for (let i = 0; i < 4; i += 1) await page.keyboard.down('ArrowDown');
    await page.keyboard.up('ArrowDown');
    await expect.poll(async () => depthOf(await strip.focused())).toBe(24);
    await page.keyboard.press('Control+z');
    await expect(strip.dive(5)).toHaveAttribute('aria-label', before);
  });

  test('goes from dive to dive with one stop of the Tab key', async ({ page, strip }) => {
    await strip.dive(1).focus();
    await page.keyboard.press('End');
    await expect.poll(() => strip.focused()).toMatch(/^Dive 22,/);
    await page.keyboard.press('Control+ArrowLeft');
    await expect.poll(() => strip.focused()).toMatch(/^Dive 21,/);
    await page.keyboard.press('Home');
    await expect.poll(() => strip.focused()).toMatch(/^Dive 1,/);
    await expect(strip.list.locator('[tabindex="0"]')).toHaveCount(1);
  });

  test('selects several and shifts them together', async ({ page, strip }) => {
    await strip.dive(5).focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('Control+Shift+ArrowRight');
    await expect(strip.chosen).toHaveCount(2);
    await page.keyboard.press('ArrowRight');
    await expect.poll(async () => startOf(await strip.told(5))).toBe('Mon 15 March 11:20');
    await expect.poll(async () => startOf(await strip.told(6))).toBe('Mon 15 March 15:20');
    await expect(strip.undoButton('shift of 2 dives')).toBeEnabled();
  });
});

test.describe('several dives', () => {
  test('are chosen with Ctrl and shifted by one line', async ({ strip }) => {
    await strip.dive(5).locator('[data-grip=depth]').click();
    await strip
      .dive(6)
      .locator('[data-grip=depth]')
      .click({ modifiers: ['Control'] });
    await expect(strip.chosen).toHaveCount(2);
    const before = [startOf(await strip.told(5)), startOf(await strip.told(6))];
    await strip.drag(5, 'start', { x: 3 });
    await expect.poll(async () => startOf(await strip.told(5))).not.toBe(before[0]);
    await expect.poll(async () => startOf(await strip.told(6))).not.toBe(before[1]);
  });

  test('are chosen by a frame drawn in open water, and more with Shift', async ({ page, strip }) => {
    await strip.drawFrame(5, 6);
    await expect(strip.chosen).toHaveCount(2);
    await page.keyboard.down('Shift');
    await strip.drawFrame(8, 10);
    await page.keyboard.up('Shift');
    await expect(strip.chosen).toHaveCount(5);
    await expect(page.getByRole('button', { name: /^Undo/ })).toBeDisabled();
  });

  test('stay chosen where Escape ends the frame', async ({ page, strip }) => {
    await strip.dive(2).locator('[data-grip=depth]').click();
    await strip.drawFrame(5, 6, async () => page.keyboard.press('Escape'));
    await expect(strip.chosen).toHaveCount(1);
    await expect(page.locator('[data-part=frame]')).toHaveCount(0);
  });

  test('of a day are chosen by its head', async ({ strip }) => {
    await strip.whole.getByRole('button', { name: /^Wed 17/ }).click();
    await expect(strip.chosen).toHaveCount(4);
  });
});

test.describe('adding and taking away', () => {
  test('a double click in open water adds a dive there', async ({ page, strip }) => {
    const at = await strip.openWater();
    await page.mouse.dblclick(at.x, at.y);
    await expect(strip.dives).toHaveCount(23);
    const told = await strip.told(23);
    expect(startOf(told)).toMatch(/^Sat 20 March \d\d:\d[05]$/);
    expect(depthOf(told)).toBeGreaterThan(5);
    expect(told).not.toMatch(/−\d+ min of room/);
    await expect(strip.undoButton('new dive')).toBeEnabled();
    await page.keyboard.press('Control+z');
    await expect(strip.dives).toHaveCount(22);
  });

  test('a dive is duplicated and removed from the keyboard', async ({ page, strip }) => {
    await strip.dive(4).focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('Delete');
    await expect(strip.dives).toHaveCount(21);
    await strip.dive(4).focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('Control+z');
    await expect(strip.dives).toHaveCount(22);
    await strip.dive(22).focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('Control+d');
    await expect(strip.dives).toHaveCount(23);
  });
});

test.describe('for who cannot see or point', () => {
  for (const look of ['Light paper', 'Cabin at night']) {
    test(`every state of the strip holds WCAG 2.2 AA, ${look}`, async ({ page, bench, strip }) => {
      await bench.command(look);
      await page.getByRole('combobox', { name: /^Shown/ }).selectOption({ label: 'Guest 2' });
      await strip.dive(8).focus();
      await page.keyboard.press('Enter');
      await page.keyboard.press('+');
      await page.getByRole('button', { name: 'All 16 compartments' }).click();
      expect(await wcagBreaches(page)).toEqual([]);
      await page.getByRole('button', { name: 'Curves as a table' }).click();
      expect(await wcagBreaches(page)).toEqual([]);
    });
  }

  test('a trip without dives says so, and how to begin', async ({ page, strip }) => {
    await page.keyboard.press('Control+a');
    await page.keyboard.press('Delete');
    await expect(strip.whole.getByText('No dives yet.')).toBeVisible();
    expect(await wcagBreaches(page)).toEqual([]);
    await strip.whole.getByRole('button', { name: 'New dive' }).click();
    await expect(strip.dives).toHaveCount(1);
  });
});

test('no curve, dive or night is a layer of its own, which the browser would put together at every change', async ({
  page,
  strip,
}) => {
  const layers = () =>
    strip.whole
      .locator('svg *')
      .evaluateAll((drawn) =>
        drawn.filter((each) => getComputedStyle(each).opacity !== '1').map((each) => each.outerHTML),
      );
  await strip.dive(8).focus();
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'All 16 compartments' }).click();
  await expect(page.locator('[data-part=compartment]')).toHaveCount(16);
  expect(await layers()).toEqual([]);
  await strip.whole.getByRole('button', { name: 'Day', exact: true }).click();
  await expect(page.locator('[data-part=hour]')).not.toHaveCount(0);
  expect(await layers()).toEqual([]);
});

test('sixty dives stay readable: no sounding covers another', async ({ page, bench, strip }) => {
  // No day is copied into the hours before a flight.
  await bench.command('title water flight');
  await bench.dialog.getByRole('button', { name: 'There is no flight' }).click();
  await page.keyboard.press('Escape');
  // Day for day, until there are sixty.
  await page.getByTitle(/^Wed 17 March: four dives/).click();
  while ((await strip.dives.count()) < 60) await page.keyboard.press('Control+Shift+d');
  // One label a day, and the number of dives at its head.
  const soundings = page.locator('[data-style=depth]');
  await expect(soundings).toHaveCount(await page.locator('[data-part="day head"]:enabled').count());
  const covered = () =>
    soundings.evaluateAll((texts) => {
      const boxes = texts.map((text) => text.getBoundingClientRect());
      return boxes.flatMap((a, i) =>
        boxes
          .slice(i + 1)
          .filter(
            (b) =>
              Math.min(a.right, b.right) - Math.max(a.left, b.left) > 2 &&
              Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 6,
          ),
      );
    });
  await expect(page.locator('[data-part="day note"]').first()).toHaveText(/^\d (dives|over)$/);
  await expect.poll(covered).toHaveLength(0);
});
