import { expect, test as base } from '@playwright/test';
import { KeptPage } from './kept-page';
import { StripHand } from './pages/strip';
import { Workbench } from './pages/workbench';

interface Fixtures {
  /** The window before its first start: nothing loaded, nothing accepted, nothing kept. */
  readonly firstStart: Workbench;
  /** The window with the demo trip in it. */
  readonly bench: Workbench;
  /** The strip of that window. */
  readonly strip: StripHand;
}

interface WorkerFixtures {
  readonly kept: KeptPage;
}

export const test = base.extend<Fixtures, WorkerFixtures>({
  kept: [
    async ({ browser }, use) => {
      const kept = new KeptPage(browser);
      await use(kept);
      await kept.close();
    },
    { scope: 'worker' },
  ],
  page: async ({ kept, baseURL, viewport, locale, colorScheme, contextOptions }, use) => {
    const options = { baseURL: baseURL!, viewport, locale: locale!, colorScheme, ...contextOptions };
    await use(await kept.fresh(options));
  },
  context: async ({ page }, use) => {
    await use(page.context());
  },
  firstStart: async ({ page }, use) => {
    const bench = new Workbench(page);
    await use(bench);
    expect(bench.faults).toEqual([]);
  },
  bench: async ({ firstStart }, use) => {
    await firstStart.open();
    await use(firstStart);
  },
  strip: async ({ bench }, use) => {
    await use(new StripHand(bench.page));
  },
});

/** A place of the window as a fixture: gone to with the demo trip in it. */
export function at<Place extends { readonly go: () => Promise<void> }>(
  PlaceOf: new (bench: Workbench) => Place,
) {
  return async ({ bench }: { readonly bench: Workbench }, use: (place: Place) => Promise<void>) => {
    const place = new PlaceOf(bench);
    await place.go();
    await use(place);
  };
}

export { expect };
