/** Trips on the disk: the library of the desktop, and files elsewhere. */
import { readdir, readFile, utimes, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { diveLabels, expect, test } from './pages/desktop';
import { Workbench } from './pages/workbench';

// Each test starts Chromium at least once, some thrice, besides a Node process.
test.describe.configure({ timeout: 120_000 });

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
    await writeFile(path, await desktops.savedDemo());
    const desktop = await desktops.start({ files: [path] });
    await expect(async () => {
      const trip = (await desktop.menu()).find(({ id }) => id === 'Trip');
      const recent = trip?.submenu?.find(({ id }) => id === 'recent');
      expect(recent?.submenu?.map(({ label }) => label)).toContain('Our week.carryover');
    }).toPass();
  });
});
