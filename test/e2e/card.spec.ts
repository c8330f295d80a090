import type { Locator } from '@playwright/test';
import { writeTrip } from '../../core/document/write-trip';
import { aDive, aDiver, aTrip } from '../builders/trip';
import { expect, test } from './fixtures';

test.describe('the card', () => {
  test('plans a dive of several levels and goes back to one', async ({ bench }) => {
    await bench.chooseTightest();
    const room = await bench.outcome('Room').textContent();
    const depth = await bench.field('Depth').inputValue();
    await bench.card.getByText(/^Levels, stop and turn/).click();
    await bench.card.getByRole('button', { name: 'Add a level' }).click();
    await expect(bench.card.getByText('deepest of 2', { exact: true })).toBeVisible();
    await expect(bench.outcome('Room')).not.toHaveText(room ?? '');
    await bench.set('Level 2, depth', '12');
    // Each level has its own no-stop time, and how it is worked out; the whole time stands behind them.
    await expect(bench.outcomeRow('No-stop time')).toContainText(`at ${depth}`);
    await expect(bench.outcome(depth)).toHaveText(/^\d+ min$/);
    await expect(bench.outcome('Whole time')).toHaveText(/^\d+ min$/);
    await bench.outcomeRow('12 m').getByRole('button').click();
    const sheet = bench.page.getByRole('dialog');
    await expect(sheet.getByRole('combobox').locator('option:checked')).toHaveText(
      'No-stop limit of level 2, at 12.00 m',
    );
    await bench.page.keyboard.press('Escape');
    await expect(bench.field('Depth')).toHaveValue(depth);
    await bench.card.getByRole('button', { name: 'Remove the last level' }).click();
    await expect(bench.card.getByText(/^deepest of/)).toHaveCount(0);
    await expect(bench.outcome('Room')).toHaveText(room ?? '');
  });

  test('adds and removes a level in one step each, and keeps the focus at it', async ({ page, bench }) => {
    await bench.chooseTightest();
    const summary = bench.card.getByText(/^Levels, stop and turn/);
    await summary.click();
    await bench.card.getByRole('button', { name: 'Add a level' }).click();
    await bench.card.getByRole('button', { name: 'Remove the last level' }).click();
    await expect(bench.card.getByRole('button', { name: 'Add a level' })).toBeFocused();
    await page.keyboard.press('Control+z');
    await expect(summary).toHaveText('Levels, stop and turn: 2 levels');
    await page.keyboard.press('Control+z');
    await expect(summary).toHaveText('Levels, stop and turn');
    await expect(page.getByRole('button', { name: 'Undo', exact: true })).toBeDisabled();
    await bench.set('Level 1, depth', '12');
    await expect(summary).toHaveText('Levels, stop and turn');
    await expect(bench.field('Depth')).toHaveValue('12 m');
  });

  test('keeps the focus where a record of what was dived comes and goes', async ({ bench }) => {
    await bench.chooseTightest();
    await bench.card.getByText('As dived', { exact: true }).click();
    const enter = bench.card.getByRole('button', { name: 'Enter it, starting from the plan' });
    await enter.click();
    await expect(bench.field('In')).toBeFocused();
    await bench.card.getByRole('button', { name: 'As planned' }).click();
    await expect(enter).toBeFocused();
    await bench.page.getByRole('button', { name: 'Dismiss' }).click();
    await bench.card.getByRole('button', { name: 'Guide differed' }).click();
    await expect(bench.card.getByRole('group', { name: 'As dived by Guide' }).getByLabel('In')).toBeFocused();
  });

  test('loses nothing that was logged without saying so, and brings it back', async ({ page, bench }) => {
    await bench.command('dive 1');
    await bench.card.getByText('As dived', { exact: true }).click();
    await bench.card.getByRole('button', { name: 'Guest 1 differed' }).click();
    await bench.card.getByLabel('Deepest').fill('14.5');
    await bench.card.getByLabel('Deepest').press('Enter');
    await bench.card.getByRole('button', { name: 'As planned' }).click();
    await expect(bench.card.getByLabel('Deepest')).toHaveCount(0);
    const said = page.getByRole('status').filter({ hasText: 'What was logged of dive 1 for Guest 1' });
    await expect(said).toContainText('was taken away: started 09:30, 14.5 m, 40 min');
    await said.getByRole('button', { name: 'Bring it back' }).click();
    await expect(bench.card.getByLabel('Deepest')).toHaveValue('14.5 m');
    await expect(said).toHaveCount(0);
  });

  test('takes the depth of a site that is chosen, and says where a dive goes deeper', async ({
    page,
    bench,
  }) => {
    await bench.command('dive 6');
    const offer = bench.card.getByRole('button', { name: /^Use its depth/ });
    await expect(offer).toHaveCount(0);
    await bench.pick('Site', 'Osier Channel');
    await expect(bench.field('Depth')).toHaveValue('21 m');
    await expect(offer).toHaveCount(0);
    // One step brings back both.
    await page.keyboard.press('Control+z');
    await expect(bench.field('Depth')).toHaveValue('16 m');
    await expect(bench.field('Site')).toHaveValue('thrift');

    // 36 m at a site of 12 m: the caution stays until one of the two is mended.
    await bench.command('dive 8');
    await bench.pick('Site', 'Candle Harbour');
    await expect(bench.field('Depth')).toHaveValue('12 m');
    await bench.set('Depth', '36');
    await bench.card.locator('summary', { hasText: / more$/ }).click();
    await expect(bench.card).toContainText('36 m is deeper than Candle Harbour, which goes down to 12 m');
    await expect(bench.card).toContainText('The dive goes deeper than the site.');
    await bench.card.getByRole('button', { name: 'Use its depth, 12 m' }).click();
    await expect(bench.field('Depth')).toHaveValue('12 m');
    await expect(bench.card).not.toContainText('deeper than Candle Harbour');
  });

  test('makes a site that is not in the list yet, and dives there, in one step', async ({ page, bench }) => {
    await bench.command('dive 6');
    await bench.pick('Site', 'New site…');
    await expect(bench.dialog.getByLabel('Name')).toBeFocused();
    await page.keyboard.type('Candle Harbour');
    await page.keyboard.press('Enter');
    await expect(bench.dialog.getByRole('alert')).toContainText('Type a number');
    await bench.dialog.getByLabel(/^Its depth/).fill('14');
    await page.keyboard.press('Enter');
    await expect(bench.dialog.getByRole('alert')).toContainText('is the name of another site');
    await bench.dialog.getByLabel('Name').fill('Gull Steps');
    await page.keyboard.press('Enter');
    await expect(bench.dialog).toHaveCount(0);
    await expect(bench.field('Site').locator('option:checked')).toHaveText('Gull Steps');
    await expect(bench.field('Depth')).toHaveValue('14 m');
    await page.keyboard.press('Control+z');
    await expect(bench.field('Site').locator('option', { hasText: 'Gull Steps' })).toHaveCount(0);
  });

  test('swaps with another dive, having said what the swap would leave', async ({ page, bench }) => {
    await bench.command('dive 9,');
    await bench.card.getByRole('button', { name: 'Swap with another dive' }).click();
    const offer = bench.dialog.getByRole('button', { name: /^Wed 17, 09:25/ });
    await expect(offer).toContainText(/All within limits|pass(es)? a limit/);
    await offer.click();
    await expect(bench.card).toContainText('Wed 17, second dive');
    await expect(bench.field('Site').locator('option:checked')).toHaveText('Millstone Ledge');
    await page.keyboard.press('Control+z');
    await expect(bench.card).toContainText('Tue 16, second dive');
  });

  test('sets several dives together, in a step each, and clears the choice with Escape', async ({
    page,
    bench,
  }) => {
    await bench.dive(1).click();
    await bench.dive(3).click({ modifiers: ['Shift'] });
    await expect(bench.card.getByRole('heading', { level: 2 })).toHaveText('Three dives');
    await bench.set('Bottom time', '30');
    await expect(bench.field('Bottom time')).toHaveValue('30 min');
    await bench.pick('Mix', { label: 'Air' });
    await bench.card.getByRole('button', { name: '−1', exact: true }).click();
    await expect(bench.sentence).toContainText('22 dives');
    await bench.command('undo');
    await bench.command('undo');
    await expect(bench.field('Mix').locator('option:checked')).toHaveText('several');
    await expect(bench.field('Bottom time')).toHaveValue('30 min');
    await bench.dive(2).focus();
    await page.keyboard.press('Escape');
    await expect(bench.card).toContainText('The whole trip');
  });

  test('copies a dive to another day by the keys everybody knows', async ({ page, bench }) => {
    await bench.dive(1).click();
    await page.keyboard.press('Control+c');
    await bench.command('dive 10,');
    await page.keyboard.press('Delete');
    await bench.dive(9).click();
    await page.keyboard.press('Control+v');
    await expect(bench.card).toContainText('Tue 16, second dive');
    await expect(bench.field('Start')).toHaveValue('09:30');
    await expect(bench.field('Site').locator('option:checked')).toHaveText('Thrift Garden');
  });

  test('drops what was refused in other units, and takes nothing of it', async ({ page, bench }) => {
    await bench.command('dive 1');
    await bench.set('Depth', '150');
    await expect(bench.card.getByRole('alert')).toContainText('150 m');
    await page.getByRole('button', { name: 'Units: metres. Change to feet' }).click();
    await expect(page.getByRole('alert')).toHaveCount(0);
    await expect(bench.field('Depth')).toHaveValue('49 ft');
    await bench.field('Depth').press('Enter');
    await expect(page.getByRole('button', { name: 'Undo', exact: true })).toBeDisabled();
  });

  test('changes the safety stop and the turn', async ({ bench }) => {
    await bench.chooseTightest();
    await bench.card.getByText(/^Levels, stop and turn/).click();
    await bench.pick('Safety stop', 'Another');
    await bench.set('Stop for', '5');
    await expect(bench.card.getByText(/its own safety stop/)).toBeVisible();
    const turn = await bench.outcome('Turn at').textContent();
    await bench.set('Turn after this share of the gas', '33');
    await expect(bench.outcome('Turn at')).not.toHaveText(turn ?? '');
  });

  test('changes the mix, and the figures follow', async ({ bench }) => {
    await bench.chooseTightest();
    const po2 = await bench.outcome('PO2 at 24 m').textContent();
    await bench.pick('Mix', { label: 'Air' });
    await expect(bench.outcome('PO2 at 24 m')).not.toHaveText(po2 ?? '');
    await bench.pick('Site', { index: 0 });
    await expect(bench.card.getByRole('heading', { level: 2 })).toHaveText(
      (await bench.field('Site').locator('option').first().textContent()) ?? '',
    );
  });

  test('says who dives it, and leaves the others out of its figures', async ({ bench }) => {
    await bench.chooseTightest();
    await bench.card.getByText('The whole party dives it').click();
    await bench.card.getByLabel('Guest 2').uncheck();
    await expect(bench.card.getByText('Dived by 3 of 4')).toBeVisible();
    await expect(bench.whose('Guest 2')).toHaveCount(0);
  });

  test('takes a diver off two days by four presses, and puts one back on all by one', async ({
    page,
    bench,
  }) => {
    await bench.dive(4).click();
    await bench.dive(10).click({ modifiers: ['Shift'] });
    await bench.card.getByText('Dived by 3 to 4 of 4').click();
    const guest = bench.card.getByRole('checkbox', { name: 'Guest 1' });
    await guest.click();
    await expect(guest).not.toBeChecked();
    await expect(bench.card.getByText('Dived by 2 to 3 of 4')).toBeVisible();

    await bench.dive(11).click();
    await bench.dive(10).click({ modifiers: ['Shift'] });
    await bench.card.getByText('Dived by 3 to 4 of 4').click();
    await expect(bench.card.getByText('on 1 of 2')).toBeVisible();
    await expect(guest).toHaveJSProperty('indeterminate', true);
    await guest.click();
    await expect(bench.card.getByText('The whole party dives them')).toBeVisible();
    await expect(guest).toHaveJSProperty('indeterminate', false);
    await page.keyboard.press('Control+z');
    await expect(guest).toHaveJSProperty('indeterminate', true);
  });

  test('gives the cautions of a dive with what to do and their source', async ({ bench }) => {
    await bench.chooseTightest();
    await bench.set('Depth', '38');
    await bench.card.getByRole('link', { name: /over a limit/ }).click();
    await expect(bench.card.getByText('Past a limit', { exact: true }).first()).toBeInViewport();
    // The source is a press away: told in full it would fill half the card.
    const source = bench.card.getByRole('group').filter({ hasText: 'Source' }).first();
    const text = source.locator('p');
    await expect(text).toBeHidden();
    await source.getByText('Source', { exact: true }).click();
    await expect(text).toBeVisible();
    await expect(text).not.toBeEmpty();
  });

  test('gives the air table’s reading beside the model’s', async ({ bench }) => {
    await bench.chooseTightest();
    await expect(bench.outcome('Air table')).toHaveText(/^\d+ of \d+ min$/);
  });
});

