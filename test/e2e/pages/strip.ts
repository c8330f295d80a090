import { expect, type Locator, type Page } from '@playwright/test';
import { drawn } from './drawn';

export type Grip = 'depth' | 'time' | 'start';

/** The strip as a hand knows it: take hold of a dive, look at a figure, come closer. */
export class StripHand {
  constructor(readonly page: Page) {}

  /** All of it: board, water, bands and tools. */
  get whole(): Locator {
    return this.page.getByRole('region', { name: 'The trip, day by day' });
  }

  get list(): Locator {
    return this.page.getByRole('listbox', { name: 'Dives' });
  }

  get dives(): Locator {
    return this.list.getByRole('option');
  }

  get chosen(): Locator {
    return this.list.getByRole('option', { selected: true });
  }

  /** How far the page is scrolled to the right, pixels. */
  scrolled(): Promise<number> {
    return this.scroller.evaluate((element) => element.scrollLeft);
  }

  /** Where a dive's grip begins, pixels from the window's left edge; NaN while it is not drawn. */
  async leftOf(number: number, grip: Grip): Promise<number> {
    return (await this.dive(number).locator(`[data-grip=${grip}]`).boundingBox())?.x ?? Number.NaN;
  }

  /** A dive counted from 1, in order of start. */
  dive(number: number): Locator {
    return this.dives.nth(number - 1);
  }

  /** All that is told about a dive, as it is read out. */
  async told(number: number): Promise<string> {
    await this.drawn();
    return (await this.dive(number).getAttribute('aria-label')) ?? '';
  }

  /** The dive with the focus, as it is read out. */
  focused(): Promise<string> {
    return this.page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? '');
  }

  get live(): Locator {
    return this.page.locator('[data-part=live]');
  }

  get scroller(): Locator {
    return this.page.locator('[data-part=scroller]');
  }

  undoButton(words: string): Locator {
    return this.page.getByRole('button', { name: `Undo ${words}` });
  }

  private async middleOf(number: number, grip: Grip): Promise<{ x: number; y: number }> {
    const box = await this.dive(number).locator(`[data-grip=${grip}]`).boundingBox();
    expect(box).not.toBeNull();
    return { x: box!.x + box!.width / 2, y: box!.y + box!.height / 2 };
  }

  /** Takes hold and moves, in steps as a hand does, without letting go. */
  async hold(number: number, grip: Grip, by: { x?: number; y?: number }): Promise<void> {
    const from = await this.middleOf(number, grip);
    await this.page.mouse.move(from.x, from.y);
    await this.page.mouse.down();
    for (let step = 1; step <= 8; step += 1) {
      await this.page.mouse.move(from.x + ((by.x ?? 0) * step) / 8, from.y + ((by.y ?? 0) * step) / 8);
    }
    await expect(this.live).toBeVisible();
    await this.drawn();
  }

  /** A hand is followed once a frame: waits until the place it came to last is drawn. */
  async drawn(): Promise<void> {
    await drawn(this.page);
  }

  async letGo(): Promise<void> {
    await this.page.mouse.up();
    await expect(this.live).toHaveCount(0);
  }

  async drag(number: number, grip: Grip, by: { x?: number; y?: number }): Promise<void> {
    await this.hold(number, grip, by);
    await this.letGo();
  }

  /** Draws a frame around the weights of dives that follow each other, from open water above the first. */
  async drawFrame(first: number, last: number, beforeEnd?: () => Promise<void>): Promise<void> {
    const weights = await Promise.all(
      Array.from({ length: last - first + 1 }, (_, i) => this.middleOf(first + i, 'depth')),
    );
    const water = await this.page.locator('[data-part=water]').boundingBox();
    const from = { x: Math.min(...weights.map(({ x }) => x)) - 6, y: water!.y + water!.height - 6 };
    const to = {
      x: Math.max(...weights.map(({ x }) => x)) + 4,
      y: Math.min(...weights.map(({ y }) => y)) - 4,
    };
    await this.page.mouse.move(from.x, from.y);
    await this.page.mouse.down();
    await this.page.mouse.move((from.x + to.x) / 2, (from.y + to.y) / 2);
    await this.page.mouse.move(to.x, to.y);
    await expect(this.page.locator('[data-part=frame]')).toBeVisible();
    await beforeEnd?.();
    await this.page.mouse.up();
  }

  /** Two fingers on a touch screen, left and right of a place, from one distance apart to another. */
  async pinch(middle: { x: number; y: number }, fromPx: number, toPx: number): Promise<void> {
    const screen = await this.page.context().newCDPSession(this.page);
    const fingers = (px: number, otherPx = px) => [
      { x: middle.x - px / 2, y: middle.y, id: 1 },
      { x: middle.x + otherPx / 2, y: middle.y, id: 2 },
    ];
    await screen.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: fingers(fromPx) });
    const apart = (step: number) => fromPx + ((toPx - fromPx) * step) / 10;
    for (let step = 1; step <= 10; step += 1) {
      // One finger after the other, each drawn before the next, as under a slow hand: what a step loses adds up.
      for (const touchPoints of [fingers(apart(step), apart(step - 1)), fingers(apart(step))]) {
        await screen.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints });
        await this.page.evaluate(() => new Promise(requestAnimationFrame));
      }
    }
    await screen.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
    await screen.detach();
  }

  /** How wide the trip is drawn, in pixels. */
  async width(): Promise<number> {
    return this.page.locator('[data-part=page]').evaluate((element) => element.clientWidth);
  }

  /** A place in the open water between a day's dives and the next day's. */
  async openWater(): Promise<{ x: number; y: number }> {
    const water = await this.page.locator('[data-part=water]').boundingBox();
    const last = await this.dives.last().boundingBox();
    expect(water).not.toBeNull();
    expect(last).not.toBeNull();
    return { x: last!.x + last!.width + 60, y: water!.y + water!.height * 0.4 };
  }
}

/** The depth in what the strip tells of a dive, metres. */
export function depthOf(told: string): number {
  return Number(/, ([\d.]+) m, /.exec(told)?.[1]);
}
