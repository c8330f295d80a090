import { readFile } from 'node:fs/promises';
import { expect, test as base } from './fixtures';
import { Workbench } from './pages/workbench';

const test = base.extend<{ second: Workbench }>({
  /** Another window with the trip that the first has edited and saved. */
  second: async ({ bench, context }, use) => {
    await bench.chooseTightest();
    await bench.set('Bottom time', '17');
    await bench.waitForSave();
    const second = new Workbench(await context.newPage());
    await second.page.goto('/');
    await expect(second.dive(1)).toBeVisible();
    await use(second);
    expect(second.faults).toEqual([]);
  },
});

test.describe('trips and files', () => {
  test('saves a copy that opens again as the same trip', async ({ page, bench }) => {
    await bench.chooseTightest();
    await bench.set('Bottom time', '17');
    const sentence = await bench.sentence.textContent();
    const download = page.waitForEvent('download');
    await page.keyboard.press('Control+Shift+s');
    const text = await readFile(await (await download).path(), 'utf8');
    await bench.waitForSave();
    await bench.command('demo trip');
    await expect(bench.sentence).not.toHaveText(sentence ?? '');
    await bench.openFile('copy.json', text);
    await expect(bench.sentence).toHaveText(sentence ?? '');
  });

  const BAD: readonly (readonly [string, string, RegExp])[] = [
    ['is not JSON', '{ "format": ', /JSON/],
    ['is not a trip', '{ "format": "other" }', /trip/i],
    ['is of a newer version', '{ "format": "carryover/trip", "version": 99 }', /newer|99/],
    ['is empty', '', /./],
  ];
  test('says what is wrong with a file, and leaves the trip as it was', async ({ page, bench }) => {
    const sentence = await bench.sentence.textContent();
    for (const [what, text, says] of BAD) {
      await bench.openFile('bad.json', text);
      const trouble = page.getByRole('dialog').or(page.locator('[data-tone="refused"]'));
      await expect(trouble, what).toContainText(says);
      await page.keyboard.press('Escape');
      await expect(bench.sentence, what).toHaveText(sentence ?? '');
    }
  });

  test('tells every mistake of a file at once, each with its place', async ({ page, bench }) => {
    const download = page.waitForEvent('download');
    await page.keyboard.press('Control+Shift+s');
    const trip = JSON.parse(await readFile(await (await download).path(), 'utf8'));
    trip.dives[0].depthM = -3;
    trip.dives[1].siteId = 'nowhere';
    trip.mixes[0].o2 = 1.2;
    await bench.openFile('three.json', JSON.stringify(trip));
    await expect(bench.dialog).toContainText('dives[0].depthM');
    await expect(bench.dialog).toContainText('dives[1].siteId');
    await expect(bench.dialog).toContainText('mixes[0].o2');
  });

  test('begins a trip of one’s own, from nothing to a first dive', async ({ page, bench }) => {
    await bench.command('new trip');
    await bench.dialog.getByLabel('Title').fill('Our week');
    await bench.dialog.getByLabel('Title').press('Enter');
    await page.keyboard.press('Escape');
    await expect(bench.title).toHaveText('Our week');
    await expect(bench.sentence).toContainText('No dives yet.');
    await bench.card.getByRole('button', { name: 'New dive' }).click();
    await expect(bench.sentence).toContainText('The one dive is within limits.');
    await bench.waitForSave();
    await bench.reload();
    await expect(bench.title).toHaveText('Our week');
  });

  test('lists the trips saved here, returns to an earlier save and undoes that', async ({ page, bench }) => {
    await bench.chooseTightest();
    await bench.set('Bottom time', '17');
    await bench.waitForSave();
    // The window says at once that this is not saved yet; for how long it says so is the disk's affair.
    await bench.set('Bottom time', '18');
    await bench.waitForSave();
    await page.keyboard.press('Control+Shift+o');
    await expect(bench.dialog).toContainText('On screen.');
    await bench.dialog.getByRole('button', { name: /^Earlier saves of/ }).click();
    await bench.dialog
      .getByRole('button', { name: /^Take the save of/ })
      .last()
      .click();
    await bench.command('dive 13');
    await expect(bench.field('Bottom time')).toHaveValue('17 min');
    await page.getByRole('button', { name: 'Undo return to an earlier save' }).click();
    await expect(bench.field('Bottom time')).toHaveValue('18 min');
  });

  test('asks when another window has saved the trip, and throws neither away', async ({
    page,
    bench,
    second,
  }) => {
    await second.chooseTightest();
    await second.set('Bottom time', '12');
    await second.waitForSave();
    await page.bringToFront();
    await expect(bench.dialog).toContainText('The stored trip has changed');
    await bench.dialog.getByRole('button', { name: 'Take the stored one' }).click();
    await expect(bench.dialog).toHaveCount(0);
    await expect(page.getByRole('button', { name: 'Undo taking the stored trip' })).toBeEnabled();
  });

  test('keeps what is on screen when another window has removed the trip', async ({
    page,
    bench,
    second,
  }) => {
    await second.page.keyboard.press('Control+Shift+o');
    await second.dialog.getByRole('button', { name: /to the bin$/ }).click();
    await page.bringToFront();
    await expect(bench.dialog).toContainText('The stored trip is gone');
    await bench.dialog.getByRole('button', { name: 'Keep what is on screen' }).click();
    await bench.waitForSave();
    await bench.reload();
    await bench.command('dive 13');
    await expect(bench.field('Bottom time')).toHaveValue('17 min');
  });
});
