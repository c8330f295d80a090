import { writeFileSync } from 'node:fs';
import { expect, test, type FileChooser, type Locator, type Page } from '@playwright/test';
import { isBetweenTests } from '../kept-page';
import { drawn } from './drawn';

type Handed = Exclude<Parameters<FileChooser['setFiles']>[0], readonly unknown[]>;

/** A large file is taken off the disk: given in hand, the page itself would work to take it over. */
function handed(name: string, buffer: Buffer): Handed {
  if (buffer.length < 1_000_000) return { name, mimeType: 'application/json', buffer };
  const path = test.info().outputPath(name);
  writeFileSync(path, buffer);
  return path;
}

/** In the page: what its store keeps besides trips, by name; settings and the edits that no save has taken up. */
async function keptBesideTrips(): Promise<{ readonly [name: string]: unknown }> {
  const [{ name } = {}] = await indexedDB.databases();
  if (name === undefined) return {};
  const answer = <T>(request: IDBRequest<T>): Promise<T> =>
    new Promise((resolve, reject) => {
      request.addEventListener('success', () => resolve(request.result));
      request.addEventListener('error', () => reject(request.error ?? new Error('no answer')));
    });
  const db = await answer(indexedDB.open(name));
  const store = db.transaction('settings').objectStore('settings');
  const [names, values] = await Promise.all([answer(store.getAllKeys()), answer(store.getAll())]);
  db.close();
  return Object.fromEntries(names.map((each, i) => [String(each), values[i]]));
}

/** The window as a hand and an eye know it: by roles and names. */
export class Workbench {
  /** What the page's policy refused, and errors nobody caught; a test ends by finding none. */
  readonly faults: string[] = [];

  /** What a test provokes on purpose: an error that fits, from here on, is not held against it. */
  readonly expected: RegExp[] = [];

  /** What the next file dialog is answered with. */
  private answer: { readonly name: string; readonly text: string | Uint8Array } | null = null;

  constructor(readonly page: Page) {
    // Listening from the start: a dialog that opens before the test listens would be lost.
    page.on('filechooser', (chooser) => {
      const { name, text } = this.answer ?? { name: 'empty.json', text: '' };
      void chooser.setFiles(handed(name, Buffer.from(text)));
    });
    page.on('pageerror', (error) => this.hear(error.message));
    page.on('console', (message) => {
      if (message.type() === 'error' && !isBetweenTests(message.location().url)) this.hear(message.text());
    });
  }

  private hear(error: string): void {
    if (!this.expected.some((each) => each.test(error))) this.faults.push(error);
  }

  /** First start: accepts the cautions and begins with the demo trip. */
  async open(): Promise<void> {
    await this.page.goto('/');
    await this.page.getByRole('button', { name: 'I accept, show me the demo trip' }).click();
    await expect(this.dive(1)).toBeVisible();
    // Left before that is kept, the window would ask again.
    await expect
      .poll(() => this.page.evaluate(keptBesideTrips))
      .toMatchObject({ settings: { cautionsAccepted: true } });
    await this.settled();
  }

  /**
   * Waits until the type has come and what was asked of the window is drawn: a box that is measured before that is
   * another one a moment later.
   */
  async settled(): Promise<void> {
    await this.page.evaluate(() => document.fonts.ready.then(() => undefined));
    await drawn(this.page);
  }

  /** Text of 200 percent, as a hand makes it. */
  async enlarge(): Promise<void> {
    for (let i = 0; i < 5; i += 1) await this.command('larger text');
    const size = () => this.page.evaluate(() => getComputedStyle(document.documentElement).fontSize);
    await expect.poll(size).toBe('32px');
  }

  /** Holds that nothing of the page lies beyond the window's edge, where nobody would look for it. */
  async expectNothingBeside(message = 'beyond the edge, px'): Promise<void> {
    await this.settled();
    const beyond = () => this.page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    await expect.poll(beyond, { message }).toBeLessThanOrEqual(0);
  }

  /** Loads the window again and waits until the last trip stands there. */
  async reload(): Promise<void> {
    await this.page.reload();
    await expect(this.dive(1)).toBeVisible();
    await this.settled();
  }

  /** A dive on the strip, counted from 1. */
  dive(number: number): Locator {
    return this.page
      .getByRole('listbox', { name: 'Dives' })
      .getByRole('option')
      .nth(number - 1);
  }

  get card(): Locator {
    return this.page.getByRole('complementary', { name: 'Chosen' });
  }

  get sentence(): Locator {
    return this.page.locator('[data-headline]');
  }

  field(label: string): Locator {
    return this.card.getByLabel(label, { exact: true });
  }

  /** A figure of the card by its name, with what it is held against. */
  outcomeRow(label: string): Locator {
    const name = this.page.getByRole('button', { name: label, exact: true });
    return this.card.locator('[data-outcome]').filter({ has: name });
  }

  /** The figure alone, read as "33 min". */
  outcome(label: string): Locator {
    return this.outcomeRow(label).locator('[data-figure]');
  }

  /** A diver in the card, whose figures it shows when pressed. */
  whose(name: string): Locator {
    return this.card.getByRole('button', { name: new RegExp(`^${name} `) });
  }

  /** The line of the nitrogen band as it is drawn. */
  nitrogenLine(): Promise<string | null> {
    return this.page.locator('[data-part=nitrogen]').getAttribute('d');
  }

  get title(): Locator {
    return this.page.getByRole('heading', { level: 1 });
  }

  get saved(): Locator {
    return this.page.locator('[data-part="saved"]');
  }

  get dialog(): Locator {
    return this.page.getByRole('dialog');
  }

  async chooseTightest(): Promise<void> {
    await this.sentence.locator('[data-tightest]').click();
    await expect(this.field('Depth')).toBeVisible();
  }

  /** Types into a field as a hand does and keeps it with Enter. */
  async set(label: string, text: string): Promise<void> {
    const field = this.field(label);
    await field.fill(text);
    await field.press('Enter');
  }

  /** Picks from a list of the card as a hand does, which sees whose list it is first. */
  async pick(
    label: string,
    option: string | { readonly label: string } | { readonly index: number },
  ): Promise<void> {
    await drawn(this.page);
    await this.field(label).selectOption(option);
  }

  /** Runs a command from the palette by what it is called. */
  async command(words: string): Promise<void> {
    // A sheet that was answered may still wait for what it asked of the host; until it goes the keys are its own.
    await expect(this.dialog).toHaveCount(0);
    await this.page.keyboard.press('Control+k');
    await this.page.getByRole('combobox', { name: /Find a command/ }).fill(words);
    await this.page.keyboard.press('Enter');
  }

  /** What the next file that is asked for will be. */
  answerNextFile(name: string, text: string | Uint8Array): void {
    this.answer = { name, text };
  }

  /** Opens a file of this name and text as a hand would. */
  async openFile(name: string, text: string | Uint8Array): Promise<void> {
    await expect(this.dialog).toHaveCount(0);
    this.answer = { name, text };
    await this.page.keyboard.press('Control+o');
  }

  /** Waits until an edit that no save has taken up is noted down. */
  async waitForNote(): Promise<void> {
    const names = async () => Object.keys(await this.page.evaluate(keptBesideTrips));
    await expect.poll(names).toEqual(expect.arrayContaining([expect.stringMatching(/^unsaved\//)]));
  }

  async waitForSave(): Promise<void> {
    await expect(this.saved).toHaveText(/^Saved \d/);
  }
}