test('names everybody who is as tight, and leads to the other dives that are', async ({ page, bench }) => {
  // Limited by gas alone, which does not hang on the dive before: the rooms are the same.
  const dives = ['06', '07', '08'].map((day) =>
    aDive({ id: `d${day}`, startsAt: `2027-03-${day}T08:00`, depthM: 12, bottomMin: 30 }),
  );
  const party = ['One', 'Two', 'Three'].map((name) =>
    aDiver({ id: name, name: `Guest ${name}`, surfaceRateLpm: name === 'Three' ? 12 : 30 }),
  );
  await bench.openFile('alike.json', writeTrip({ ...aTrip(dives, { party }), title: 'All alike' }));
  await expect(bench.title).toHaveText('All alike');
  await expect(bench.sentence).toContainText(/Tightest: .* of room for Guest One and Guest Two\./);
  await bench.chooseTightest();
  await expect(bench.card).toContainText('Figures of Guest One, who with Guest Two has the least room');
  await expect(bench.card.getByRole('button', { name: /least room/ })).toHaveCount(2);
  await bench.sentence.getByRole('button', { name: 'Two more are as tight' }).click();
  await expect(bench.card.getByText(/^tightest, /)).toHaveCount(3);
  await page.getByRole('navigation').getByRole('button', { name: 'Party' }).click();
  await expect(page.locator('[data-part="party sentence"]')).toContainText('; Guest Two is as tight.');
});

