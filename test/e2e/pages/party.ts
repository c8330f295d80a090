import { expect, type Locator } from '@playwright/test';
import type { Workbench } from './workbench';

/** The place Party as a hand and an eye know it. */
export class PartyPage {
  constructor(readonly bench: Workbench) {}

  async go(): Promise<void> {
    await this.bench.page.getByRole('navigation').getByRole('button', { name: 'Party' }).click();
    await expect(this.divers).toBeVisible();
  }

  /** The table of divers. */
  get divers(): Locator {
    return this.bench.page.getByRole('grid', { name: 'The divers of the trip' });
  }

  diver(name: string): Locator {
    return this.divers
      .getByRole('row')
      .filter({ has: this.bench.page.getByRole('button', { name, exact: true }) });
  }

  get sentence(): Locator {
    return this.bench.page.locator('[data-part="party sentence"]');
  }

  get card(): Locator {
    return this.bench.page.getByRole('complementary', { name: 'Chosen diver' });
  }

  async choose(name: string): Promise<void> {
    await this.divers.getByRole('button', { name, exact: true }).click();
    await expect(this.field('Name')).toHaveValue(name);
  }

  field(label: string): Locator {
    return this.card.getByLabel(label, { exact: true });
  }

  async set(label: string, text: string): Promise<void> {
    await this.field(label).fill(text);
    await this.field(label).press('Enter');
  }

  /** Who on which dive. */
  get grid(): Locator {
    return this.bench.page.getByRole('region', { name: 'Who on which dive' });
  }

  /** A diver's cells in the grid, from the first dive on. */
  rooms(name: string): Locator {
    return this.grid
      .getByRole('row')
      .filter({ has: this.bench.page.getByRole('rowheader', { name, exact: true }) })
      .getByRole('cell');
  }

  async show(label: 'Dives of' | 'Show', option: string): Promise<void> {
    await this.grid.getByLabel(label, { exact: true }).selectOption(option);
  }

  tick(diver: string, dive: number): Locator {
    return this.grid.getByRole('checkbox', { name: new RegExp(`^${diver} on dive ${dive},`) });
  }
}
