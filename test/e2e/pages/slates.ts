import { expect, type Download, type Page } from '@playwright/test';
import type { Workbench } from './workbench';

/** A busy machine lays pages out slowly; how long it may take is measured by the bench, not here. */
export const LAID_OUT_MS = 30_000;

/** The Slates place as a hand and an eye know it. */
export class SlatesPlace {
  constructor(readonly bench: Workbench) {}

  async go(): Promise<void> {
    await this.bench.page.getByRole('navigation').getByRole('button', { name: 'Slates' }).click();
    await this.shown();
  }

  get pages() {
    return this.bench.page.locator('[data-part="slate-page"]');
  }

  get count() {
    return this.bench.page.locator('[data-part="count"]');
  }

  async shown(): Promise<void> {
    await expect(this.pages.first().locator('svg text').first()).toBeVisible({ timeout: LAID_OUT_MS });
  }

  choice(label: string) {
    return this.bench.page.getByLabel(label, { exact: true });
  }

  /** A paper by its name, or by its size where it has none. */
  async choosePaper(paper: string): Promise<void> {
    if (!paper.includes('x')) {
      await this.choice('Paper').selectOption(paper);
      return;
    }
    await this.choice('Paper').selectOption('own size');
    await this.choice('Paper, width x height').fill(paper);
    await this.choice('Paper, width x height').press('Enter');
  }

  async print(): Promise<void> {
    await this.bench.page.getByRole('button', { name: 'Print', exact: true }).click();
  }

  async saved(button: string): Promise<Download> {
    const [download] = await Promise.all([
      this.bench.page.waitForEvent('download'),
      this.bench.page.getByRole('button', { name: button, exact: true }).click(),
    ]);
    return download;
  }
}

/**
 * Holds what the window puts off until it has drawn itself, until the returned function is called: pages that are
 * handed over in several goes stay at the first, however quick the machine is.
 */
export async function holdBreath(page: Page): Promise<() => Promise<void>> {
  await page.evaluate(() => {
    const { setTimeout } = window;
    const held: (() => void)[] = [];
    const hold = (run: () => void, ms = 0): number => (ms === 0 ? -held.push(run) : setTimeout(run, ms));
    Object.assign(window, {
      setTimeout: hold,
      letGo: () => {
        Object.assign(window, { setTimeout });
        for (const run of held) run();
      },
    });
  });
  return () => page.evaluate(() => (window as unknown as { letGo: () => void }).letGo());
}

/**
 * Plays the browser\u2019s print dialog: it is open from the call of `print` until the test takes the pages as
 * a PDF, which asks the page as printing does.
 */
export async function watchPrinting(page: Page): Promise<{ readonly next: () => Promise<void> }> {
  const waiting: (() => void)[] = [];
  let opened = 0;
  await page.exposeFunction('printDialogOpened', () => {
    const first = waiting.shift();
    if (first) first();
    else opened += 1;
  });
  await page.evaluate(() => {
    window.print = () => {
      window.dispatchEvent(new Event('beforeprint'));
      (globalThis as unknown as { printDialogOpened: () => void }).printDialogOpened();
    };
  });
  return {
    next: () =>
      new Promise((resolve) => {
        if (opened === 0) waiting.push(resolve);
        else {
          opened -= 1;
          resolve();
        }
      }),
  };
}
