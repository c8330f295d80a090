import { expect, test } from './fixtures';

test.describe('how sturdy the plan is', () => {
  test('is drawn beside the window, follows the amounts of the trip, and lies about the curve', async ({
    page,
    bench,
  }) => {
    await bench.command('How sturdy');
    const sheet = page.getByRole('dialog', { name: 'How sturdy is this plan?' });
    await expect(sheet).toContainText('never of the chance of injury');
    // Few runs stand there while the others are made.
    await expect(sheet).toContainText(
      /\d+ % of the runs keep every limit on every dive\. Ease first: dive 8, /,
      {
        timeout: 40_000,
      },
    );
    const dive = sheet.getByRole('row', {
      name: /^Dive 8, .*Anvil Head: \d+ % of the runs pass a limit\. Ease first$/,
    });
    await expect(dive).toBeVisible();
    await sheet.getByRole('checkbox', { name: 'Draw on the strip where 90 of 100 runs lie' }).check();

    // Nothing scatters: every run is the plan itself. An edit ends what is under way.
    await sheet.getByText('By how much dives scatter').click();
    for (const [name, nothing] of [
      ['Depth', '0 m'],
      ['Bottom time', '0 min'],
      ['Start', '0 min'],
      ['Gas rate', '0 %'],
      ['Oxygen in a cylinder', '0 %'],
    ] as const) {
      await sheet.getByLabel(name, { exact: true }).fill(nothing);
      await page.keyboard.press('Enter');
    }
    await sheet.getByLabel('Runs', { exact: true }).fill('99');
    await page.keyboard.press('Enter');
    await expect(sheet.getByText('It is no whole number from 100 to')).toBeVisible();
    await sheet.getByLabel('Runs', { exact: true }).fill('100');
    await page.keyboard.press('Enter');
    await expect(sheet).toContainText('100 % of the runs keep every limit on every dive. 100 runs.', {
      timeout: 40_000,
    });
    await sheet.getByRole('button', { name: 'Usual amounts' }).click();
    await expect(sheet.getByText('Ease first', { exact: false }).first()).toBeVisible({ timeout: 40_000 });

    await page.keyboard.press('Escape');
    await expect(page.locator('[data-part="runs"]')).toHaveAttribute('d', /^M.*Z$/, { timeout: 40_000 });
    await expect(page.getByText('about it 90 of 100 runs')).toBeVisible();
  });

  test('can be cancelled, and drawn again', async ({ page, bench }) => {
    // A worker that never comes: nothing is drawn until it is asked again.
    let isHeld = true;
    await page.route(/sturdy-worker.*\.js/, (route) => (isHeld ? undefined : route.continue()));
    await bench.command('How sturdy');
    const sheet = page.getByRole('dialog', { name: 'How sturdy is this plan?' });
    await expect(sheet.getByRole('progressbar', { name: 'Runs made' })).toBeVisible();
    await sheet.getByRole('button', { name: 'Cancel' }).click();
    await expect(sheet).toContainText('Cancelled');
    isHeld = false;
    await sheet.getByRole('button', { name: 'Draw again' }).click();
    await expect(sheet.getByRole('table')).toBeVisible({ timeout: 40_000 });
  });
});
