import { spawnSync, type SpawnSyncReturns } from 'node:child_process';
import {
  AIR_N2,
  COMPARTMENT_COUNT,
  inspiredBar,
  RATES_PER_MIN,
  restTensions,
} from '../../core/tissues/compartments';
import { applyMap, type AffineMap, type Lanes } from '../../core/tissues/affine-map';
import { intervalMap } from '../../core/tissues/leg-map';
import { wallMin } from '../../core/words/calendar';
import { demoTrip } from '../../core/document/demo-trip';
import { newDivePlan, type DivePlan } from '../../core/ledger/dive-plan';
import { ledger } from '../../core/ledger/ledger';
import type { Dive, Trip } from '../../core/document/types';
import { medianMs, type BenchLine } from './report';
import { surroundingsOf } from '../../core/profile';

const DEMO_TRIP = demoTrip();

/** A trip of four dives a day on one mix, for as many divers as asked. */
export function longTrip(dives: number, party: number): Trip {
  const shapes = [
    { at: '07:30', depthM: 30, bottomMin: 20 },
    { at: '10:30', depthM: 24, bottomMin: 35 },
    { at: '14:30', depthM: 18, bottomMin: 45 },
    { at: '18:30', depthM: 14, bottomMin: 50 },
  ];
  return {
    ...DEMO_TRIP,
    party: Array.from({ length: party }, (_, i) => ({
      ...DEMO_TRIP.party[0]!,
      id: `p${i}`,
      name: `Guest ${i}`,
    })),
    dives: Array.from({ length: dives }, (_, i): Dive => {
      const { at, depthM, bottomMin } = shapes[i % 4]!;
      const day = String(1 + Math.floor(i / 4)).padStart(2, '0');
      return {
        id: `d${i}`,
        siteId: DEMO_TRIP.sites[0]!.id,
        startsAt: `2027-03-${day}T${at}`,
        depthM,
        bottomMin,
        mix: 'auto',
      };
    }),
  };
}

const O2 = 0.32;

/** Nitrogen alone: the maps of the dives and intervals once, then every diver through them. */
function foldNitrogen(trip: Trip): Lanes[] {
  const around = surroundingsOf(trip);
  const { surfaceBar } = around.column;
  const plans: DivePlan[] = trip.dives.map((dive) => newDivePlan(dive, around));
  const intervals: AffineMap[] = trip.dives.map((dive, i) => {
    const before = i === 0 ? null : wallMinOf(trip.dives[i - 1]!) + plans[i - 1]!.runtimeMin;
    return intervalMap(surfaceBar, before === null ? 0 : wallMinOf(dive) - before);
  });
  return trip.party.map(() => {
    let tensions = restTensions(surfaceBar);
    plans.forEach((plan, i) => {
      tensions = applyMap(plan.whole, applyMap(intervals[i]!, tensions, AIR_N2), 1 - O2);
    });
    return tensions;
  });
}

/** Reading a wall clock is not part of the fold; starts are known when it begins. */
const starts = new WeakMap<Dive, number>();
function wallMinOf(dive: Dive): number {
  let min = starts.get(dive);
  if (min === undefined) starts.set(dive, (min = wallMin(dive.startsAt)));
  return min;
}

/** How long each stretch of a trip lasts whose map a fold needs: legs, direct ascents, intervals. */
function stretchesMin(trip: Trip): readonly number[] {
  const around = surroundingsOf(trip);
  let surfaced: number | null = null;
  return trip.dives.flatMap((dive) => {
    const plan = newDivePlan(dive, around);
    const start = wallMinOf(dive);
    const intervalMin = surfaced === null ? 0 : start - surfaced;
    surfaced = start + plan.runtimeMin;
    const directMin = plan.profile.deepestM / around.ascentMPerMin;
    return [...plan.legs.map((leg) => leg.min), directMin, intervalMin].filter((min) => min > 0);
  });
}

/** The exponentials a fold cannot do without: one a compartment for each stretch, at its own argument. */
function bareExponentials(minutes: readonly number[]): number {
  let sum = 0;
  for (const min of minutes) {
    for (let i = 0; i < COMPARTMENT_COUNT; i += 1) sum += Math.expm1(-RATES_PER_MIN[i]! * min);
  }
  return sum;
}

/** What one second does to a tissue that breathes at a pressure. */
type Second = (tensionBar: number, inspiredBar: number, compartment: number) => number;

/** Haldane's formula as a textbook prints it, its power of two worked out at each step. */
const textbookSecond: Second = (tension, inspired, i) =>
  tension + (inspired - tension) * (1 - 2 ** ((-1 / 60) * (RATES_PER_MIN[i]! / Math.LN2)));

const DECAY_OF_A_SECOND = RATES_PER_MIN.map((k) => Math.exp(-k / 60));

