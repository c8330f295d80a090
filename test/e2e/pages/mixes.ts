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
    if (question === 'What to stock') await this.answered();
  }

  /** The line of what is on board, which opens to change it. */
  get board(): Locator {
    return this.bench.page.locator('summary').filter({ hasText: /on board/i });
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

  /** The lists told, as the rows that choose among them. */
  get lists(): Locator {
    return this.panel
      .getByRole('region', { name: 'Table of lists' })
      .getByRole('rowheader')
      .getByRole('button');
  }

  get putOnBoard(): Locator {
    return this.panel.getByRole('button', { name: /^Put on board: / });
  }

  /** Waits for the answer to what is asked. */
  async answered(count?: number): Promise<void> {
    const lists =
      count === undefined
        ? /lists?, all worked out$/
        : new RegExp(`^${count === 1 ? 'One list' : `${count} lists`}, all worked out$`);
    await expect(
      this.panel.getByRole('status').getByText(lists).or(this.panel.getByText(lists)).first(),
    ).toBeVisible();
  }
}
