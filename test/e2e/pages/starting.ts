import { expect, type Locator } from '@playwright/test';
import type { Workbench } from './workbench';

/** The starting sheet as a hand and an eye know it. */
export class StartingSheetPage {
  constructor(readonly bench: Workbench) {}

  get sheet(): Locator {
    return this.bench.page.getByRole('dialog', { name: 'Draft a new trip' });
  }

  /** From the cautions of a first start. */
  async begin(): Promise<void> {
    await this.bench.page.goto('/');
    await this.bench.page.getByRole('button', { name: 'I accept, begin my own trip' }).click();
    await expect(this.sheet).toBeVisible();
  }

  field(label: string): Locator {
    return this.sheet.getByLabel(label, { exact: true });
  }

  async set(label: string, text: string): Promise<void> {
    await this.field(label).fill(text);
    await this.field(label).press('Enter');
  }

  /** The draft as it stands. */
  get preview(): Locator {
    return this.sheet.getByRole('region', { name: 'The draft' });
  }

  get days(): Locator {
    return this.preview.getByRole('table', { name: 'Dives by day and time' });
  }

  part(name: 'When' | 'Where' | 'Who' | 'Gas' | 'The trip'): Locator {
    return this.sheet.getByRole('group', { name });
  }

  async layOut(): Promise<void> {
    await this.sheet.getByRole('button', { name: 'Use this draft' }).click();
    await expect(this.sheet).toHaveCount(0);
  }
}
