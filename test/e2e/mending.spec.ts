import { cautionsOf } from '../../core/cautions/all';
import { readTrip } from '../../core/document/read-trip';
import { ledger } from '../../core/ledger/ledger';
import { expect, test } from './fixtures';
import type { Workbench } from './pages/workbench';
import { fileText, openWorse } from './pages/worse-trip';

/** Cautions that must be heeded before the trip is dived. */
async function cautionsToHeed(bench: Workbench): Promise<readonly string[]> {
  const read = readTrip(await fileText(bench));
  if (!read.ok) throw new Error(read.troubles[0].what);
  return cautionsOf(ledger(read.value))
    .filter(({ severity }) => severity !== 'know')
    .map(({ code }) => code);
}

test.describe('mending the days ahead', () => {
  test('proposes, carries out with one step, and one undo brings the trip back', async ({ page, bench }) => {
    await openWorse(bench);
    expect(await cautionsToHeed(bench)).toContain('past-no-stop');

    await bench.command('Mend the days');
    const sheet = page.getByRole('dialog', { name: 'Mend the days ahead' });
    const best = sheet.getByRole('radio', { name: /^Best overall/ });
    await expect(best).toBeChecked({ timeout: 30_000 });
    await expect(sheet.getByRole('radio')).toHaveCount(4);
    await expect(sheet.getByRole('table')).toContainText(
      'start at 10:55; 21 m, not 24 m; 43 min, not 44 min',
    );

    // What the best does already is not told twice.
    await expect(sheet.getByText('The best overall does that already.')).toHaveCount(1);

    // Arrows go from one proposal to the next, and the chosen one is opened.
    await expect(best).toBeFocused();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowDown');
    const depths = sheet.getByRole('radio', { name: /^Keep the depths/ });
    await expect(depths).toBeChecked();
    await expect(sheet.getByRole('table', { name: 'What Keep the depths changes' })).toContainText(
      '32 min, not 44 min',
    );
    await page.keyboard.press('Enter');
    await expect(sheet).toHaveCount(0);
    await expect(bench.dive(13)).toHaveAccessibleName(/10:55/);
    // What that did to the days ahead is a press away.
    await page.getByRole('button', { name: 'What changed' }).click();
    await expect(page.getByRole('row', { name: /10:55 Kettle Pinnacle −14 0/ })).toBeVisible();
    await page.keyboard.press('Escape');
    expect(await cautionsToHeed(bench)).toEqual([]);

    await page.keyboard.press('Control+z');
    await expect(bench.dive(13)).toHaveAccessibleName(/10:35/);
    expect(await cautionsToHeed(bench)).toContain('past-no-stop');
  });

  test('of one caution is a press from its card and from the list, and brings none on another dive', async ({
    page,
    bench,
  }) => {
    await openWorse(bench);
    await bench.dive(13).focus();
    await page.keyboard.press('Enter');
    await bench.card.getByRole('button', { name: 'Mend dive 13' }).first().click();
    const sheet = page.getByRole('dialog', { name: 'Mend dive 13' });
    await expect(sheet.getByRole('radio', { name: /^Best overall/ })).toBeChecked({ timeout: 30_000 });
    await expect(sheet).toContainText('Each proposal leaves none of them and brings none on another dive');
    const table = sheet.getByRole('table', { name: 'What Best overall changes' });
    await expect(table).toContainText(/Wed 17, 10:35/);
    // Looked at, not done: the strip has both.
    const ghost = bench.page.locator('[data-part="proposed dive"]');
    await expect(ghost).toHaveCount(1);
    // And the band has both curves where they part: that of the proposal keeps below the limit.
    const curve = bench.page.locator('[data-part="proposed nitrogen"]');
    await expect(curve).toHaveAttribute('d', /^M[\d.]+ [\d.]+L/);
    await expect(bench.page.getByText('; dashed, as proposed')).toBeVisible();
    const topOf = (part: string): Promise<number> =>
      bench.page
        .locator(`[data-part="${part}"]`)
        .first()
        .evaluate((path) => path.getBoundingClientRect().top);
    await expect.poll(async () => (await topOf('nitrogen')) < (await topOf('limit'))).toBe(true);
    await expect.poll(async () => (await topOf('proposed nitrogen')) > (await topOf('limit')) - 1).toBe(true);
    const isSeen = async () => {
      const [drawn, beside] = [await ghost.boundingBox(), await sheet.boundingBox()];
      if (!drawn || !beside) return false;
      return drawn.x + drawn.width < beside.x && drawn.y + drawn.height < 800;
    };
    await expect.poll(isSeen).toBe(true);
    await expect(bench.dive(13)).toHaveAccessibleName(/10:35/);
    await page.keyboard.press('Escape');
    await expect(ghost).toHaveCount(0);
    await expect(curve).toHaveCount(0);

    await bench.command('all cautions');
    await bench.dialog.getByRole('button', { name: 'Mend dive 13' }).first().click();
    await expect(sheet.getByRole('radio', { name: /^Best overall/ })).toBeChecked({ timeout: 30_000 });
    await page.keyboard.press('Enter');
    await expect(sheet).toHaveCount(0);
    expect(await cautionsToHeed(bench)).toEqual([]);
    await expect(ghost).toHaveCount(0);
  });

  test('takes what moves cost and the room to leave, and keeps the costs', async ({ page, bench }) => {
    await openWorse(bench);
    await bench.command('Mend the days');
    const sheet = page.getByRole('dialog', { name: 'Mend the days ahead' });
    const table = sheet.getByRole('table');
    await expect(table).toContainText('21 m, not 24 m', { timeout: 30_000 });
    const shallower = sheet.getByLabel('1 m shallower');
    await shallower.fill('0');
    await shallower.press('Enter');
    await expect(sheet.getByText('no whole number from 1 to 9999')).toBeVisible();
    await shallower.fill('50');
    await shallower.press('Enter');
    await expect(table).toContainText('start at 10:55; 32 min, not 44 min', { timeout: 30_000 });
    await sheet.getByLabel('Room to leave').fill('3');
    await sheet.getByLabel('Room to leave').press('Enter');
    await expect(table).toContainText('29 min, not 44 min', { timeout: 30_000 });
    await page.keyboard.press('Escape');
    await expect(sheet).toHaveCount(0);
    await bench.waitForSave();
    await bench.reload();
    await bench.command('Mend the days');
    await expect(sheet.getByLabel('1 m shallower')).toHaveValue('50');
    await sheet.getByRole('button', { name: 'Usual costs' }).click();
    await expect(sheet.getByLabel('1 m shallower')).toHaveValue('2');
  });

  test('drafts the days ahead again in one step, and tells what found no place', async ({ page, bench }) => {
    await openWorse(bench);
    await bench.command('Mend the days');
    const sheet = page.getByRole('dialog', { name: 'Mend the days ahead' });
    await sheet.getByRole('button', { name: 'draft the days ahead again' }).click();
    await expect(sheet).toHaveCount(0, { timeout: 60_000 });
    await expect(page.getByText('The days ahead are drafted again.')).toBeVisible();
    await expect(page.getByText(/Left out, .*09:25: 20 min and an hour/)).toBeVisible();
    expect(await cautionsToHeed(bench)).toEqual([]);
    await page.keyboard.press('Control+z');
    expect(await cautionsToHeed(bench)).toContain('past-no-stop');
  });

  test('is a step of the evening, between what changed and the slates', async ({ page, bench }) => {
    await openWorse(bench);
    await page.keyboard.press('Alt+l');
    const steps = page.getByRole('navigation', { name: 'Steps of the evening' }).getByRole('button');
    await expect(steps).toHaveText([/^Log the day/, 'What changed', 'Mend 1 dive', 'Tomorrow’s slates']);
    await steps.nth(2).click();
    await expect(page.getByRole('radio', { name: /^Best overall/ })).toBeChecked({ timeout: 30_000 });
    await page.keyboard.press('Enter');
    await expect(steps.nth(2)).toHaveText('Mend');
  });

  test('is reached from the cautions, and says where there is nothing to mend', async ({ page, bench }) => {
    await bench.command('all cautions');
    await page.getByRole('button', { name: 'Mend the days ahead' }).click();
    const sheet = page.getByRole('dialog', { name: 'Mend the days ahead' });
    await expect(sheet).toContainText('There is nothing to mend');
    await expect(sheet.getByRole('button', { name: /^Apply/ })).toBeDisabled();
    // What is asked of proposals is not asked where there are none; the days can still be drafted again.
    await expect(sheet.getByRole('textbox')).toHaveCount(0);
    await expect(sheet.getByRole('button', { name: 'draft the days ahead again' })).toBeEnabled();
  });
});
