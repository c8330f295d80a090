import { SAFETY_LINE } from '../../core/words/safety-line';
import { fileWords } from '../../core/words/reader';
import { expect, test } from './fixtures';
import { StartingSheetPage } from './pages/starting';

test.describe('the workbench', () => {
  test('opens the demo trip and says how it stands', async ({ bench }) => {
    await expect(bench.sentence).toContainText(/^All 22 dives are within limits\./);
    await expect(bench.sentence).toContainText('Tightest:');
    await expect(bench.sentence).toContainText('No flying before');
    await expect(bench.page.getByText(fileWords(SAFETY_LINE))).toBeVisible();
  });

  test('asks for the cautions once', async ({ page, bench }) => {
    await page.reload();
    await expect(bench.dive(1)).toBeVisible();
    await expect(bench.dialog).toHaveCount(0);
  });

  test('shows room and bands changed as soon as a depth is', async ({ bench }) => {
    await bench.chooseTightest();
    const room = await bench.outcome('Room').textContent();
    const line = await bench.nitrogenLine();
    const sentence = await bench.sentence.textContent();
    await bench.set('Depth', '12');
    await expect(bench.outcome('Room')).not.toHaveText(room ?? '');
    await expect(bench.sentence).not.toHaveText(sentence ?? '');
    // The curves are drawn in the frame behind the figures'.
    await expect.poll(() => bench.nitrogenLine()).not.toBe(line);
    await expect(bench.outcome('PO2 at 12 m')).toBeVisible();
  });

  test('takes an edit back and makes it again, to the figure', async ({ page, bench }) => {
    await bench.chooseTightest();
    const depth = await bench.field('Depth').inputValue();
    const room = await bench.outcome('Room').textContent();
    await bench.set('Depth', '12');
    await page.getByRole('button', { name: /^Undo depth of dive/ }).click();
    await expect(bench.field('Depth')).toHaveValue(depth);
    await expect(bench.outcome('Room')).toHaveText(room ?? '');
    await page.getByRole('button', { name: /^Redo depth of dive/ }).click();
    await expect(bench.field('Depth')).toHaveValue('12 m');
  });

  test('keeps the trip by itself and finds it again', async ({ bench }) => {
    await bench.chooseTightest();
    await bench.set('Bottom time', '17');
    await bench.waitForSave();
    const sentence = await bench.sentence.textContent();
    await bench.reload();
    await expect(bench.sentence).toHaveText(sentence ?? '');
    await expect(bench.saved).toHaveText(/^Saved \d/);
    // History does not outlive the window.
    await expect(bench.page.getByRole('button', { name: 'Undo', exact: true })).toBeDisabled();
  });

  test('offers to keep what is being typed as the page goes', async ({ page, bench }) => {
    await bench.command('dive 1');
    await bench.field('Depth').fill('17');
    const asked = page.waitForEvent('dialog');
    const going = page.evaluate(() => window.location.reload());
    const dialog = await asked;
    expect(dialog.type()).toBe('beforeunload');
    await dialog.dismiss();
    await going;
    await expect(bench.field('Depth')).toHaveValue('17 m');
    await expect(bench.field('Depth')).toBeFocused();
    await bench.waitForSave();
    await bench.reload();
    await bench.command('dive 1');
    await expect(bench.field('Depth')).toHaveValue('17 m');
  });

  test('refuses what cannot be beside the field, and leaves the trip as it was', async ({ bench }) => {
    await bench.chooseTightest();
    const room = await bench.outcome('Room').textContent();
    await bench.set('Depth', '400');
    await expect(bench.card.getByRole('alert')).toContainText('400');
    await expect(bench.field('Depth')).toHaveAttribute('aria-invalid', 'true');
    await expect(bench.outcome('Room')).toHaveText(room ?? '');
    await bench.field('Depth').press('Escape');
    await expect(bench.card.getByRole('alert')).toHaveCount(0);
    await expect(bench.page.getByRole('button', { name: 'Undo', exact: true })).toBeDisabled();
  });

  test('reads feet, hours and minutes, and a 12-hour clock', async ({ page, bench }) => {
    await bench.chooseTightest();
    await bench.set('Depth', '60 ft');
    await expect(bench.field('Depth')).toHaveValue('18.2 m');
    await bench.set('Bottom time', '0:25');
    await expect(bench.field('Bottom time')).toHaveValue('25 min');
    await page.getByRole('button', { name: 'Units: metres. Change to feet' }).click();
    await expect(bench.field('Depth')).toHaveValue('60 ft');
    await expect(bench.outcome('Pressure left')).toContainText('psi');
    await bench.command('12 hour clock');
    await expect(bench.field('Start')).toHaveValue(/ [ap]m$/);
  });

  test('follows what was really dived instead of the plan', async ({ bench }) => {
    await bench.chooseTightest();
    await bench.card.getByText('As dived', { exact: true }).click();
    await bench.card.getByRole('button', { name: 'Enter it, starting from the plan' }).click();
    const room = await bench.outcome('Room').textContent();
    await bench.set('Deepest', '14');
    await expect(bench.card).toContainText('dive, as dived');
    await expect(bench.outcome('Room')).not.toHaveText(room ?? '');
    await bench.card.getByRole('button', { name: 'As planned' }).click();
    await expect(bench.card).not.toContainText('dive, as dived');
  });

  test('says how a figure is worked out, and by whom it was published', async ({ bench }) => {
    await bench.chooseTightest();
    await bench.card.getByRole('button', { name: 'No-stop time' }).click();
    await expect(bench.dialog).toContainText('Source:');
    await expect(bench.dialog.getByRole('row').last()).toContainText('min');
    await bench.page.keyboard.press('Escape');
    await expect(bench.dialog).toHaveCount(0);
  });

  test('gives what is worked out in feet and by the reader’s clock too', async ({ page, bench }) => {
    await page.getByRole('button', { name: 'Units: metres. Change to feet' }).click();
    await bench.command('12-hour clock');
    await bench.chooseTightest();
    await bench.card.getByRole('button', { name: 'Workings' }).click();
    const figure = bench.dialog.getByRole('combobox');
    await figure.selectOption({ label: 'Maximum operating depth (MOD)' });
    const mod = /MOD (\d+ ft)/.exec(await bench.card.innerText())?.[1];
    await expect(bench.dialog.getByRole('row', { name: 'In feet' })).toContainText(mod!);
    await figure.selectOption({ label: 'When flying is clear' });
    await expect(bench.dialog.getByRole('row').last()).toContainText(/\w{3} \d+, \d+:\d\d [ap]m/);
  });

  test('tells who cannot see what a change did to room and cautions', async ({ page, bench }) => {
    await bench.chooseTightest();
    await bench.set('Depth', '38');
    await expect(page.getByRole('status').filter({ hasText: /^Dive \d+: .*caution/ })).toBeAttached();
  });

  test('chooses whose figures are shown', async ({ bench }) => {
    await bench.chooseTightest();
    await bench.whose('Guide').click();
    await expect(bench.card).toContainText('Figures of Guide');
  });
});

