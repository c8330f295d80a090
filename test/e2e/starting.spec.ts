import { expect, test as base } from './fixtures';
import { StartingSheetPage } from './pages/starting';
import { wcagBreaches } from './wcag';

const test = base.extend<{ start: StartingSheetPage }>({
  start: async ({ firstStart }, use) => {
    const start = new StartingSheetPage(firstStart);
    await start.begin();
    await use(start);
  },
});

const SITES = 'Gull Steps, 14\nFar Bank, 33 m\nLow Arch, 72 ft\nPlover Sound, 18\nOld Mooring, 26';

test.describe('the starting sheet', () => {
  test('lays out a week from a first start, kept in the library and ready to edit', async ({
    page,
    start,
  }) => {
    // Nothing is refused before anything was typed, and what cannot be pressed does not look as if it could.
    await expect(start.field('First day')).toBeFocused();
    // What a week is made of is in sight at once.
    for (const asked of ['Nights', 'Sites']) {
      await expect(start.field(asked)).toBeInViewport({ ratio: 1 });
    }
    await expect(start.preview).toContainText('Give the sites, and the days of the trip appear here.');
    await expect(start.sheet).not.toContainText('There is no site to dive.');
    const take = start.sheet.getByRole('button', { name: 'Use this draft' });
    await expect(take).toBeDisabled();
    const ground = () => take.evaluate((button) => getComputedStyle(button).backgroundColor);
    const whileDisabled = await ground();
    await start.set('First day', '2027-03-06');
    await start.field('Sites').fill(SITES);
    await start.set('Names, or how many', 'Guide, Guest 1, Guest 2');
    await start.set('Title', 'A week at the Plovers');
    await start.set('Place', 'The Plovers');
    await expect(start.days.getByRole('row')).toHaveCount(7);
    await expect(start.preview).toContainText('22 dives on six days');
    await expect.poll(ground).not.toBe(whileDisabled);
    await start.field('Sites').fill('');
    await expect(start.preview).toContainText('One of the answers cannot be used');
    await expect(start.part('Where')).toContainText('There is no site to dive.');
    await start.field('Sites').fill(SITES);
    await expect(start.preview).toContainText('22 dives on six days');
    await start.layOut();
    await expect(start.bench.title).toHaveText('A week at the Plovers');
    await expect(start.bench.dive(22)).toBeVisible();
    await expect(start.bench.sentence).toContainText('All 22 dives are within limits.');
    await expect(start.bench.sentence).not.toContainText(/pass a limit|to adjust/);
    await start.bench.waitForSave();
    await page.reload();
    await expect(start.bench.title).toHaveText('A week at the Plovers');
    await start.bench.chooseTightest();
    await start.bench.set('Bottom time', '15');
    await expect(page.getByRole('button', { name: /^Undo bottom time of dive/ })).toBeEnabled();
  });

  test('shows each day from its deepest dive to its shallowest', async ({ start }) => {
    await start.field('Sites').fill(SITES);
    await expect(start.days.getByRole('row')).toHaveCount(7);
    for (const row of (await start.days.getByRole('row').all()).slice(1)) {
      const depths = (await row.getByRole('cell').allTextContents()).map((text) => Number.parseFloat(text));
      expect(depths.length).toBe(4);
      expect(depths).toEqual(depths.toSorted((a, b) => b - a));
    }
  });

  test('explains what it chose, and keeps the reasons in the notes', async ({ page, start }) => {
    await start.field('Sites').fill(SITES);
    await expect(start.preview).toContainText('the days of arrival and departure are left free');
    await expect(start.preview).toContainText(
      /Far Bank is dived to \d+ m rather than 33 m.*: deeper, the gas leaves less than 20 min\./,
    );
    await expect(start.preview).toContainText('Gas limits most of them: check cylinder, fill and RMV.');
    // Metres are shown to the tenth, as everywhere in the window: 72 ft are 21.9456 m.
    await expect(start.preview).toContainText('rather than 21.9 m');
    // The cylinder is the first question: twice the gas, and the no-stop limit is what is left to say.
    await start.set('Cylinder', '2x12 at 232 bar');
    await expect(start.field('Cylinder')).toHaveValue('24 L');
    await expect(start.field('Fill')).toHaveValue('232 bar');
    await expect(start.preview).toContainText(/limited by the no-stop limit/);
    await expect(start.preview).not.toContainText('Gas limits most of them');
    await start.set('Depth limit, each', '18');
    await expect(start.preview).toContainText(
      /Far Bank is dived to 18 m rather than 33 m.*: the depth limit is 18 m\./,
    );
    await start.layOut();
    await page.getByText('Notes of the trip').click();
    await expect(start.bench.card).toContainText('Each diver breathes the richest mix on board');
  });

  test('swaps, locks and drops single dives, and drafts the rest around them', async ({ start }) => {
    await start.field('Sites').fill(SITES);
    await start.set('Cylinder', '2x12');
    const cell = (row: number, at: number) =>
      start.days.getByRole('row').nth(row).getByRole('cell').nth(at).getByRole('button');
    const siteOf = async (row: number, at: number) =>
      (await cell(row, at).innerText()).split('\n').at(-1)!.trim();
    await expect(start.days.getByRole('row')).toHaveCount(7);
    const [first, second] = [await siteOf(2, 0), await siteOf(2, 1)];
    const choices = start.preview.getByRole('group', { name: 'The chosen dive' });
    await cell(2, 0).click();
    await choices.getByRole('button', { name: 'Swap' }).click();
    await cell(2, 1).click();
    await expect(cell(2, 0)).toContainText(second);
    await expect(cell(2, 1)).toContainText(first);
    await cell(3, 3).click();
    await choices.getByRole('button', { name: 'Drop' }).click();
    await expect(cell(3, 3)).toHaveText('dropped');
    await expect(start.preview).toContainText('21 dives on six days');
    await cell(4, 1).click();
    const kept = await cell(4, 1).innerText();
    await choices.getByRole('button', { name: 'Lock' }).click();
    await expect(cell(4, 1)).toContainText('locked');
    // Shorter dives are asked for: the locked one stays as it is.
    await start.set('Longest dive', '30');
    await expect(cell(4, 2)).toContainText('30 min');
    await expect.poll(async () => (await cell(4, 1).innerText()).startsWith(kept)).toBe(true);
    await choices.getByRole('button', { name: 'Unlock' }).click();
    await expect(cell(4, 1)).toContainText('30 min');
    await start.layOut();
    await expect(start.bench.dive(21)).toBeVisible();
    await expect(start.bench.dive(22)).toHaveCount(0);
  });

  test('puts night dives where they are asked for', async ({ start }) => {
    await start.field('Sites').fill(SITES);
    await start.field('Night dives').selectOption('Every other evening');
    await start.set('Night dives start at', '19:00');
    await expect(start.days.getByRole('columnheader')).toHaveText([
      'Day',
      '08:00',
      '11:00',
      '14:30',
      '17:30',
      '19:00',
    ]);
    await expect(start.preview).toContainText('A night dive goes to a site dived that day');
    await start.set('Nights', '10');
    await expect(start.days).toContainText('Day of rest');
    await start.sheet.getByLabel('A day of rest after six diving days at most').uncheck();
    await expect(start.days).not.toContainText('Day of rest');
  });

  test('replaces nothing where it was asked for while it was at work, and closed before it was done', async ({
    page,
    start,
  }) => {
    await start.field('Sites').fill(SITES);
    await expect(start.days.getByRole('row')).toHaveCount(7);
    await page.keyboard.press('Escape');
    // From here on the part that lays out is slow to come.
    let release: () => void = () => undefined;
    const held = new Promise<void>((resolve) => {
      release = resolve;
    });
    await page.route(/starting-worker/, async (route) => {
      await held;
      await route.continue();
    });
    await start.bench.command('Draft a new');
    await expect(start.preview).toContainText('Drafting…');
    await start.sheet.getByRole('button', { name: 'Use this draft' }).click();
    await page.keyboard.press('Escape');
    await expect(start.sheet).toHaveCount(0);
    await start.bench.command('Draft a new');
    release();
    await expect(start.days.getByRole('row')).toHaveCount(7);
    await expect(start.sheet).toBeVisible();
    await page.keyboard.press('Escape');
    await expect(start.bench.title).toHaveText('Seven nights among the Ember Cays');
  });

  test('follows each answer', async ({ page, start }) => {
    await start.field('Sites').fill(SITES);
    await start.set('Nights', '3');
    await expect(start.days.getByRole('row')).toHaveCount(3);
    await start.set('Dives start at', '9, 14.30');
    await expect(start.field('Dives start at')).toHaveValue('09:00, 14:30');
    await expect(start.days.getByRole('columnheader')).toHaveText(['Day', '09:00', '14:30']);
    await start.set('Mixes, % oxygen', '21; 31,5');
    await expect(start.field('Mixes, % oxygen')).toHaveValue('Air, EAN31.5');
    await start.sheet.getByRole('button', { name: 'Add the flight home' }).click();
    await expect(start.preview).toContainText('18 h before the flight');
    await start.layOut();
    await page.getByRole('navigation').getByRole('button', { name: 'Mixes' }).click();
    await expect(page.getByText('On board: Air, EAN31.5')).toBeVisible();
  });

  test('says beside the question what cannot be, and what is typed is not lost', async ({ page, start }) => {
    await start.field('Sites').fill('Gull Steps, 14\nNowhere');
    await expect(start.part('Where')).toContainText('Line 2: The row has no depth.');
    await expect(start.sheet.getByRole('button', { name: 'Use this draft without one row' })).toBeEnabled();
    await start.set('Names, or how many', 'Ann, Ann');
    await expect(start.part('Who').getByRole('alert')).toContainText('Ann is given twice.');
    await start.set('Longest dive', '10');
    await expect(start.part('When')).toContainText('A longest dive of 10 min cannot be drafted.');
    await start.set('Nights', '2.5');
    await expect(start.part('When')).toContainText('2.5 nights cannot be drafted.');
    await start.set('Mixes, % oxygen', '150');
    await expect(start.part('Gas')).toContainText('Oxygen is 150 %; it can be 20 to 100 %.');
    await start.set('Names, or how many', '0');
    await expect(start.part('Who').getByRole('alert')).toContainText('A party of 0 cannot be planned.');
    await expect(start.sheet.getByRole('button', { name: 'Use this draft' })).toBeDisabled();
    await start.sheet.getByRole('button', { name: 'Close' }).click();
    await expect(start.sheet).toHaveCount(0);
    await page.getByRole('button', { name: 'Trip', exact: true }).click();
    await page.getByRole('menuitem', { name: 'Draft a new trip' }).click();
    await expect(start.field('Sites')).toHaveValue('Gull Steps, 14\nNowhere');
    await expect(start.field('Longest dive')).toHaveValue('10 min');
  });

  test('says why nothing fits, and lays nothing out', async ({ start }) => {
    await start.field('Sites').fill('Gull Steps, 30');
    await start.set('Mixes, % oxygen', '100');
    await start.set('Depth limit, each', '30');
    await expect(start.preview).toContainText('No dive fits.');
    await expect(start.sheet.getByRole('button', { name: 'Use this draft' })).toBeDisabled();
  });

  test('takes over sites, party and mixes of the trip on screen', async ({ start }) => {
    await start.sheet.getByLabel(/^The 6 sites of “Seven nights/).check();
    await start.sheet.getByLabel(/^The party of “Seven nights/).check();
    await start.sheet.getByLabel(/^The mixes of “Seven nights/).check();
    await expect(start.days).toContainText('Thrift Garden');
    await start.layOut();
    await expect(start.bench.sentence).toContainText(/^All \d+ dives are within limits/);
  });

  test('reads a file of sites', async ({ start }) => {
    start.bench.answerNextFile('sites.csv', 'name;depth (m)\nGull Steps;14,5\nFar Bank;26');
    await start.sheet.getByRole('button', { name: 'Choose a file' }).click();
    await expect(start.part('Where').getByRole('row')).toHaveCount(3);
    await expect(start.part('Where')).toContainText('14.5 m');
    await expect(start.days).toContainText('Far Bank');
  });

  test('counts in feet where the window does', async ({ page, start }) => {
    await start.sheet.getByRole('button', { name: 'Close' }).click();
    await page.getByRole('button', { name: 'Units: metres. Change to feet' }).click();
    await start.bench.command('draft new trip');
    await start.field('Sites').fill('Gull Steps, 60\nFar Bank, 100');
    await expect(start.field('Depth limit, each')).toHaveValue('100 ft');
    await expect(start.days).toContainText(/\d+ ft, \d+ min/);
    await expect(start.preview).toContainText('at least 10 ft less deep');
    await expect(start.preview).not.toContainText(/\d m\b/);
    await start.set('Depth limit, each', '400');
    await expect(start.part('Who')).toContainText('Depth limit is 400 ft; it can be 4 to 328 ft.');
    await start.set('Depth limit, each', '328');
    await expect(start.days).toContainText('ft');
    await start.set('Cylinder', '500');
    await expect(start.part('Gas').getByRole('alert')).toContainText('Cylinder size is 500 cu ft; it can be');
  });

  test('begins with an empty trip where that is wanted', async ({ start }) => {
    await start.sheet.getByRole('button', { name: 'Start with an empty trip' }).click();
    await expect(start.sheet).toHaveCount(0);
    await expect(start.bench.dialog).toContainText('The trip');
    await start.bench.page.keyboard.press('Escape');
    await expect(start.bench.title).toHaveText('New trip');
  });

  test('is answered without a pointer', async ({ page, start }) => {
    await start.field('First day').focus();
    await page.keyboard.press('Escape');
    await start.bench.command('draft new trip');
    await start.field('Sites').focus();
    await page.keyboard.type('Gull Steps, 14');
    await page.keyboard.press('Tab');
    await expect(start.sheet.getByRole('button', { name: 'Choose a file' })).toBeFocused();
    await expect(start.days).toContainText('Gull Steps');
    await start.sheet.getByRole('button', { name: 'Use this draft' }).focus();
    await page.keyboard.press('Enter');
    await expect(start.sheet).toHaveCount(0);
    await expect(start.bench.dive(1)).toBeVisible();
  });
});

for (const look of ['light', 'cabin'] as const) {
  test.describe(() => {
    test.use({ colorScheme: look === 'cabin' ? 'dark' : 'light' });

    test(`the sheet holds WCAG 2.2 AA in the ${look} look, filled and refused`, async ({ page, start }) => {
      await start.field('Sites').fill(`${SITES}\nNowhere`);
      await expect(start.days).toBeVisible();
      for (const nights of ['7', '2.5']) {
        await start.set('Nights', nights);
        expect(await wcagBreaches(page)).toEqual([]);
      }
    });
  });
}

test('text at 200 percent loses nothing of the sheet to the side', async ({ page, bench }) => {
  await bench.enlarge();
  await bench.command('draft new trip');
  const start = new StartingSheetPage(bench);
  await start.field('Sites').fill(SITES);
  await expect(start.days).toBeAttached();
  const body = page.getByRole('dialog').locator('[tabindex="0"]').first();
  await expect.poll(() => body.evaluate((box) => box.scrollWidth - box.clientWidth)).toBeLessThanOrEqual(0);
  const heading = start.preview.getByRole('heading', { name: 'The draft' });
  await heading.scrollIntoViewIfNeeded();
  await expect(heading).toBeInViewport({ ratio: 1 });
});
