import { expect, test } from './fixtures';
import { Workbench } from './pages/workbench';

const BACK = /Edits that were not saved when Carryover last ended are back on screen/;

test.describe('edits that no save has taken up', () => {
  test('are there again after the page was killed, a moment after they were made', async ({
    context,
    bench,
    page,
  }) => {
    await bench.chooseTightest();
    await bench.set('Bottom time', '17');
    await bench.waitForSave();
    // From here on every save of a trip fails; what is noted down beside it does not.
    await page.evaluate(() => {
      const put = IDBObjectStore.prototype.put;
      IDBObjectStore.prototype.put = function refuse(this: IDBObjectStore, ...args: Parameters<typeof put>) {
        if (this.name === 'trips') throw new DOMException('no room', 'QuotaExceededError');
        return put.apply(this, args);
      };
    });
    await bench.set('Bottom time', '13');
    await expect(page.getByText('The browser has no room left for this trip').first()).toBeVisible();
    await bench.waitForNote();
    const crash = await context.newCDPSession(page);
    void crash.send('Page.crash').catch(() => {});
    await page.waitForEvent('crash');

    const again = new Workbench(await context.newPage());
    await again.page.goto('/');
    await expect(again.page.getByText(BACK)).toBeVisible();
    await again.command('dive 13');
    await expect(again.field('Bottom time')).toHaveValue('13 min');
    await again.waitForSave();
    await again.reload();
    await expect(again.page.getByText(BACK)).toHaveCount(0);
    await again.command('dive 13');
    await expect(again.field('Bottom time')).toHaveValue('13 min');
    await expect(again.page.getByRole('button', { name: /^Undo/ })).toBeDisabled();
    expect(again.faults).toEqual([]);
  });

  test('are there again after a reload where the browser keeps nothing any more', async ({ bench, page }) => {
    await bench.chooseTightest();
    await bench.set('Bottom time', '17');
    await bench.waitForSave();
    await page.evaluate(() => {
      IDBDatabase.prototype.transaction = () => {
        throw new DOMException('closed', 'InvalidStateError');
      };
      IDBFactory.prototype.open = () => {
        throw new DOMException('closed', 'UnknownError');
      };
    });
    await bench.set('Bottom time', '12');
    await expect(page.getByText('Not saved:')).toBeVisible();
    page.on('dialog', (dialog) => void dialog.accept());
    await page.reload();
    await expect(page.getByText(BACK)).toBeVisible();
    await bench.command('dive 13');
    await expect(bench.field('Bottom time')).toHaveValue('12 min');
  });
});