test.describe('the focus, where a button takes itself away', () => {
  test('goes to the next mix, and stays in the list of the library', async ({ page, bench }) => {
    await bench.command('mixes');
    const mixesOnBoard = page.locator('details').filter({ hasText: /on board/i });
    await mixesOnBoard.locator('summary').click();
    const removes = mixesOnBoard.getByRole('button', { name: /^Remove / });
    const second = (await removes.nth(1).getAttribute('aria-label')) ?? '';
    await removes.nth(0).click();
    await expect(mixesOnBoard.getByRole('button', { name: second })).toBeFocused();

    await bench.waitForSave();
    await bench.command('open the demo trip');
    // It comes once the other is put away, and none of its dives is chosen then.
    await expect(page.getByRole('button', { name: /^Undo/ })).toBeDisabled();
    await bench.command('days');
    await bench.command('dive 1');
    await bench.set('Depth', '14');
    await bench.waitForSave();
    await bench.command('my trips');
    const bins = bench.dialog.getByRole('button', { name: /to the bin$/ });
    await expect(bins).toHaveCount(2);
    await bins.nth(0).click();
    await expect(bins).toHaveCount(1);
    await expect(bins).toBeFocused();
    await bins.click();
    await expect(bins).toHaveCount(0);
    await expect(bench.dialog.locator(':focus')).toBeVisible();
  });

  test('goes to the first dive of a trip that is laid out', async ({ firstStart }) => {
    const start = new StartingSheetPage(firstStart);
    await start.begin();
    await start.field('Sites').fill('Gull Steps, 14\nFar Bank, 33 m');
    await start.layOut();
    await expect(firstStart.dive(1)).toBeFocused();
  });
});
