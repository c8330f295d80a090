import { expect, test } from './fixtures';
import type { Workbench } from './pages/workbench';
import { A4_SIDES, printed, wordsInMargins } from './pdf';
import { wcagBreaches } from './wcag';

test.describe('the dives as a table', () => {
  test.beforeEach(async ({ bench }) => {
    await bench.command('dive 1,');
    await bench.command('dives as a table');
    await expect(bench.page.getByRole('grid')).toBeVisible();
    // Until a cell has the focus, keys are typed into nothing.
    await expect(cell(bench, 0, DEPTH)).toBeFocused();
  });

  const cell = (bench: Workbench, row: number, column: number) =>
    bench.page.locator(`[data-row="${row}"][data-column="${column}"]`);
  const DEPTH = 3;
  const TIME = 4;

  test('is typed into as a spreadsheet is, one step of undo each', async ({ page, bench }) => {
    await expect(cell(bench, 0, DEPTH)).toBeFocused();
    const widths = () =>
      page
        .getByRole('grid')
        .getByRole('columnheader')
        .evaluateAll((heads) => heads.map((head) => head.getBoundingClientRect().width));
    const before = await widths();
    await page.keyboard.type('14');
    await expect(cell(bench, 0, DEPTH).getByRole('textbox')).toHaveValue('14');
    // What is typed moves no column: the table is laid out by the widths that they say.
    expect(await widths()).toEqual(before);
    await page.keyboard.press('Tab');
    await expect(cell(bench, 0, TIME)).toBeFocused();
    await page.keyboard.press('F2');
    await page.keyboard.type('35');
    await page.keyboard.press('Enter');
    await expect(cell(bench, 1, TIME)).toBeFocused();
    await expect(cell(bench, 0, DEPTH)).toHaveText('14');
    await expect(cell(bench, 0, TIME)).toHaveText('35');
    await page.keyboard.press('Control+z');
    await expect(cell(bench, 0, TIME)).toHaveText('40');
    await page.keyboard.press('Control+z');
    await expect(cell(bench, 0, DEPTH)).toHaveText('15');
  });

  test('fills down, and copies and pastes with a spreadsheet', async ({ page, bench }) => {
    await page.keyboard.press('Shift+ArrowDown');
    await page.keyboard.press('Shift+ArrowDown');
    await page.keyboard.press('Control+d');
    for (const row of [0, 1, 2]) await expect(cell(bench, row, DEPTH)).toHaveText('15');
    await page.keyboard.press('Control+z');
    // What a spreadsheet puts on the clipboard, pasted at the cursor.
    await cell(bench, 0, DEPTH).click();
    await page.evaluate(() => {
      const data = new DataTransfer();
      data.setData('text/plain', '13\t33\r\nabc\t34\r\n');
      const event = new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true });
      document.activeElement?.dispatchEvent(event);
    });
    await expect(page.getByRole('status').filter({ hasText: 'Pasted 3 cells.' })).toContainText(
      'Not taken: dive 2, depth: “abc” is no unit for this.',
    );
    await expect(cell(bench, 0, DEPTH)).toHaveText('13');
    await expect(cell(bench, 1, TIME)).toHaveText('34');
    await expect(cell(bench, 1, DEPTH)).toHaveAttribute('aria-invalid', 'true');
    await page.keyboard.press('Control+z');
    await expect(cell(bench, 0, DEPTH)).toHaveText('15');
    await expect(cell(bench, 1, TIME)).toHaveText('42');
  });

  test('is drawn out by its corner, down and up, in one step to undo', async ({ page, bench }) => {
    const drag = async (row: number): Promise<void> => {
      await page.locator('[data-corner]').hover();
      await page.mouse.down();
      await cell(bench, row, DEPTH).hover();
      await page.mouse.up();
    };
    await cell(bench, 1, DEPTH).click();
    await drag(3);
    for (const row of [1, 2, 3]) await expect(cell(bench, row, DEPTH)).toHaveText('19');
    await page.keyboard.press('Control+z');
    await expect(cell(bench, 2, DEPTH)).toHaveText('13');
    await cell(bench, 1, DEPTH).click();
    await drag(0);
    await expect(cell(bench, 0, DEPTH)).toHaveText('19');
    await expect(cell(bench, 1, DEPTH)).toHaveText('19');
  });

  test('is sorted by a head, and follows whose figures are shown', async ({ page, bench }) => {
    await page.getByRole('button', { name: 'Depth m' }).click();
    await expect(page.getByRole('columnheader', { name: 'Depth m' })).toHaveAttribute(
      'aria-sort',
      'ascending',
    );
    await expect(cell(bench, 0, DEPTH)).toHaveText('11');
    await page.getByRole('button', { name: /^Depth m/ }).click();
    await expect(cell(bench, 0, DEPTH)).toHaveText('36');
    await page.getByLabel('Figures of').selectOption('Guest 1');
    await expect(cell(bench, 1, 8)).toHaveText('Guest 1');
  });

  test('takes a new dive in its last row, and leads to the card of any', async ({ page, bench }) => {
    await page.keyboard.press('Control+End');
    await page.keyboard.press('Home');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.type('18:30');
    await page.keyboard.press('Tab');
    await page.keyboard.type('Candle');
    await page.keyboard.press('Enter');
    await expect(bench.sentence).toContainText('23 dives');
    await page.getByRole('button', { name: '23', exact: true }).click();
    await expect(bench.field('Start')).toHaveValue('18:30');
    await expect(bench.field('Site').locator('option:checked')).toHaveText('Candle Harbour');
  });

  test('holds WCAG 2.2 AA in either look', async ({ page, bench }) => {
    await cell(bench, 2, DEPTH).click();
    await page.keyboard.type('x');
    await page.keyboard.press('Enter');
    await expect(cell(bench, 2, DEPTH)).toHaveAttribute('aria-invalid', 'true');
    for (const look of ['light', 'cabin'] as const) {
      await bench.command(look === 'light' ? 'light paper' : look);
      await expect(page.locator('html')).toHaveAttribute('data-look', look);
      expect(await wcagBreaches(page), look).toEqual([]);
    }
  });

  test('prints every column of every dive, held upright or across', async ({ page }, info) => {
    const grid = page.getByRole('grid');
    const heads = (await grid.getByRole('columnheader').allInnerTexts()).join(' ').match(/[\w-]+/g)!;
    const shown = await grid.getByRole('row').filter({ hasText: 'Anvil Head' }).allInnerTexts();
    expect(shown).toHaveLength(2);
    for (const side of A4_SIDES) {
      const file = info.outputPath(`${side}.pdf`);
      const words = (await printed(page, file, side)).split(/\s+/);
      expect(words).toEqual(
        expect.arrayContaining([...heads, ...shown.flatMap((row) => row.trim().split(/\s+/))]),
      );
      expect(words).not.toContain('F2');
      expect(await wordsInMargins(file)).toEqual([]);
    }
  });
});