/** The same with the 16 factors of a second kept, as a careful stepper would. */
const keptSecond: Second = (tension, inspired, i) => inspired + (tension - inspired) * DECAY_OF_A_SECOND[i]!;

/** The same trip, one second at a time. */
function steppedNitrogen(trip: Trip, second: Second): Lanes {
  const around = surroundingsOf(trip);
  const { surfaceBar } = around.column;
  const tensions = [...restTensions(surfaceBar)];
  const step = (bar: number, n2: number) => {
    const inspired = n2 * inspiredBar(bar);
    for (let i = 0; i < COMPARTMENT_COUNT; i += 1) tensions[i] = second(tensions[i]!, inspired, i);
  };
  let surfaced: number | null = null;
  for (const dive of trip.dives) {
    const plan = newDivePlan(dive, around);
    const start = wallMinOf(dive);
    if (surfaced !== null) for (let s = 0; s < (start - surfaced) * 60; s += 1) step(surfaceBar, AIR_N2);
    for (const leg of plan.legs) {
      const seconds = Math.round(leg.min * 60);
      for (let s = 0; s < seconds; s += 1) {
        step(leg.fromBar + ((leg.toBar - leg.fromBar) * (s + 0.5)) / seconds, 1 - O2);
      }
    }
    surfaced = start + plan.runtimeMin;
  }
  return tensions;
}

function assertSameAnswer(trip: Trip): void {
  const fold = foldNitrogen(trip)[0]!;
  const stepped = steppedNitrogen(trip, textbookSecond);
  const worst = Math.max(...fold.map((tension, i) => Math.abs(tension - stepped[i]!)));
  // Legs are rounded to whole seconds: up to half a second of 3 bar in the fastest compartment.
  if (worst > 5e-3) throw new Error(`stepping and folding differ by ${worst} bar`);
}

function fresh(trip: Trip): Trip {
  return { ...trip, water: { ...trip.water } };
}

function wallMs(start: () => SpawnSyncReturns<Buffer>): number {
  const startedMs = performance.now();
  const { status } = start();
  if (status !== 0) throw new Error(`ended with ${status}`);
  return performance.now() - startedMs;
}

export async function benchLedger(): Promise<readonly BenchLine[]> {
  const one = longTrip(56, 1);
  const twelve = longTrip(56, 12);
  assertSameAnswer(one);
  const demoStretches = stretchesMin(DEMO_TRIP);
  const oneStretches = stretchesMin(one);
  const demoMs = await medianMs(() => ledger(fresh(DEMO_TRIP)));
  const oneMs = await medianMs(() => foldNitrogen(one));
  const lines: BenchLine[] = [
    {
      what: `ledger of the demo trip, ${DEMO_TRIP.dives.length} dives, ${DEMO_TRIP.party.length} divers, from scratch`,
      ms: demoMs,
      floor: 'the exponentials it needs',
      floorMs: await medianMs(() => bareExponentials(demoStretches)),
    },
    {
      what: 'nitrogen of 56 dives, one diver',
      ms: oneMs,
      floor: 'the exponentials it needs',
      floorMs: await medianMs(() => bareExponentials(oneStretches)),
      atMost: 3,
    },
    {
      what: 'nitrogen of 56 dives, twelve divers',
      ms: await medianMs(() => foldNitrogen(twelve)),
      floor: 'one diver',
      floorMs: oneMs,
      atMost: 2,
    },
    {
      what: 'nitrogen of 56 dives by maps',
      ms: oneMs,
      floor: 'second by second by the textbook, same answer',
      floorMs: await medianMs(() => steppedNitrogen(one, textbookSecond), 300),
      fasterBy: 1000,
    },
    {
      what: 'nitrogen of 56 dives by maps',
      ms: oneMs,
      floor: 'second by second with the factors of a second kept',
      floorMs: await medianMs(() => steppedNitrogen(one, keptSecond), 300),
    },
  ];
  const refold = async (dives: number) => {
    const trip = longTrip(dives, 1);
    const known = ledger(trip);
    let depthM = 14;
    return medianMs(() => {
      depthM = depthM === 14 ? 15 : 14;
      return ledger(
        { ...trip, dives: trip.dives.with(dives - 1, { ...trip.dives[dives - 1]!, depthM }) },
        known,
      );
    });
  };
  lines.push({
    what: 'taking up again after an edit of the last of 112 dives',
    ms: await refold(112),
    floor: 'of the last of 28',
    floorMs: await refold(28),
    atMost: 2,
  });
  lines.push({
    what: 'plan of the demo trip, start-up included',
    ms: await medianMs(() => wallMs(() => spawnSync('npm', ['run', '--silent', 'plan'])), 3000),
    floor: 'node -e 0',
    floorMs: await medianMs(() => wallMs(() => spawnSync(process.execPath, ['-e', '0'])), 500),
  });
  return lines;
}
