import { expect, type Locator } from '@playwright/test';
import type { Workbench } from './workbench';

/** The Mixes place by roles and names. */
export class MixesPlace {
  constructor(private readonly bench: Workbench) {}

  async open(): Promise<void> {
    const { page } = this.bench;
    await page.getByRole('navigation', { name: 'Places' }).getByRole('button', { name: 'Mixes' }).click();
    await expect(page.getByRole('tab', { name: 'At the sites' })).toBeVisible();
  }

  async ask(question: string): Promise<void> {
    await this.bench.page.getByRole('tab', { name: question }).click();
  }

  get panel(): Locator {
    return this.bench.page.getByRole('tabpanel');
  }

  /** Column heads of the sites' table, as read. */
  heads(): Promise<readonly string[]> {
    return this.panel.getByRole('columnheader').allInnerTexts();
  }

  row(name: string | RegExp): Locator {
    return this.panel.getByRole('row', { name });
  }

  get lists(): Locator {
    return this.panel.getByRole('button', { name: /^Put on board: / });
  }

  async search(count: string): Promise<void> {
    await this.panel.getByLabel('Mixes besides air').selectOption(count);
    await this.panel.getByRole('button', { name: 'Search', exact: true }).click();
    await expect(this.lists.first()).toBeVisible();
  }
}
