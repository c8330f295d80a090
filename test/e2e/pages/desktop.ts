import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test as base, type Page } from '@playwright/test';
import type { Bridge } from '../../../core/host';
import { launchDesktop, type LaunchOptions, type RunningDesktop } from '../../doubles/desktop/launch';
import { Workbench } from './workbench';

export type OurWindow = Window & { readonly carryover: Bridge };

/** A desktop in folders of its own: started as often as a test likes, ended and looked over when it is done. */
export class Desktops {
  private readonly running: RunningDesktop[] = [];
  /** What a test provokes on purpose: console errors that fit are not held against it. */
  readonly expected: RegExp[] = [];

  constructor(
    readonly userData: string,
    readonly elsewhere: string,
  ) {}

  async start(options: Partial<LaunchOptions> = {}): Promise<RunningDesktop> {
    const desktop = await launchDesktop({ userData: this.userData, ...options });
    this.running.push(desktop);
    return desktop;
  }

  /** The first start of a person: the cautions accepted, the demo trip on the desk. */
  async startWithDemo(
    options: Partial<LaunchOptions> = {},
  ): Promise<{ desktop: RunningDesktop; page: Page; bench: Workbench }> {
    const desktop = await this.start(options);
    const page = await desktop.page();
    const bench = new Workbench(page);
    await page.getByRole('button', { name: 'I accept, show me the demo trip' }).click();
    await expect(bench.dive(1)).toBeVisible();
    // The menu follows the window a moment later; under the cautions it was grey.
    const isOffered = async (): Promise<boolean | undefined> =>
      (await desktop.menu()).flatMap(({ submenu }) => submenu ?? []).find(({ id }) => id === 'trip.save')
        ?.enabled;
    await expect.poll(isOffered).toBe(true);
    return { desktop, page, bench };
  }

  /** The demo trip as the app saves it, to make files of. */
  async savedDemo(): Promise<string> {
    const { desktop, page, bench } = await this.startWithDemo();
    const path = join(this.elsewhere, 'source.carryover');
    await desktop.answerDialog({ canceled: false, filePath: path });
    await page.keyboard.press('Control+Shift+s');
    await bench.waitForSave();
    await desktop.quit();
    return readFile(path, 'utf8');
  }

  /** The names of the trip files in the library. */
  async libraryFiles(): Promise<readonly string[]> {
    const names = await readdir(join(this.userData, 'trips')).catch(() => []);
    return names.filter((name) => name.endsWith('.carryover'));
  }

  libraryText(name: string): Promise<string> {
    return readFile(join(this.userData, 'trips', name), 'utf8');
  }

  /** Ends what still runs; an error that no test expected, or a breach of the policy, fails the test. */
  async finish(): Promise<void> {
    const faults: string[] = [];
    for (const desktop of this.running) {
      for (const { kind, detail } of desktop.log()) {
        const { level, text } = (detail ?? {}) as { level?: string; text?: string };
        const isFault =
          kind === 'pageerror' || kind === 'dialog.showErrorBox' || (kind === 'console' && level === 'error');
        const fault = isFault ? (text ?? JSON.stringify(detail)) : undefined;
        if (fault !== undefined && !this.expected.some((each) => each.test(fault))) faults.push(fault);
      }
      await desktop.quit();
    }
    expect(faults).toEqual([]);
  }
}

export const test = base.extend<{ desktops: Desktops }>({
  // The tracer of the runner and that of the double would write over each other's files.
  trace: 'off',
  // The first argument must be taken apart, though nothing in it is needed.
  // oxlint-disable-next-line no-empty-pattern
  desktops: async ({}, use) => {
    const userData = await mkdtemp(join(tmpdir(), 'carryover-e2e-'));
    const elsewhere = await mkdtemp(join(tmpdir(), 'carryover-e2e-files-'));
    const desktops = new Desktops(userData, elsewhere);
    await use(desktops);
    await desktops.finish();
    await rm(userData, { recursive: true, force: true });
    await rm(elsewhere, { recursive: true, force: true });
  },
});

export { expect };

/** Every dive as the strip reads it out: its time, place, depth, minutes and room. */
export function diveLabels(page: Page): Promise<readonly (string | null)[]> {
  const dives = page.getByRole('listbox', { name: 'Dives' }).getByRole('option');
  return dives.evaluateAll((options) => options.map((option) => option.getAttribute('aria-label')));
}
