/** How long a key press takes to be seen: on the clock of the wall, and on that of the processor. */
import type { Page } from '@playwright/test';

/** What the marks of a press are called in the browser's own trace. */
const PRESSED = 'press';
const PAINTED = 'painted';
const SETTLED = 'settled';

/** Milliseconds a press took. */
export interface Press {
  /** From the press to the end of the frame that shows its result. */
  readonly wallMs: number;
  /** Of the page's own thread in that time: other programs on the machine do not lengthen it. */
  readonly workMs: number;
  /** Of the page's own thread from the press to the next one. */
  readonly settledWorkMs: number;
}

interface TraceEvent {
  readonly name: string;
  /** Microseconds: of the wall, and of the thread. */
  readonly ts: number;
  readonly tts: number;
}

/** As long as a hand takes to the next press. */
const SETTLE_MS = 100;

/**
 * Marks each press as it arrives, its frame, and the end of what it set off. No function in here has a name:
 * the runner would wrap it in a helper that the page does not have.
 */
async function markPresses(page: Page, keys: readonly string[]): Promise<void> {
  await page.evaluate(
    ({ pressed, painted, settled, settleMs, watched }) => {
      let seen = 0;
      window.addEventListener(
        'keydown',
        async ({ key }) => {
          if (!watched.includes(key)) return;
          performance.mark(pressed);
          // A frame's callback runs before its paint; a message posted from there arrives after it.
          await new Promise((done) => {
            requestAnimationFrame(() => {
              const channel = new MessageChannel();
              channel.port1.addEventListener('message', done);
              channel.port1.start();
              channel.port2.postMessage(null);
            });
          });
          performance.mark(painted);
          await new Promise((done) => {
            setTimeout(done, settleMs);
          });
          performance.mark(settled);
          seen += 1;
          document.documentElement.dataset['presses'] = String(seen);
        },
        { capture: true },
      );
    },
    { pressed: PRESSED, painted: PAINTED, settled: SETTLED, settleMs: SETTLE_MS, watched: keys },
  );
}

function pressesOf(events: readonly TraceEvent[]): readonly Press[] {
  const presses: Press[] = [];
  let pressed: TraceEvent | undefined;
  let painted: TraceEvent | undefined;
  for (const event of events.toSorted((a, b) => a.ts - b.ts)) {
    if (event.name === PRESSED) pressed = event;
    else if (event.name === PAINTED) painted = event;
    else if (event.name === SETTLED && pressed && painted) {
      presses.push({
        wallMs: (painted.ts - pressed.ts) / 1000,
        workMs: (painted.tts - pressed.tts) / 1000,
        settledWorkMs: (event.tts - pressed.tts) / 1000,
      });
    }
  }
  return presses;
}

/**
 * Presses keys one after the other, each once the one before is drawn, and measures each.
 * @param prepare what stands before each press and is not measured, as typing before Enter
 */
export async function pressesMs(
  page: Page,
  keys: readonly string[],
  count: number,
  prepare: (turn: number) => Promise<void> = async () => undefined,
): Promise<readonly Press[]> {
  const names = keys.map((key) => key.split('+').at(-1)!);
  await markPresses(page, names);
  const browser = page.context().browser()!;
  await browser.startTracing(page, { categories: ['blink.user_timing'] });
  for (let turn = 0; turn < count; turn += 1) {
    await prepare(turn);
    await page.keyboard.press(keys[turn % keys.length]!);
    await page.locator(`html[data-presses="${turn + 1}"]`).waitFor({ state: 'attached' });
  }
  const trace = JSON.parse((await browser.stopTracing()).toString()) as {
    traceEvents: readonly TraceEvent[];
  };
  const presses = pressesOf(trace.traceEvents);
  if (presses.length !== count) throw new Error(`${count} presses were made and ${presses.length} seen`);
  return presses;
}

/** The value below which so large a share of them lies. */
export function percentile(times: readonly number[], share: number): number {
  const sorted = times.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
}
