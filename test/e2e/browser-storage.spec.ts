import { closeSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type BrowserContext } from '@playwright/test';
import { findBrowser } from '../../build/find-browser';
import { QUIET_FLAGS } from '../../build/test-browser';
import { expect, test as base } from './fixtures';
import { MAY_MOUNT, mountDisk, unmountDisk } from '../support/own-disk';
import { Workbench } from './pages/workbench';

interface SmallDisk {
  readonly bench: Workbench;
  fill(): void;
  free(): void;
}

/** Writes until nothing more can be written. */
function fillDisk(path: string): void {
  const file = openSync(path, 'w');
  try {
    // A byte at the last: a disk with less left than a piece is not full yet.
    for (const piece of [Buffer.alloc(1 << 20), Buffer.alloc(1 << 10), Buffer.alloc(1)]) {
      for (let isFull = false; !isFull;) {
        try {
          writeSync(file, piece);
        } catch {
          isFull = true;
        }
      }
    }
  } finally {
    closeSync(file);
  }
}

/** A window whose profile lies on a disk of its own, which only the root user of a Linux can mount. */
const test = base.extend<{ smallDisk: SmallDisk }>({
  smallDisk: async ({ baseURL }, use, info) => {
    info.skip(!MAY_MOUNT, 'no disk can be mounted here');
    const disk = mkdtempSync(join(tmpdir(), 'carryover-disk-'));
    const filler = join(disk, 'filler');
    let context: BrowserContext | undefined;
    mountDisk(disk, 'size=200m');
    try {
      const browser = findBrowser();
      context = await chromium.launchPersistentContext(join(disk, 'profile'), {
        locale: 'en-GB',
        args: [...QUIET_FLAGS],
        baseURL: baseURL!,
        ...(browser === null ? {} : { executablePath: browser }),
      });
      const bench = new Workbench(context.pages()[0]!);
      await bench.open();
      await use({
        bench,
        // Whatever the browser writes meanwhile may find no room either.
        fill: () => fillDisk(filler),
        free: () => rmSync(filler, { force: true }),
      });
    } finally {
      rmSync(filler, { force: true });
      await context?.close();
      unmountDisk(disk);
      rmSync(disk, { recursive: true, force: true });
    }
  },
});

test.describe('what a browser keeps', () => {
  test('is opened again where its site data was cleared, and what is on screen stays', async ({
    bench,
    page,
    context,
    baseURL,
  }) => {
    await bench.chooseTightest();
    await bench.set('Bottom time', '17');
    await bench.waitForSave();
    const session = await context.newCDPSession(page);
    await session.send('Storage.clearDataForOrigin', {
      origin: new URL(baseURL!).origin,
      storageTypes: 'all',
    });
    await bench.set('Bottom time', '13');
    await expect(bench.dialog).toContainText('The stored trip is gone');
    await bench.dialog.getByRole('button', { name: 'Keep what is on screen' }).click();
    await bench.waitForSave();
    await page.reload();
    await page
      .getByRole('button', { name: /I accept/ })
      .first()
      .click();
    await expect(bench.dive(1)).toBeVisible();
    await page.keyboard.press('Control+Shift+o');
    await expect(bench.dialog).toContainText('Seven nights among the Ember Cays');
  });

  test('is told as full on a full disk, and kept by itself once there is room', async ({ smallDisk }) => {
    const { bench } = smallDisk;
    await bench.chooseTightest();
    await bench.set('Bottom time', '17');
    await bench.waitForSave();
    smallDisk.fill();
    await bench.set('Bottom time', '13');
    await expect(bench.saved).toContainText('Not saved: The browser has no room left');
    smallDisk.free();
    await expect(bench.saved).toHaveText(/^Saved/, { timeout: 30_000 });
    await bench.reload();
    await bench.command('dive 13');
    await expect(bench.field('Bottom time')).toHaveValue('13 min');
  });
});
