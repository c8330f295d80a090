import { expect, type Locator } from '@playwright/test';
import type { Workbench } from './workbench';

/** The Mixes place by roles and names. */
export class MixesPlace {
  constructor(readonly bench: Workbench) {}

  async go(): Promise<void> {
    const { page } = this.bench;
    await page.getByRole('navigation', { name: 'Places' }).getByRole('button', { name: 'Mixes' }).click();
    await expect(this.tab('At the sites')).toBeVisible();
  }

  tab(question: string): Locator {
    return this.bench.page.getByRole('tab', { name: question });
  }

  async ask(question: string): Promise<void> {
    await this.tab(question).click();
  }

  /** The line of what is on board, which opens to change it. */
  get board(): Locator {
    return this.bench.page.locator('.board summary');
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
