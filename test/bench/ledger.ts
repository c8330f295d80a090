import { spawnSync } from 'node:child_process';
import {
  AIR_N2,
  COMPARTMENT_COUNT,
  inspiredBar,
  RATES_PER_MIN,
  restTensions,
} from '../../core/tissues/compartments';
import { applyMap, type AffineMap, type Lanes } from '../../core/tissues/affine-map';
import { intervalMap } from '../../core/tissues/leg-map';
import { wallMin } from '../../core/trip/clock';
import { demoTrip } from '../../core/trip/demo-trip';
import { newDivePlan, surroundingsOf, type DivePlan } from '../../core/trip/dive-plan';
import { ledger } from '../../core/trip/ledger';
import type { Dive, Trip } from '../../core/trip/types';
import { medianMs, type BenchLine } from './report';

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

/** The exponentials a fold cannot do without: one a compartment for each leg and interval. */
function bareExponentials(trip: Trip): number {
  const around = surroundingsOf(trip);
  let sum = 0;
  let legs = 0;
  for (const dive of trip.dives) legs += newPlanLegs.get(dive) ?? countLegs(dive, around);
  for (let n = 0; n < legs + trip.dives.length; n += 1) {
    for (let i = 0; i < COMPARTMENT_COUNT; i += 1) sum += Math.expm1(-RATES_PER_MIN[i]! * (1 + n * 0.01));
  }
  return sum;
}

const newPlanLegs = new WeakMap<Dive, number>();
function countLegs(dive: Dive, around: ReturnType<typeof surroundingsOf>): number {
  // The direct ascent of the no-stop limit is a leg of its own.
  const legs = newDivePlan(dive, around).legs.length + 1;
  newPlanLegs.set(dive, legs);
  return legs;
}

/** The same trip, one second at a time, by the exact solution of each second. */
function steppedNitrogen(trip: Trip): Lanes {
  const around = surroundingsOf(trip);
  const { surfaceBar } = around.column;
  const decay = Array.from(RATES_PER_MIN, (k) => Math.exp(-k / 60));
  const tensions = [...restTensions(surfaceBar)];
  const second = (bar: number, n2: number) => {
    const inspired = n2 * inspiredBar(bar);
    for (let i = 0; i < COMPARTMENT_COUNT; i += 1)
      tensions[i] = inspired + (tensions[i]! - inspired) * decay[i]!;
  };
  let surfaced: number | null = null;
  for (const dive of trip.dives) {
    const plan = newDivePlan(dive, around);
    const start = wallMinOf(dive);
    if (surfaced !== null) for (let s = 0; s < (start - surfaced) * 60; s += 1) second(surfaceBar, AIR_N2);
    for (const leg of plan.legs) {
      const seconds = Math.round(leg.min * 60);
      for (let s = 0; s < seconds; s += 1) {
        second(leg.fromBar + ((leg.toBar - leg.fromBar) * (s + 0.5)) / seconds, 1 - O2);
      }
    }
    surfaced = start + plan.runtimeMin;
  }
  return tensions;
}

function assertSameAnswer(trip: Trip): void {
  const fold = foldNitrogen(trip)[0]!;
  const stepped = steppedNitrogen(trip);
  const worst = Math.max(...fold.map((tension, i) => Math.abs(tension - stepped[i]!)));
  // Legs are rounded to whole seconds: up to half a second of 3 bar in the fastest compartment.
  if (worst > 5e-3) throw new Error(`stepping and folding differ by ${worst} bar`);
}

function fresh(trip: Trip): Trip {
  return { ...trip, water: { ...trip.water } };
}

function wallMs(args: readonly string[]): number {
  const start = performance.now();
  const { status } = spawnSync(args[0]!, args.slice(1), { stdio: 'ignore' });
  if (status !== 0) throw new Error(`${args.join(' ')} ended with ${status}`);
  return performance.now() - start;
}

export async function benchLedger(): Promise<readonly BenchLine[]> {
  const one = longTrip(56, 1);
  const twelve = longTrip(56, 12);
  assertSameAnswer(one);
  const demoMs = await medianMs(() => ledger(fresh(DEMO_TRIP)));
  const oneMs = await medianMs(() => foldNitrogen(one));
  const lines: BenchLine[] = [
    {
      what: `ledger of the demo trip, ${DEMO_TRIP.dives.length} dives, ${DEMO_TRIP.party.length} divers, from scratch`,
      ms: demoMs,
      floor: 'the exponentials it needs',
      floorMs: await medianMs(() => bareExponentials(DEMO_TRIP)),
    },
    {
      what: 'nitrogen of 56 dives, one diver',
      ms: oneMs,
      floor: 'the exponentials it needs',
      floorMs: await medianMs(() => bareExponentials(one)),
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
      floor: 'second by second, same answer',
      floorMs: await medianMs(() => steppedNitrogen(one), 100),
      fasterBy: 1000,
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
    ms: await medianMs(() => wallMs(['npm', 'run', '--silent', 'plan']), 3000),
    floor: 'node -e 0',
    floorMs: await medianMs(() => wallMs([process.execPath, '-e', '0']), 500),
  });
  return lines;
}
