import { expect, type Locator } from '@playwright/test';
import type { Workbench } from './workbench';

/** The line of what is on board, leanest first. */
export function onBoardText(mixes: readonly { readonly o2: number }[]): string {
  const names = mixes
    .toSorted((a, b) => a.o2 - b.o2)
    .map(({ o2 }) => (o2 === 0.21 ? 'Air' : `EAN${Math.round(o2 * 100)}`));
  return `On board: ${names.join(', ')}`;
}

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

  /**
   * What the pictures of the class show of a mix where the depth in hand crosses its lines, read off their own axes:
   * depth and PO2 to the nearest, minutes in whole ones begun.
   */
  readBack(mix: string): Promise<{ depth: number; po2: number; noStopMin: number; meetsMin: number }> {
    // No function in here has a name: the runner would wrap it in a helper that the page does not have.
    return this.panel.locator('svg[role="img"]').evaluate((lower, name) => {
      const upper = lower.ownerDocument.querySelector('[role="slider"]')!.closest('svg')!;
      const [tenPx, fiftyPx] = ['10', '50'].map((text) =>
        Number(
          [...upper.querySelectorAll('text')].find((each) => each.textContent === text)!.getAttribute('x'),
        ),
      ) as [number, number];
      const [halfPx, onePx] = ['0.6', '1.0'].map((text) =>
        Number(
          [...upper.querySelectorAll('text')].find((each) => each.textContent === text)!.getAttribute('x'),
        ),
      ) as [number, number];
      const slider = upper.querySelector('[role="slider"]')!;
      const y = Number(upper.querySelector('circle')!.getAttribute('cy'));
      const depth = Number(slider.getAttribute('aria-valuenow'));
      const of = `g[data-gas="${name}"] path`;
      const [po2Path, timePath] = ['po2', 'no-stop'].map((part) =>
        upper.querySelector<SVGPathElement>(`${of}[data-part="${part}"]`)!,
      ) as [SVGPathElement, SVGPathElement];
      const nitrogen = lower.querySelector<SVGPathElement>(`[data-part="nitrogen"][data-gas="${name}"]`)!;
      const limitY = Number(lower.querySelector('circle')!.getAttribute('cy'));
      const startPx = upper.getBoundingClientRect().left - lower.getBoundingClientRect().left;
      // Each falls or rises all the way: halved until the height is found.
      const [po2X, timeX, nitrogenX] = [
        { path: po2Path, to: y },
        { path: timePath, to: y },
        { path: nitrogen, to: limitY },
      ].map(({ path, to }) => {
        let [from, until] = [0, path.getTotalLength()];
        const isFalling = path.getPointAtLength(until).y > path.getPointAtLength(0).y;
        for (let i = 0; i < 40; i += 1) {
          const middle = (from + until) / 2;
          if (path.getPointAtLength(middle).y < to === isFalling) from = middle;
          else until = middle;
        }
        return path.getPointAtLength(from).x;
      }) as [number, number, number];
      const [timeMin, nitrogenMin] = [timeX, nitrogenX - startPx].map(
        (x) => 10 + (40 * (x - tenPx)) / (fiftyPx - tenPx),
      ) as [number, number];
      return {
        depth,
        po2: Math.round(100 * (0.6 + (0.4 * (po2X - halfPx)) / (onePx - halfPx))) / 100,
        noStopMin: Math.floor(timeMin),
        meetsMin: Math.floor(nitrogenMin),
      };
    }, mix);
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
