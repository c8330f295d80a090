import { expect, test as base } from './fixtures';
import { Evening } from './pages/evening';
import { openWorse } from './pages/worse-trip';

const test = base.extend<{ readonly evening: Evening }>({
  evening: async ({ bench }, use) => {
    await use(new Evening(bench));
  },
});

const DIVERS = ['Guide', 'Guest 1', 'Guest 2', 'Guest 3'] as const;

test('a day that went as planned for all is logged with two clicks, and the file says so', async ({
  bench,
  evening,
}) => {
  await evening.open();
  await expect(evening.progress).toContainText('0 of 12');
  await evening.click(evening.panel.getByRole('button', { name: 'Rest as planned' }));
  await expect(evening.progress).toContainText('12 of 12');
  expect(evening.clicks).toBe(2);
  await expect(bench.saved).toContainText('Saved');

  await bench.reload();
  await bench.page.keyboard.press('Alt+l');
  await expect(evening.panel).toHaveAccessibleName('Evening of Mon 15 March');
  await expect(evening.progress).toContainText('0 of 16');
});

test('a day on which all four differ on every dive takes one click and the typing', async ({
  bench,
  evening,
}) => {
  await evening.open();
  await bench.page.keyboard.press('ArrowDown');
  for (const i of DIVERS.keys()) {
    await evening.type(
      [0, 1, 2].flatMap((dive) => [
        `${[9, 14, 17][dive]}${40 + i}`,
        `${14 + i + [0, 4, -2][dive]!},5`,
        `${38 + i}`,
        `${60 + 5 * i}`,
        null,
      ]),
    );
  }
  await expect(evening.progress).toContainText('12 of 12');
  expect(evening.clicks).toBeLessThanOrEqual(4);
  await expect(evening.cell('Guest 3', 1)).toContainText('9:43');
  await expect(evening.cell('Guest 3', 2)).toContainText('17.5');
  await expect(evening.cell('Guest 3', 14)).toContainText('75');
  // Three dives show how each breathes: offered from tomorrow, and taken by nobody but the user.
  const rates = evening.panel.getByRole('region', { name: 'Gas rates breathed' });
  await expect(rates.getByRole('row')).toHaveCount(4);
  await expect(rates.getByRole('row').first()).toContainText('median of 3 dives');
  await expect(rates.getByRole('row').first()).toContainText('planned with 12 L/min');
});

test('what everybody did is typed once, and each has their own where it differs', async ({ evening }) => {
  await evening.open();
  await evening.type(['0938']);
  for (const name of DIVERS) await expect(evening.cell(name, 1)).toContainText('09:38');
  await expect(evening.progress).toContainText('4 of 12');
  await evening.cell('Guest 2', 1).click();
  await evening.type(['0941']);
  await expect(evening.cell('Guest 2', 1)).toContainText('09:41');
  await expect(evening.cell('Guest 1', 1)).toContainText('09:38');
});

test('a block from a spreadsheet lands where the cell is, in its own units, and goes in one step', async ({
  bench,
  evening,
}) => {
  await evening.open();
  await evening.cell('Guide', 2).click();
  await evening.paste('15,5\t41\t1000 psi\n52 ft\t38\t70\n16\t40\t4 bars\n');
  await expect(evening.panel.getByRole('status')).toContainText('Pasted 8 cells.');
  await expect(evening.panel.getByRole('status')).toContainText(
    'Guest 2, pressure left, dive 1 of the day: “bars” is no unit',
  );
  await expect(evening.cell('Guide', 2)).toContainText('15.5');
  await expect(evening.cell('Guide', 4)).toContainText('69');
  await expect(evening.cell('Guest 1', 2)).toContainText('15.9');
  await expect(evening.progress).toContainText('3 of 12');
  await evening.panel.getByRole('button', { name: 'Undo' }).click();
  await expect(evening.progress).toContainText('0 of 12');
  await expect(bench.title).toBeVisible();
});

test('a missed dive is struck with its reason, and typing a figure brings the diver back', async ({
  evening,
}) => {
  await evening.open();
  await evening.cell('Guest 1', 6).click();
  await evening.type(['n ear'], 'Enter');
  await expect(evening.cell('Guest 1', 6)).toContainText('not dived: ear');
  await expect(evening.progress).toContainText('1 of 12');
  await evening.cell('Guest 1', 9).click();
  await evening.type(['80']);
  await expect(evening.cell('Guest 1', 6)).toContainText('as planned');
  await evening.panel.getByRole('button', { name: 'Thrift Garden not dived by anybody' }).last().click();
  for (const name of DIVERS) await expect(evening.cell(name, 11)).toContainText('not dived');
});

