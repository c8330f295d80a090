import { chmod } from 'node:fs/promises';
import { join } from 'node:path';
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
      await expect.poll(() => diveLabels(again)).toEqual(edited);
    },
  );

  test('costs no edit where the whole app is killed before it could save', async ({ desktops }) => {
    const { desktop, bench } = await desktops.startWithDemo();
    await bench.chooseTightest();
    await bench.set('Bottom time', '17');
    await bench.waitForSave();
    const [file = ''] = await desktops.libraryFiles();
    // Nothing can be saved from here on: the edit is on screen alone, and noted down.
    await chmod(join(desktops.userData, 'trips', file), 0o444);
    await bench.set('Bottom time', '13');
    await expect(bench.saved).toContainText('Not saved: The file is read-only.');
    await desktop.kill();
    await chmod(join(desktops.userData, 'trips', file), 0o644);
    expect(await desktops.libraryText(file)).not.toMatch(/"bottomMin": ?13\b/);

    const second = await desktops.start();
    const again = new Workbench(await second.page());
    await expect(
      again.page.getByText(/not saved when Carryover last ended are back on screen/),
    ).toBeVisible();
    await expect.poll(() => desktops.libraryText(file)).toMatch(/"bottomMin": ?13\b/);
    await again.page.getByRole('button', { name: 'Undo edits that were not saved' }).click();
    await expect.poll(() => desktops.libraryText(file)).toMatch(/"bottomMin": ?17\b/);
  });

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

  test(
    'is asked about once where it hangs and the user has it loaded again',
    { tag: '@double' },
    async ({ desktops }) => {
      const { desktop, page, bench } = await desktops.startWithDemo();
      await bench.chooseTightest();
      await bench.set('Bottom time', '17');
      await bench.waitForSave();
      const edited = await diveLabels(page);
      await desktop.answerDialog({ response: 0 });
      await desktop.hang();
      await expect
        .poll(() => desktop.log().some(({ kind }) => kind === 'forcefullyCrashRenderer'))
        .toBe(true);
      // The page that hung closes a moment after its process: until then it is the newest there is.
      await expect.poll(() => page.isClosed()).toBe(true);
      const again = await desktop.page();
      await expect(new Workbench(again).dive(1)).toBeVisible();
      await expect.poll(() => diveLabels(again)).toEqual(edited);
      // A second question would have had no answer, and ended in a fault.
      expect(desktop.log().filter(({ kind }) => kind === 'dialog.showMessageBox')).toHaveLength(1);
    },
  );
});
