/** What a choice and an edit draw anew, counted in the page itself: what DEVELOPERS.md says under "What is drawn anew". */
import type { Page } from '@playwright/test';
import { writeTrip } from '../../core/document/write-trip';
import { bigTrip } from '../bench/big-trip';
import { expect, test } from './fixtures';
import { drawn } from './pages/drawn';

/** A dive of the strip by its id, or the part of the window that an element belongs to. */
const OWNERS = [
  '[role=option][data-dive]',
  '[data-dive]',
  '[data-part=lamp]',
  '[data-part=elbow]',
  '[data-part=band]',
  '[data-part="day head"]',
  '[data-headline]',
  '[role=listbox]',
  'aside',
  '[data-part=page]',
];

/** Does something, and gives back whose elements were changed, added or taken away meanwhile. */
async function touchedBy(page: Page, act: () => Promise<void>): Promise<readonly string[]> {
  await page.evaluate((owners) => {
    const touched = new Set<string>();
    const observer = new MutationObserver((records) => {
      for (const { target, addedNodes, removedNodes } of records) {
        for (const node of [...addedNodes, ...removedNodes, target]) {
          const element = node instanceof Element ? node : node.parentElement;
          const owner = owners.map((each) => element?.closest(each)).find(Boolean);
          if (owner === undefined || owner === null) continue;
          // What holds the parts is told by what came into it or went.
          if (node === target && addedNodes.length + removedNodes.length > 0) continue;
          const own = owners.find((each) => owner.matches(each))!;
          touched.add(owner.getAttribute('data-dive') ?? own);
        }
      }
      document.documentElement.dataset['touched'] = [...touched].join('\n');
    });
    observer.observe(document.body, {
      subtree: true,
      childList: true,
      attributes: true,
      characterData: true,
    });
    window.addEventListener('counted', () => observer.disconnect(), { once: true });
  }, OWNERS);
  await act();
  // What is put off by a frame, or until the page has nothing to do, counts too.
  await drawn(page);
  return page.evaluate(async () => {
    await new Promise((done) => {
      requestIdleCallback(done, { timeout: 1000 });
    });
    window.dispatchEvent(new Event('counted'));
    const { touched = '' } = document.documentElement.dataset;
    delete document.documentElement.dataset['touched'];
    return touched.split('\n').filter((each) => each !== '');
  });
}

const DIVES = 56;

test.beforeEach(async ({ bench, strip }) => {
  await bench.openFile('full.json', writeTrip(bigTrip(DIVES, 12)));
  await expect(strip.dives).toHaveCount(DIVES);
  await strip.dive(30).focus();
  await strip.page.keyboard.press('Enter');
  await expect(bench.card).toContainText('30 of 56');
});

test('a choice touches the two dives, the light and the card, and nothing else', async ({
  page,
  bench,
  strip,
}) => {
  const depth = await bench.field('Depth').elementHandle();
  const touched = await touchedBy(page, async () => {
    await page.keyboard.press('Control+ArrowRight');
    await expect(bench.card).toContainText('31 of 56');
    await expect(strip.chosen).toHaveAttribute('aria-label', /^Dive 31,/);
  });
  expect(touched.filter((each) => /^d\d/.test(each)).toSorted()).toEqual(['d30', 'd31']);
  const beside = touched.filter((each) => !/^d\d/.test(each));
  expect(['[data-part=lamp]', 'aside']).toEqual(expect.arrayContaining(beside));
  // The card is the same card with other figures: its fields stay where the hand is.
  expect(
    await bench
      .field('Depth')
      .elementHandle()
      .then((now) => now!.evaluate((a, b) => a === b, depth)),
  ).toBe(true);
});

test('an edit touches its own dive, the curves and the card, and no dive of another day', async ({
  page,
  bench,
  strip,
}) => {
  const touched = await touchedBy(page, async () => {
    await page.keyboard.press('ArrowDown');
    await expect(bench.field('Depth')).toHaveValue('24 m');
    await expect(strip.chosen).toHaveAttribute('aria-label', /, 24 m,/);
  });
  const dives = touched.filter((each) => /^d\d/.test(each));
  expect(dives).toContain('d30');
  // Day 8 of the trip, four dives a day.
  expect(['d29', 'd30', 'd31', 'd32']).toEqual(expect.arrayContaining(dives));
  expect(touched).toContain('[data-part=band]');
  expect(touched).not.toContain('[role=listbox]');
});

test('the card comes a frame after the strip, and before any key that follows', async ({ page, strip }) => {
  await strip.dive(30).focus();
  // In one turn of the page no frame is drawn: keys that wait in the queue of a busy machine come like this.
  const seen = await page.evaluate(async () => {
    const press = (target: Element, key: string, ctrlKey = false): void => {
      target.dispatchEvent(new KeyboardEvent('keydown', { key, ctrlKey, bubbles: true, cancelable: true }));
    };
    const card = (): string | null => document.querySelector('aside section')!.getAttribute('aria-label');
    const field = document.querySelector('aside input')!;
    let heardIn: string | null = '';
    field.addEventListener('keydown', () => (heardIn = card()), { once: true });
    press(document.activeElement!, 'ArrowRight', true);
    await Promise.resolve();
    const chosen = document.querySelector('[role=option][aria-selected=true]')!.getAttribute('data-dive');
    const stale = card();
    press(field, 'x');
    return { chosen, stale, heardIn };
  });
  expect(seen).toEqual({ chosen: 'd31', stale: 'Dive 30', heardIn: 'Dive 31' });
});

test('with the hand in the card the strip comes a frame after it', async ({ page, bench, strip }) => {
  await bench.field('Depth').focus();
  const seen = await page.evaluate(async () => {
    const field = document.activeElement as HTMLInputElement;
    const said = (): string => document.querySelector('[role=option][aria-selected=true]')!.ariaLabel!;
    const press = (key: string): boolean =>
      field.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
    press('ArrowUp');
    await Promise.resolve();
    const first = { card: field.value, strip: said() };
    press('Shift');
    return { first, stripLast: said() };
  });
  expect(seen.first).toEqual({ card: '24 m', strip: expect.stringContaining(', 23 m,') });
  expect(seen.stripLast).toContain(', 24 m,');
  await expect(strip.chosen).toHaveAttribute('aria-label', /, 24 m,/);
});

test('a dive without words of its own is told while it is chosen', async ({ page, bench, strip }) => {
  const wordsOf = (id: string) => page.locator(`svg g[aria-hidden][data-dive="${id}"] text`);
  const silent = await strip.dives.evaluateAll((dives) =>
    dives
      .map((dive) => dive.getAttribute('data-dive')!)
      .filter((id) => document.querySelector(`svg g[aria-hidden][data-dive="${id}"] text`) === null),
  );
  expect(silent.length).toBeGreaterThan(0);
  const told: string[] = [];
  for (const id of silent.slice(0, 6)) {
    await bench.command(`dive ${id.slice(1)}`);
    await expect(strip.chosen).toHaveAttribute('data-dive', id);
    if ((await wordsOf(id).count()) > 0) told.push(id);
  }
  // Where its neighbours leave no place it stays without.
  expect(told.length).toBeGreaterThan(0);
  await bench.command('dive 1');
  await expect(strip.chosen).toHaveAttribute('data-dive', 'd1');
  for (const id of silent) await expect(wordsOf(id)).toHaveCount(0);
});
