import { expect, type Locator } from '@playwright/test';
import type { Workbench } from './workbench';

/** The place Sites as a hand and an eye know it. */
export class SitesPage {
  constructor(readonly bench: Workbench) {}

  async go(): Promise<void> {
    await this.bench.page.getByRole('navigation').getByRole('button', { name: 'Sites' }).click();
    await expect(this.place).toBeVisible();
  }

  get place(): Locator {
    return this.bench.page.getByRole('region', { name: 'Sites', exact: true });
  }

  get table(): Locator {
    return this.place.getByRole('table', { name: 'Sites of the trip' });
  }

  /** A field of a row, such as "Depth of Osier Channel". */
  field(label: string): Locator {
    return this.table.getByLabel(label, { exact: true });
  }

  row(site: string): Locator {
    return this.table
      .getByRole('row')
      .filter({ has: this.bench.page.getByLabel(`Name of ${site}`, { exact: true }) });
  }

  /** The names from top to bottom. */
  async names(): Promise<readonly string[]> {
    return this.table
      .getByLabel(/^Name of /)
      .evaluateAll((fields) => fields.map((field) => (field as HTMLInputElement).value));
  }

  async set(label: string, text: string): Promise<void> {
    await this.field(label).fill(text);
    await this.field(label).press('Enter');
  }

  head(name: string): Locator {
    return this.table.getByRole('columnheader', { name });
  }

  async sortBy(name: string): Promise<void> {
    await this.head(name).getByRole('button').click();
  }

  get filter(): Locator {
    return this.place.getByRole('searchbox', { name: 'Find by name or notes' });
  }

  get sheet(): Locator {
    return this.bench.page.getByRole('dialog', { name: 'Sites from a list' });
  }

  /** Pastes text where the focus is, as the system's clipboard would. */
  async paste(text: string): Promise<void> {
    await this.bench.page.evaluate((pasted) => {
      const data = new DataTransfer();
      data.setData('text/plain', pasted);
      const target = document.activeElement ?? document.body;
      target.dispatchEvent(
        new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
      );
    }, text);
  }
}
