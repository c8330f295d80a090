import { expect, type Locator } from '@playwright/test';
import type { Workbench } from './workbench';

/** The evening of a day as a hand knows it; it counts the clicks. */
export class Evening {
  clicks = 0;

  constructor(readonly bench: Workbench) {}

  async click(target: Locator): Promise<void> {
    this.clicks += 1;
    await target.click();
  }

  /** From the trip's own card, where no dive is chosen. */
  async open(): Promise<void> {
    await this.click(this.bench.page.getByRole('button', { name: 'Log the day', exact: true }));
    await this.ready();
  }

  /** Waits until the log takes keys: until a cell has the focus they are typed into nothing. */
  async ready(): Promise<void> {
    await expect(this.grid.locator(':focus')).toHaveCount(1);
  }

  get panel(): Locator {
    return this.bench.page.getByRole('region', { name: /^Evening of/ });
  }

  get grid(): Locator {
    return this.panel.getByRole('grid', { name: 'Log of the day' });
  }

  get progress(): Locator {
    return this.panel.getByRole('navigation', { name: 'Steps of the evening' });
  }

  row(name: string): Locator {
    return this.grid
      .getByRole('row')
      .filter({ has: this.bench.page.getByRole('rowheader', { name, exact: true }) });
  }

  /** A cell of a row, counted from 1: five a dive, in the order in, deepest, bottom, left, oxygen. */
  cell(name: string, column: number): Locator {
    return this.row(name)
      .getByRole('gridcell')
      .nth(column - 1);
  }

  /** What is read off the cell that has the focus is typed into it and into the next ones; null passes one over. */
  async type(texts: readonly (string | null)[], then: 'Tab' | 'Enter' = 'Tab'): Promise<void> {
    const { keyboard } = this.bench.page;
    for (const text of texts) {
      if (text !== null) await keyboard.type(text);
      await keyboard.press(then);
    }
  }

  /** Pastes as a spreadsheet would, where the cell is that has the focus. */
  async paste(text: string): Promise<void> {
    await this.bench.page.evaluate((copied) => {
      const data = new DataTransfer();
      data.setData('text/plain', copied);
      document.activeElement?.dispatchEvent(
        new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
      );
    }, text);
  }
}