test('says in words by which limit a dive is past where there is no figure', async ({ bench }) => {
  await bench.command('dive 1');
  await bench.pick('Mix', { label: 'EAN32' });
  await bench.set('Depth', '45');
  await expect(bench.sentence).toContainText('past the PO2 limit');
  await expect(bench.outcomeRow('Room')).toContainText('pastthe PO2 limit');
  await expect(bench.card).toContainText('Figures of Guide; it is as tight for everybody');
  await bench.command('dive 2');
  // The clock has no figure from there on, which is no limit of this dive.
  await expect(bench.outcomeRow('Room')).toContainText('CNS not known');
});

test.describe('a reader with a decimal comma', () => {
  test.use({ locale: 'de-DE' });

  test('reads and types figures their own way', async ({ bench }) => {
    await bench.chooseTightest();
    await expect(bench.outcome('Density')).toHaveText(/^\d,\d g\/L$/);
    await bench.set('Depth', '21,5');
    await expect(bench.field('Depth')).toHaveValue('21,5 m');
    await bench.set('Depth', '0,5');
    await expect(bench.card.getByRole('alert')).toContainText('Depth is 0,5 m; it can be 1 to 100 m.');
    await bench.field('Depth').press('Escape');
  });
});

test.describe('where saving fails', () => {
  test('says so, keeps what is on screen and saves it once it can', async ({ page, bench }) => {
    // A disk that is full, as the browser tells it.
    await page.evaluate(() => {
      const put = IDBObjectStore.prototype.put;
      Object.assign(window, {
        mend: () => {
          IDBObjectStore.prototype.put = put;
        },
      });
      IDBObjectStore.prototype.put = () => {
        throw new DOMException('no room', 'QuotaExceededError');
      };
    });
    await bench.chooseTightest();
    await bench.set('Bottom time', '17');
    await expect(bench.saved).toContainText('Not saved:');
    await expect(bench.field('Bottom time')).toHaveValue('17 min');
    await page.evaluate(() => (window as unknown as { mend: () => void }).mend());
    await bench.saved.getByRole('button', { name: 'Try again' }).click();
    await bench.waitForSave();
    await bench.reload();
    await bench.command('dive 13');
    await expect(bench.field('Bottom time')).toHaveValue('17 min');
  });
});

test('the card of a dive looks the same after every place was opened', async ({ bench, page }) => {
  const opened = async () => {
    await bench.dive(5).click();
    await bench.card.getByText('The whole party dives it').click();
    const who = bench.card.getByRole('group', { name: 'Who dives' });
    await expect(who).toBeVisible();
    await bench.settled();
    return who;
  };
  const boxes = (who: Locator) =>
    who.evaluate((group) =>
      [group, ...group.querySelectorAll('label, input')].map((element) => {
        const { x, width, height } = element.getBoundingClientRect();
        return { x, width, height };
      }),
    );
  const before = await boxes(await opened());
  for (const place of ['Sites', 'Mixes', 'Party', 'Slates', 'Days']) {
    await page.getByRole('navigation').getByRole('button', { name: place, exact: true }).click();
    await expect(page.getByRole('navigation').locator('[aria-current=page]')).toHaveText(place);
    if (place === 'Slates')
      await expect(page.getByRole('complementary', { name: 'What to print' })).toBeVisible();
  }
  const who = await opened();
  await expect.poll(() => boxes(who)).toEqual(before);
});