test('a dive that was not planned is added with what is known of it, and is there again', async ({
  bench,
  evening,
}) => {
  await evening.open();
  await evening.panel.getByRole('button', { name: 'Add a dive' }).click();
  const form = evening.panel.getByRole('form', { name: 'Dive that was not planned' });
  await form.getByLabel('Site').selectOption('Candle Harbour');
  await form.getByLabel('In', { exact: true }).fill('20:15');
  await form.getByLabel('Deepest, m').fill('9');
  await form.getByRole('button', { name: 'Add' }).click();
  await expect(form.getByRole('alert')).toContainText('Nothing is typed');
  await form.getByLabel('Bottom, min').fill('35');
  await form.getByRole('button', { name: 'Add' }).click();
  await expect(evening.panel.getByRole('columnheader', { name: /\+ 20:15 Candle Harbour/ })).toBeVisible();
  await expect(evening.progress).toContainText('4 of 16');
  await bench.waitForSave();
  await bench.reload();
  await bench.dive(4).focus();
  await bench.page.keyboard.press('Alt+l');
  await expect(evening.progress).toContainText('4 of 16');
  await expect(evening.cell('Guide', 17)).toContainText('9');
});

test('an analysis that takes the MOD above the depth says so at once', async ({ evening }) => {
  await evening.open();
  const columns = () =>
    evening.grid
      .getByRole('columnheader')
      .evaluateAll((heads) => heads.map((head) => head.getBoundingClientRect().width));
  const before = await columns();
  await evening.cell('Guest 3', 10).click();
  await evening.type(['66']);
  await expect(evening.cell('Guest 3', 10)).toContainText('MOD');
  // What is told in a cell moves no other: the table is laid out by the widths that its columns say.
  expect(await columns()).toEqual(before);
  const analysed = evening.panel.getByRole('region', { name: 'Oxygen as analysed' });
  await expect(analysed).toContainText(/Guest 3, Osier Channel: MOD 1\d m at PO2 1\.40 bar, planned to 19 m/);
  await expect(evening.progress).toContainText('0 of 12');
});

test('Escape closes the evening, keeps what was logged, and gives the focus back', async ({
  bench,
  evening,
}) => {
  const { keyboard } = bench.page;
  await bench.dive(2).focus();
  await keyboard.press('l');
  await evening.ready();
  await evening.type(['0938']);
  await keyboard.type('15');
  // The first takes back what is being typed, as anywhere.
  await keyboard.press('Escape');
  await expect(evening.panel).toBeVisible();
  await keyboard.press('Escape');
  await expect(evening.panel).toHaveCount(0);
  await expect(bench.dive(2)).toBeFocused();
  await keyboard.press('l');
  await expect(evening.progress).toContainText('4 of 12');
  await keyboard.press('Escape');

  // Where it was opened from is gone, the day's own button has it.
  await keyboard.press('Escape');
  await evening.open();
  await keyboard.press('Escape');
  await expect(bench.page.getByRole('button', { name: 'Log Sun 14 March' })).toBeFocused();
});

test('log, what changed, mending and the slates are a press away from one another', async ({
  bench,
  evening,
}) => {
  const { page } = bench;
  await openWorse(bench);
  await evening.open();
  await evening.click(evening.panel.getByRole('button', { name: 'Rest as planned' }));
  const before = evening.clicks;
  await evening.click(evening.panel.getByRole('button', { name: 'What changed' }).first());
  await expect(evening.panel).toContainText('Logged:');
  await evening.click(evening.progress.getByRole('button', { name: /^Mend/ }));
  const sheet = page.getByRole('dialog', { name: 'Mend the days ahead' });
  await expect(sheet.getByRole('radio', { name: /^Best overall/ })).toBeChecked({ timeout: 30_000 });
  await evening.click(sheet.getByRole('button', { name: /^Apply/ }));
  // What the mending changed is told at once, beside the strip.
  await expect(sheet).toHaveCount(0);
  await expect(evening.panel.getByRole('button', { name: 'What changed' })).toHaveAttribute(
    'aria-current',
    'step',
  );
  await evening.click(evening.progress.getByRole('button', { name: 'Tomorrow’s slates' }));
  await expect(page.getByRole('heading', { name: 'Slates' })).toBeVisible();
  expect(evening.clicks - before).toBe(4);
});

test('what the log changed is told since the plan of the morning: rooms, flight and what was done', async ({
  bench,
  evening,
}) => {
  await evening.open();
  await evening.cell('Everybody', 11).click();
  await evening.type(['2000', '16', '58']);
  await evening.click(evening.panel.getByRole('button', { name: 'Rest as planned' }));
  await bench.page.keyboard.press('Control+Enter');
  const { panel } = evening;
  await expect(panel.getByLabel('Since')).toHaveValue(/.+/);
  await expect(panel).toContainText('Logged: two dives as planned, one dive otherwise.');
  const rooms = panel.getByRole('table', { name: 'Least room of each dive ahead, before and after' });
  // Of the 22 dives three are done; the head is a row too.
  await expect(rooms.getByRole('row')).toHaveCount(20);
  await expect(panel).toContainText(/No flying before Sat 20/);
  await rooms.getByRole('button', { name: /^07:45 Kettle Pinnacle/ }).click();
  await expect(bench.dive(4)).toHaveAttribute('aria-selected', 'true');
  await expect(bench.page.locator('[data-headline]')).toContainText('All 19 dives ahead are within limits.');
});
