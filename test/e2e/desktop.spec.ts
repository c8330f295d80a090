import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from './pages/desktop';
import { Workbench } from './pages/workbench';
import { pageSizes } from './pdf';

const A5_PT = [419.53, 595.28] as const;
/** A browser keeps the size of a page in whole points or pixels. */
const ROUNDED_PT = 0.8;

// Each test starts Chromium at least once, some thrice, besides a Node process.
test.describe.configure({ timeout: 120_000 });

test.describe('starting', () => {
  test(
    'takes every step in its order, and shows the window once it is painted',
    { tag: '@double' },
    async ({ desktops }) => {
      const { desktop } = await desktops.startWithDemo();
      const steps = () => {
        const kinds = desktop.log().map(({ kind }) => kind);
        return kinds.filter((kind) => kind !== 'console').slice(0, 13);
      };
      await expect
        .poll(steps)
        .toEqual([
          'requestSingleInstanceLock',
          'enableSandbox',
          'registerSchemesAsPrivileged',
          'ready',
          'setPermissionRequestHandler',
          'setPermissionCheckHandler',
          'setDevicePermissionHandler',
          'webRequest.onBeforeRequest',
          'setSpellCheckerEnabled',
          'protocol.handle',
          'new BrowserWindow',
          'loadURL',
          'show',
        ]);
    },
  );

  test('a second start hands its file to the first and ends', { tag: '@double' }, async ({ desktops }) => {
    const file = join(desktops.elsewhere, 'second.carryover');
    await writeFile(
      file,
      (await desktops.savedDemo()).replace(/"title": ?"[^"]*"/, '"title": "From the second start"'),
    );
    const first = await desktops.start();
    const bench = new Workbench(await first.page());
    await expect(bench.dive(1)).toBeVisible();
    const second = await desktops.start({ files: [file] });
    expect(await second.exited).toBe(0);
    await expect(bench.title).toHaveText('From the second start');
    await expect.poll(() => first.log().map(({ kind }) => kind)).toContain('focus');
  });

  test('opens a file named on the command line, and one that the system sends', async ({ desktops }) => {
    const text = await desktops.savedDemo();
    const [one, two] = [join(desktops.elsewhere, 'one.carryover'), join(desktops.elsewhere, 'two.carryover')];
    await writeFile(one, text.replace(/"title": ?"[^"]*"/, '"title": "Named at the start"'));
    await writeFile(two, text.replace(/"title": ?"[^"]*"/, '"title": "Sent by the system"'));
    const desktop = await desktops.start({ files: [one] });
    const bench = new Workbench(await desktop.page());
    await expect(bench.title).toHaveText('Named at the start');
    await desktop.openFile(two);
    await expect(bench.title).toHaveText('Sent by the system');
  });

  test(
    'says so where a named file is not there, and opens all the same',
    { tag: '@double' },
    async ({ desktops }) => {
      const desktop = await desktops.start({ files: [join(desktops.elsewhere, 'nowhere.carryover')] });
      await desktop.answerDialog({ response: 0 });
      await expect(async () => {
        const box = desktop.log().find(({ kind }) => kind === 'dialog.showMessageBox');
        expect(JSON.stringify(box)).toContain('nowhere.carryover');
      }).toPass();
      await expect((await desktop.page()).getByRole('button', { name: /I accept/ }).first()).toBeVisible();
    },
  );
});

test.describe('the menu', () => {
  test('has the window’s commands, their keys shown, and undo as it stands', async ({ desktops }) => {
    const { desktop, bench } = await desktops.startWithDemo();
    const item = async (id: string) =>
      (await desktop.menu()).flatMap(({ submenu }) => submenu ?? []).find((each) => each.id === id);
    expect(await item('trip.save')).toMatchObject({ accelerator: 'CommandOrControl+S', enabled: true });
    await expect.poll(async () => (await item('edit.undo'))?.enabled).toBe(false);
    await bench.chooseTightest();
    await bench.set('Bottom time', '17');
    await expect.poll(async () => (await item('edit.undo'))?.enabled).toBe(true);
    await desktop.clickMenu('edit.undo');
    await expect(bench.field('Bottom time')).not.toHaveValue(/^17/);
  });

  test('keeps what is being typed before its command takes another dive', async ({ desktops }) => {
    const { desktop, bench } = await desktops.startWithDemo();
    await bench.dive(1).click();
    await bench.field('Depth').fill('14');
    await desktop.clickMenu('dive.next');
    await expect(bench.field('Depth')).toHaveValue('19 m');
    await bench.dive(1).click();
    await expect(bench.field('Depth')).toHaveValue('14 m');
  });

  test('reaches nothing under a sheet: neither behind Settings nor before the cautions are accepted', async ({
    desktops,
  }) => {
    const desktop = await desktops.start();
    const bench = new Workbench(await desktop.page());
    const isOffered = async (id: string) =>
      (await desktop.menu()).flatMap(({ submenu }) => submenu ?? []).find((each) => each.id === id)?.enabled;
    await expect(bench.dialog).toBeVisible();
    await expect.poll(() => isOffered('trip.new')).toBe(false);
    await desktop.clickMenu('trip.new');
    await bench.page.getByRole('button', { name: 'I accept, show me the demo trip' }).click();
    await expect(bench.dialog).toHaveCount(0);
    await expect(bench.title).toHaveText('Seven nights among the Ember Cays');
    await expect.poll(() => isOffered('trip.new')).toBe(true);

    await bench.dive(5).click();
    // Seen first: the "no" asked for below is then that of the sheet, and not of the window before a dive was chosen.
    await expect.poll(() => isOffered('dive.delete')).toBe(true);
    await bench.page.keyboard.press('Control+,');
    await expect(bench.dialog).toBeVisible();
    await expect.poll(() => isOffered('dive.delete')).toBe(false);
    await desktop.clickMenu('dive.delete');
    await bench.page.keyboard.press('Escape');
    await expect(bench.dialog).toHaveCount(0);
    await expect(bench.page.getByRole('button', { name: 'Undo', exact: true })).toBeDisabled();
    await expect.poll(() => isOffered('dive.delete')).toBe(true);
    await desktop.clickMenu('dive.delete');
    await expect(bench.page.getByRole('button', { name: 'Undo removal of dive 5' })).toBeEnabled();
  });

  test('shows versions and cautions in the about box', { tag: '@double' }, async ({ desktops }) => {
    const { desktop } = await desktops.startWithDemo();
    await desktop.answerDialog({ response: 0 });
    await desktop.clickMenu('about');
    const box = () =>
      JSON.stringify(desktop.log().find(({ kind }) => kind === 'dialog.showMessageBox')) ?? '';
    await expect.poll(box).toContain('do not prevent decompression sickness');
    expect(box()).toContain('Node 2');
  });
});

test.describe('settings', () => {
  test(
    'that are damaged cost themselves alone, and are kept aside',
    { tag: '@double' },
    async ({ desktops }) => {
      const first = await desktops.startWithDemo();
      await first.bench.chooseTightest();
      await first.bench.set('Bottom time', '17');
      await first.bench.waitForSave();
      await first.desktop.quit();
      await writeFile(join(desktops.userData, 'settings.json'), '{"settings": {"units":');

      const second = await desktops.start();
      await second.answerDialog({ response: 0 });
      await expect((await second.page()).getByRole('button', { name: /I accept/ }).first()).toBeVisible();
      const aside = (await readdir(desktops.userData)).filter((name) => name.startsWith('settings-damaged-'));
      expect(aside).toHaveLength(1);
      expect(await readFile(join(desktops.userData, aside[0] ?? ''), 'utf8')).toBe('{"settings": {"units":');
      expect(await desktops.libraryFiles()).toHaveLength(1);
      await expect.poll(async () => JSON.stringify(second.log())).toContain('your trips are untouched');
    },
  );

  test(
    'bring the window back where it stood, unless that screen is gone',
    { tag: '@double' },
    async ({ desktops }) => {
      await mkdir(desktops.userData, { recursive: true });
      const settings = { windowBounds: { x: 2000, y: 100, width: 1100, height: 700, isMaximized: false } };
      await writeFile(join(desktops.userData, 'settings.json'), JSON.stringify(settings));
      const two = [
        { x: 0, y: 0, width: 1920, height: 1080 },
        { x: 1920, y: 0, width: 1920, height: 1080 },
      ];
      const boundsOf = async (screens: readonly object[]) => {
        const desktop = await desktops.start({ screens });
        await (await desktop.page()).waitForLoadState();
        const made = desktop.log().find(({ kind }) => kind === 'new BrowserWindow');
        await desktop.quit();
        return made?.detail;
      };
      expect(await boundsOf(two)).toMatchObject({ x: 2000, y: 100, width: 1100, height: 700 });
      expect(await boundsOf(two.slice(0, 1))).toMatchObject({ x: 320, y: 140, width: 1280, height: 800 });
    },
  );
});

test.describe('printing', () => {
  test(
    'hands each page to the system\u2019s dialog on a paper of its size',
    { tag: '@double' },
    async ({ desktops }) => {
      const { desktop, page } = await desktops.startWithDemo();
      await page.getByRole('navigation').getByRole('button', { name: 'Slates' }).click();
      await page.getByLabel('Kind', { exact: true }).selectOption('Briefing sheet');
      await page.getByLabel('Paper', { exact: true }).selectOption('A5');
      await expect(page.locator('[data-part="slate-page"] svg').first()).toHaveAttribute(
        'viewBox',
        /^0 0 419\.5/,
      );
      const count = await page.locator('[data-part="slate-page"]').count();
      const print = page.getByRole('button', { name: 'Print', exact: true });

      await desktop.answerDialog([true, '']);
      await print.click();
      await expect.poll(() => desktop.log().filter(({ kind }) => kind === 'dialog.print').length).toBe(1);
      expect(desktop.log().find(({ kind }) => kind === 'dialog.print')?.detail).toEqual({
        silent: false,
        printBackground: true,
        margins: { marginType: 'none' },
        pageSize: { width: 148_000, height: 210_000 },
      });
      const sizes = await pageSizes(join(desktops.userData, 'double.printed.pdf'));
      expect(sizes).toHaveLength(count);
      for (const [width, height] of sizes) {
        expect(Math.abs(width - A5_PT[0])).toBeLessThan(ROUNDED_PT);
        expect(Math.abs(height - A5_PT[1])).toBeLessThan(ROUNDED_PT);
      }
      await expect(page.locator('[data-part="print-pages"]')).toHaveCount(0);

      // Closing the dialog is no trouble; a printer that fails is told.
      await desktop.answerDialog([false, 'Print job canceled']);
      await print.click();
      await expect.poll(() => desktop.log().filter(({ kind }) => kind === 'dialog.print').length).toBe(2);
      await expect(print).toBeEnabled();
      await expect(page.locator('[data-part="print-pages"]')).toHaveCount(0);
      await expect(page.getByText('The pages were not printed')).toHaveCount(0);
      await desktop.answerDialog([false, 'Print job failed']);
      await print.click();
      await expect(page.getByText('The pages were not printed: Print job failed.')).toBeVisible();
      await expect(page.locator('[data-part="print-pages"]')).toHaveCount(0);
    },
  );
});
