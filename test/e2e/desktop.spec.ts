import { mkdir, readdir, readFile, utimes, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { diveLabels, expect, test, type Desktops } from './pages/desktop';
import { Workbench } from './pages/workbench';
import { pageSizes } from './pdf';

const A5_PT = [419.53, 595.28] as const;
/** A browser keeps the size of a page in whole points or pixels. */
const ROUNDED_PT = 0.8;

/** The demo trip as the app saves it, to make files of. */
async function savedDemo(desktops: Desktops): Promise<string> {
  const { desktop, page, bench } = await desktops.startWithDemo();
  const path = join(desktops.elsewhere, 'source.carryover');
  await desktop.answerDialog({ canceled: false, filePath: path });
  await page.keyboard.press('Control+Shift+s');
  await bench.waitForSave();
  await desktop.quit();
  return readFile(path, 'utf8');
}

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
      (await savedDemo(desktops)).replace(/"title": ?"[^"]*"/, '"title": "From the second start"'),
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
    const text = await savedDemo(desktops);
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

test.describe('the library', () => {
  test('keeps an edit, and finds it at the next start', async ({ desktops }) => {
    const first = await desktops.startWithDemo();
    expect(await desktops.libraryFiles()).toEqual([]);
    const untouched = await diveLabels(first.page);
    await first.bench.chooseTightest();
    await first.bench.set('Bottom time', '17');
    await first.bench.waitForSave();
    const edited = await diveLabels(first.page);
    expect(edited).not.toEqual(untouched);
    const [file = ''] = await desktops.libraryFiles();
    expect(JSON.parse(await desktops.libraryText(file))).toMatchObject({ format: 'carryover/trip' });
    expect(await first.desktop.quit()).toBe(0);

    const second = await desktops.start();
    const page = await second.page();
    await expect(new Workbench(page).dive(1)).toBeVisible();
    await expect.poll(() => diveLabels(page)).toEqual(edited);
  });

  test('saves what was typed last before the window closes', async ({ desktops }) => {
    const { desktop, bench } = await desktops.startWithDemo();
    await bench.chooseTightest();
    await bench.set('Bottom time', '16');
    await desktop.closeWindow();
    expect(await desktop.exited).toBe(0);
    const [file = ''] = await desktops.libraryFiles();
    expect(await desktops.libraryText(file)).toMatch(/"bottomMin": ?16\b/);
  });

  test('asks before it closes over what cannot be saved', async ({ desktops }) => {
    // A file where the library's folder should be.
    await writeFile(join(desktops.userData, 'trips'), 'in the way');
    const { desktop, page, bench } = await desktops.startWithDemo();
    await bench.chooseTightest();
    await bench.set('Bottom time', '16');
    await expect(page.getByText('A file stands where the folder should be.').first()).toBeVisible();
    await desktop.answerDialog({ response: 0 });
    await desktop.closeWindow();
    await expect(async () => {
      const kinds = desktop.log().map(({ kind }) => kind);
      expect(kinds).toContain('dialog.showMessageBox');
    }).toPass();
    await expect(bench.dive(1)).toBeVisible();
    expect(await readFile(join(desktops.userData, 'trips'), 'utf8')).toBe('in the way');
    await desktop.answerDialog({ response: 1 });
    await desktop.closeWindow();
    expect(await desktop.exited).toBe(0);
  });

  test('notices that somebody else changed the open trip, and asks', async ({ desktops }) => {
    const { bench } = await desktops.startWithDemo();
    await bench.chooseTightest();
    await bench.set('Bottom time', '17');
    await bench.waitForSave();
    const [file = ''] = await desktops.libraryFiles();
    const path = join(desktops.userData, 'trips', file);
    await writeFile(
      path,
      (await desktops.libraryText(file)).replace(/"title": ?"[^"]*"/, '"title": "Theirs"'),
    );
    const later = new Date(Date.now() + 5000);
    await utimes(path, later, later);
    await expect(bench.dialog).toContainText(/changed/i);
  });

  test('says so where a trip is not as it was last saved, though it still is a trip', async ({
    desktops,
  }) => {
    const first = await desktops.startWithDemo();
    await first.bench.chooseTightest();
    await first.bench.set('Bottom time', '17');
    await first.bench.waitForSave();
    await first.desktop.quit();
    const [file = ''] = await desktops.libraryFiles();
    // One digit, as a disk that fails may turn it.
    const text = (await desktops.libraryText(file)).replace(/"bottomMin": ?17\b/, '"bottomMin": 13');
    await writeFile(join(desktops.userData, 'trips', file), text);

    const second = await desktops.start();
    await expect((await second.page()).getByText(/not as it was last saved here/)).toBeVisible();
  });

  test('keeps a damaged trip file as it is, and opens without it', async ({ desktops }) => {
    const first = await desktops.startWithDemo();
    await first.bench.chooseTightest();
    await first.bench.set('Bottom time', '17');
    await first.bench.waitForSave();
    await first.desktop.quit();
    const [file = ''] = await desktops.libraryFiles();
    const whole = await desktops.libraryText(file);
    await writeFile(join(desktops.userData, 'trips', file), whole.slice(0, 500));

    const second = await desktops.start();
    const page = await second.page();
    await expect(page.getByText(/cut short or damaged/).first()).toBeVisible();
    expect(await desktops.libraryText(file)).toBe(whole.slice(0, 500));
    // The save before the damage is whole, among the versions.
    const [folder = ''] = await readdir(join(desktops.userData, 'versions'));
    const versions = await readdir(join(desktops.userData, 'versions', folder));
    const texts = await Promise.all(
      versions.map((name) => readFile(join(desktops.userData, 'versions', folder, name), 'utf8')),
    );
    expect(texts).toContain(whole);
  });
});

test.describe('files', () => {
  test('are opened and saved by the system’s dialogs, from the menu and the keyboard', async ({
    desktops,
  }) => {
    const { desktop, page, bench } = await desktops.startWithDemo();
    const path = join(desktops.elsewhere, 'copy');
    await desktop.answerDialog({ canceled: false, filePath: path });
    await desktop.clickMenu('trip.save-as');
    await bench.waitForSave();
    expect(await readdir(desktops.elsewhere)).toEqual(['copy.carryover']);
    // The copy is the open trip now: an edit goes there, and nowhere else.
    await bench.chooseTightest();
    await bench.set('Bottom time', '14');
    await expect.poll(() => readFile(`${path}.carryover`, 'utf8')).toMatch(/"bottomMin": ?14\b/);
    expect(await desktops.libraryFiles()).toEqual([]);

    await desktop.answerDialog({ canceled: true, filePaths: [] });
    await page.keyboard.press('Control+o');
    await expect
      .poll(async () => desktop.log().filter(({ kind }) => kind === 'dialog.showOpenDialog').length)
      .toBe(1);
    await expect(bench.field('Bottom time')).toHaveValue(/^14/);
  });

  test(
    'are opened where they are dropped on the window, and saved there',
    { tag: '@double' },
    async ({ desktops }) => {
      const { page, bench, desktop } = await desktops.startWithDemo();
      await bench.chooseTightest();
      await bench.set('Bottom time', '14');
      await bench.waitForSave();
      const [name] = await desktops.libraryFiles();
      const text = (await desktops.libraryText(name!)).replace(/"title": ?"[^"]*"/, '"title": "Dropped"');
      const path = join(desktops.elsewhere, 'Dropped.carryover');
      await writeFile(path, text);
      await page.evaluate(
        ([lies, inside]) => {
          // As the system hands it over: with the place it lies at, which the page is not told.
          const file = Object.assign(new File([inside!], 'Dropped.carryover'), { lies });
          const dataTransfer = new DataTransfer();
          Object.defineProperty(dataTransfer, 'types', { value: ['Files'] });
          Object.defineProperty(dataTransfer, 'files', { value: [file] });
          const drop = new DragEvent('drop', { bubbles: true, cancelable: true });
          Object.defineProperty(drop, 'dataTransfer', { value: dataTransfer });
          document.querySelector('main')!.dispatchEvent(drop);
        },
        [path, text],
      );
      await expect(bench.title).toHaveText('Dropped');
      await expect
        .poll(async () =>
          (await desktop.menu())
            .flatMap(({ submenu }) => submenu ?? [])
            .find(({ id }) => id === 'recent')
            ?.submenu?.map(({ label }) => label),
        )
        .toContain('Dropped.carryover');
    },
  );

  test('that were opened stand in the menu', async ({ desktops }) => {
    const path = join(desktops.elsewhere, 'Our week.carryover');
    await writeFile(path, await savedDemo(desktops));
    const desktop = await desktops.start({ files: [path] });
    await expect(async () => {
      const trip = (await desktop.menu()).find(({ id }) => id === 'Trip');
      const recent = trip?.submenu?.find(({ id }) => id === 'recent');
      expect(recent?.submenu?.map(({ label }) => label)).toContain('Our week.carryover');
    }).toPass();
  });
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
