/*
 * Source: test/fixtures/stepped/step.py, a second implementation of the project's conventions in another
 * language and by another method (second by second, no closed form), written from the conventions alone.
 * Regenerate: tsx test/fixtures/stepped/draw.ts && python3 test/fixtures/stepped/step.py
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ledger } from '../../core/ledger/ledger';
import type { Entry } from '../../core/ledger/ledger-types';
import type { Trip } from '../../core/document/types';

interface Stepped {
  readonly o2: number;
  readonly before: readonly number[];
  readonly after: readonly number[];
  readonly noStopMin: number | null;
  /** What each level may last by itself. */
  readonly levels: readonly (number | null)[];
  readonly stops: readonly { readonly depthM: number; readonly min: number }[];
  readonly cnsAfter: number;
  readonly cnsDay: number;
  readonly otu: number;
  readonly esot: number;
  readonly usedL: number;
  readonly runtimeMin: number;
}

function fixture<T>(name: string): T {
  return JSON.parse(readFileSync(new URL(`../fixtures/stepped/${name}`, import.meta.url), 'utf8')) as T;
}

/*
 * What stepping errs by. The midpoint rule at 1 s leaves (k dt)^2 / 6 of what moves: 0.0023^2 / 6 * 5 bar =
 * 4e-6 bar for the fastest compartment, and 7e-5 bar at its 15 s steps at the surface, which five hours wear
 * off. The no-stop time is found to the second below. Sums of a clock miss up to half a second where PO2
 * crosses 0.5 bar (0.5 / 60 / 720 = 1.2e-5 each time), and the rolling clock's window a second at its edge
 * (1 / 60 / 150 = 1.1e-4). ESOT begins at 0.5 bar with 0.205 a minute: half a second there is 0.0017, and a dive
 * of several levels crosses it up to six times; OTU begins at 0 and errs less. The file holds nine digits.
 */
const TENSION_BAR = 1e-5;
const NO_STOP_MIN = 1 / 60 + 1e-3;
const CLOCK = 1e-4;
const DAY_CLOCK = 4e-4;
const OTU = 0.002;
const ESOT = 0.0103;
const GAS_SHARE = 1e-8;
const FIVE_HOURS_MIN = 300;

describe('the ledger beside a naive walk of the same trips, second by second', () => {
  const trips = fixture<readonly Trip[]>('trips.json');
  const walked = fixture<readonly (readonly (readonly (Stepped | null)[])[])[]>('stepped.json');
  const pairs: { readonly name: string; readonly entry: Entry; readonly walk: Stepped | null }[] = [];
  trips.forEach((trip, t) => {
    ledger(trip).divers.forEach((own, d) => {
      own.entries.forEach((entry, e) => {
        pairs.push({ name: `trip ${t} dive ${entry.dive.id}`, entry, walk: walked[t]![d]![e]! });
      });
    });
  });

  it('covers 200 trips and every dive of them', () => {
    expect(trips).toHaveLength(200);
    expect(walked).toHaveLength(200);
    expect(pairs).toHaveLength(493);
    expect(pairs.filter(({ walk }) => (walk?.stops.length ?? 0) > 0).length).toBeGreaterThan(50);
  });

  it('breathes the same mixes and makes the same stops', () => {
    for (const { name, entry, walk } of pairs) {
      expect(entry.o2, name).toBe(walk?.o2 ?? null);
      if (walk) expect(entry.stops, name).toEqual(walk.stops);
    }
  });

  it('has the same limit for each level of the dives of several, found second by second', () => {
    let compared = 0;
    let earlier = 0;
    let over = 0;
    for (const { name, entry, walk } of pairs) {
      if (!walk) continue;
      expect(entry.levels, name).toHaveLength(walk.levels.length);
      entry.levels.forEach((level, i) => {
        const foundMin = walk.levels[i]!;
        if (foundMin === null) expect(level.noStopMin ?? Infinity, name).toBeGreaterThan(FIVE_HOURS_MIN);
        else expect(Math.abs(level.noStopMin! - foundMin), `${name} level ${i}`).toBeLessThan(NO_STOP_MIN);
        compared += 1;
        if (i < walk.levels.length - 1) earlier += 1;
        if (foundMin === 0) over += 1;
      });
    }
    expect({ compared, earlier, over }).toEqual({ compared: 737, earlier: 244, over: 32 });
  });

  it('has the same tensions, times, clocks, doses and gas within the stepping error', () => {
    const worst = { tension: 0, noStop: 0, cns: 0, day: 0, otu: 0, esot: 0, gas: 0 };
    const widen = (key: keyof typeof worst, difference: number) => {
      worst[key] = Math.max(worst[key], Math.abs(difference));
    };
    for (const { name, entry, walk } of pairs) {
      if (!walk) continue;
      entry.tensionsBefore.forEach((tension, i) => widen('tension', tension - walk.before[i]!));
      entry.after.tensions.forEach((tension, i) => widen('tension', tension - walk.after[i]!));
      if (walk.noStopMin === null) {
        expect(entry.noStopMin ?? Infinity, name).toBeGreaterThan(FIVE_HOURS_MIN);
      } else {
        widen('noStop', entry.noStopMin! - walk.noStopMin);
      }
      widen('cns', entry.cns.after! - walk.cnsAfter);
      widen('day', entry.cns.day! - walk.cnsDay);
      widen('otu', entry.otu.dive! - walk.otu);
      widen('esot', entry.esot.dive! - walk.esot);
      widen('gas', (entry.gas.usedL! - walk.usedL) / walk.usedL);
      expect(entry.surfacesMin - entry.startMin, name).toBeCloseTo(walk.runtimeMin, 6);
    }
    console.log(
      `  worst differences: ${JSON.stringify(worst, (_, v) => (typeof v === 'number' ? Number(v.toExponential(1)) : v))}`,
    );
    expect(worst.tension).toBeLessThan(TENSION_BAR);
    expect(worst.noStop).toBeLessThan(NO_STOP_MIN);
    expect(worst.cns).toBeLessThan(CLOCK);
    expect(worst.day).toBeLessThan(DAY_CLOCK);
    expect(worst.otu).toBeLessThan(OTU);
    expect(worst.esot).toBeLessThan(ESOT);
    expect(worst.gas).toBeLessThan(GAS_SHARE);
  });
});
