import { expect, test } from './fixtures';
import { StartingSheetPage } from './pages/starting';
import type { Workbench } from './pages/workbench';

/** Drops the connection under the next requests for a part of the window, "starting-sheet". */
async function drop({ page, expected }: Workbench, part: string, times = 99): Promise<void> {
  // The browser itself tells each of them as an error.
  expected.push(/net::ERR_CONNECTION_RESET/);
  const requests = new RegExp(`/${part}-[^/]*\\.js(#.*)?$`);
  await page.route(requests, (route) => route.abort('connectionreset'), { times });
}

test.describe('a part of the window that is loaded when it is asked for', () => {
  test('is asked for once more where the connection drops', async ({ firstStart }) => {
    await drop(firstStart, 'starting-sheet', 1);
    await new StartingSheetPage(firstStart).begin();
  });

  test('says in its own place that it does not come, and comes when asked again', async ({ page, bench }) => {
    await bench.dive(1).click();
    await bench.field('Depth').fill('18.5');
    await bench.field('Depth').press('Enter');
    await drop(bench, 'sites');
    await page.getByRole('button', { name: 'Sites', exact: true }).click();
    await expect(page.getByRole('alert')).toContainText('could not be loaded');
    await page.getByRole('button', { name: 'Days', exact: true }).click();
    await expect(bench.field('Depth')).toHaveValue('18.5 m');
    await page.getByRole('button', { name: 'Sites', exact: true }).click();
    await expect(page.getByRole('alert')).toContainText('could not be loaded');
    await page.unrouteAll();
    await page.getByRole('button', { name: 'Try again' }).click();
    await expect(page.getByRole('main').getByRole('table')).toBeVisible();
  });

  test('is not waited for by the curves, which stand with their limit before they can be read out', async ({
    page,
    firstStart,
  }) => {
    const bands = page.locator('[data-part=band]');
    await drop(firstStart, 'band-reading');
    await firstStart.open();
    await expect(bands.first().locator('[data-part=limit]')).toHaveCount(1);
    await expect(bands.first().locator('[data-part=nitrogen]')).toBeVisible();
    const fault = bands.first().getByRole('alert');
    await expect(fault).toContainText('cannot be read out');
    const limit = await bands.first().locator('[data-part=limit]').boundingBox();
    const { y } = (await fault.boundingBox())!;
    expect(y, 'the limit stays in sight').toBeGreaterThan(limit!.y + limit!.height);
    await expect(page.locator('.recharts-wrapper')).toHaveCount(0);
    await page.unrouteAll();
    await bands.first().getByRole('button', { name: 'Try again' }).click();
    await expect(bands.first().locator('.recharts-wrapper')).toBeVisible();
  });

  test('leaves the window as it was where a sheet does not come', async ({ page, bench }) => {
    await drop(bench, 'starting-sheet');
    await bench.command('draft new trip');
    await expect(bench.dialog).toContainText('could not be loaded');
    await page.unrouteAll();
    await bench.dialog.getByRole('button', { name: 'Try again' }).click();
    await expect(new StartingSheetPage(bench).sheet).toBeVisible();
  });

  test('is taken back by Escape while it is on its way, and opens when asked for again', async ({
    page,
    firstStart: bench,
  }) => {
    let letGo = (): void => {};
    const held = new Promise<void>((resolve) => {
      letGo = resolve;
    });
    // Held from before the window opens, by the hand that holds it: the browser's word of a request came too
    // late once, and the sheet stood open.
    const asked = new Promise<void>((resolve) => {
      void page.route(/late-sheets-[^/]*\.js$/, async (route) => {
        resolve();
        await held;
        await route.continue();
      });
    });
    await bench.open();
    await page.keyboard.press('Control+,');
    await asked;
    await page.keyboard.press('Escape');
    letGo();
    await page.waitForFunction(() =>
      performance
        .getEntriesByType('resource')
        .some((each) => /late-sheets-[^/]*\.js$/.test(each.name) && each.duration > 0),
    );
    await bench.dive(1).click();
    await expect(bench.field('Depth')).toBeVisible();
    await expect(bench.dialog).toHaveCount(0);
    await page.keyboard.press('Control+,');
    await expect(bench.dialog).toContainText('Settings');
  });

  test('says so where a file cannot be made', async ({ page, bench }) => {
    await drop(bench, 'export-document');
    await bench.command('sites as GPX');
    await expect(page.getByRole('alert')).toContainText('could not be loaded');
    await expect(bench.dive(1)).toBeVisible();
  });
});
