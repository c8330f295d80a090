import { diveLabels, expect, test } from './pages/desktop';
import { Workbench } from './pages/workbench';

test.describe.configure({ timeout: 120_000 });

test.describe('a window that breaks', () => {
  test(
    'is offered again after a crash, with every saved change',
    { tag: '@double' },
    async ({ desktops }) => {
      desktops.expected.push(/Target crashed|Page crashed/);
      const { desktop, page, bench } = await desktops.startWithDemo();
      await bench.chooseTightest();
      await bench.set('Bottom time', '17');
      await bench.waitForSave();
      const edited = await diveLabels(page);
      await desktop.answerDialog({ response: 0 });
      // The page never comes: its process is gone before it could.
      await page.goto('chrome://crash').catch(() => {});
      await expect
        .poll(async () =>
          JSON.stringify(desktop.log().filter(({ kind }) => kind === 'dialog.showMessageBox')),
        )
        .toContain('stopped working');
      const again = await desktop.page();
      await expect(new Workbench(again).dive(1)).toBeVisible();
      expect(await diveLabels(again)).toEqual(edited);
    },
  );

  test('is left alone where it hangs and the user waits', { tag: '@double' }, async ({ desktops }) => {
    const { desktop, bench } = await desktops.startWithDemo();
    await desktop.answerDialog({ response: 1 });
    await desktop.hang();
    await expect
      .poll(async () => desktop.log().some(({ kind }) => kind === 'dialog.showMessageBox'))
      .toBe(true);
    expect(desktop.log().some(({ kind }) => kind === 'forcefullyCrashRenderer')).toBe(false);
    await expect(bench.dive(1)).toBeVisible();
  });
});
