import { AIR_N2, inspiredBar, RATES_PER_MIN } from '../tissues/compartments';
import { planOf } from '../ledger/dive-plan';
import { surfaceLimits } from '../ledger/nitrogen-outcome';
import type { RoomLimit } from '../ledger/ledger-types';
import { waysUp } from '../ledger/limits-kept';
import { intervalsNeeded } from '../ledger/room';
import { bar, minutes, minutesOut } from './digits';
import { compartmentStep, MODEL } from './nitrogen';
import type { Asked, Work, WorkingsStep } from './types';
import type { Trip } from '../document/types';
import { atSurface, fallenBelow, type AtSurface } from '../ledger/at-surface';
import { surroundingsOf } from '../profile';

/** The interval a compartment needs, and the tension it may begin the dive with. */
interface Need {
  /** Of the compartment, 0 to 15; -1 where none needs an interval. */
  readonly index: number;
  /** Infinity where it is not possible at any interval. */
  readonly min: number;
  readonly mostBar: number;
}

function surfaceOf(trip: Trip): AtSurface {
  return atSurface(trip, surroundingsOf(trip).column.surfaceBar);
}

/** Whether the party comes to another height after the dive before: the interval is then cut there. */
function changesHeight({ entry, trip }: Asked): boolean {
  return surfaceOf(trip).stays.some(({ toMin }) => toMin > entry.from.atMin);
}

function airBar({ trip }: Asked): number {
  return AIR_N2 * inspiredBar(surroundingsOf(trip).column.surfaceBar);
}

/** The compartment that needs the interval most. Source: named in the workings. */
function nitrogenNeed(asked: Asked): Need {
  const { entry, trip, o2 } = asked;
  const plan = planOf(trip, entry);
  const limits = surfaceLimits(plan.around.column, entry.diver.gradient.high);
  const air = airBar(asked);
  let need: Need = { index: -1, min: 0, mostBar: 0 };
  const surface = surfaceOf(trip);
  if (changesHeight(asked)) {
    const most = limits.map((limit, i) =>
      Math.min(...waysUp(plan).map(({ decay, uptake }) => (limit - (1 - o2) * uptake[i]!) / decay[i]!)),
    );
    const fallen = fallenBelow(entry.from, most, surface);
    const index = ('never' in fallen ? fallen.never : (fallen.compartment ?? 0)) - 1;
    const min = 'never' in fallen ? Infinity : fallen.atMin - entry.from.atMin;
    return index === -1 ? need : { index, min, mostBar: most[index]! };
  }
  for (const toEnd of waysUp(plan)) {
    for (let index = 0; index < limits.length; index += 1) {
      const mostBar = (limits[index]! - (1 - o2) * toEnd.uptake[index]!) / toEnd.decay[index]!;
      const heldBar = entry.from.tensions[index]!;
      if (heldBar <= mostBar) continue;
      if (mostBar <= air) return { index, min: Infinity, mostBar };
      const min = Math.log((heldBar - air) / (mostBar - air)) / RATES_PER_MIN[index]!;
      if (min > need.min) need = { index, min, mostBar };
    }
  }
  return need;
}

function nitrogenSteps(asked: Asked, need: Need): readonly WorkingsStep[] {
  if (need.index === -1) return [];
  return [
    compartmentStep(need.index + 1, 'Compartment that needs the interval most'),
    {
      label: 'Its tension on surfacing from the dive before, p',
      value: bar(asked.entry.from.tensions[need.index]!),
    },
    { label: 'Tension it may begin this dive with, q', value: bar(need.mostBar) },
    { label: 'Nitrogen breathed at the surface, A = 0.79 (P0 − 0.0627)', value: bar(airBar(asked)) },
    ...(changesHeight(asked)
      ? [{ label: 'Heights between', value: 'followed stretch by stretch, each with an A of its own' }]
      : []),
    ...(need.min === Infinity ? [] : [{ label: 'Interval it needs', value: minutes(need.min) }]),
  ];
}

/** Where a limit is passed that time at the surface has no part in. */
const NEVER: Partial<Record<RoomLimit, string>> = {
  mod: 'Depth, past the MOD',
  'diver-depth': 'Depth, past the diver’s own limit',
  gas: 'Gas, less than the minimum gas or the reserve is left',
  oxygen: 'Oxygen of the loop, less than its reserve is left',
  scrubber: 'Scrubber, used up before the surface',
  'bail-out': 'Bail-out, which does not bring the diver up',
};

const NEEDS: Partial<Record<RoomLimit, string>> = {
  cns: 'Interval the CNS clock needs, 90 log2(after the dive before / (1 − this dive))',
  'cns-day': 'Interval the oxygen limit of any 24 hours needs, found by trying',
  interval: 'Interval the dive before needs, which ends after this one begins',
};

/** What each limit but that of nitrogen needs, where it needs anything. */
function needSteps(min: number, limit: RoomLimit): readonly WorkingsStep[] {
  if (min === Infinity)
    return limit in NEVER ? [{ label: NEVER[limit]!, value: 'whatever the interval' }] : [];
  const label = NEEDS[limit];
  return label === undefined || min === -Infinity ? [] : [{ label, value: minutes(min) }];
}

/** How much sooner the dive could start. Source: named in the workings. */
export const earlierWorkings: Work = (asked) => {
  const { intervalMin, cns } = asked.entry;
  const shared = {
    title: 'How much sooner the dive could start',
    formula:
      'interval − ln((p − A) / (q − A)) / k, the least of the 16 compartments, the CNS clock and the 24 h',
    source: `${MODEL}; the CNS clock’s half-time of 90 min is a convention of the trade, published only as an unvalidated assumption`,
  };
  if (intervalMin === null) {
    return { ...shared, steps: [{ label: 'Dive before', value: 'none' }], result: 'any time', exact: null };
  }
  if (cns.after === null) {
    const result = 'no figure: PO2 passed 1.6 bar, where no limit exists';
    return { ...shared, steps: [], result, exact: null };
  }
  const needed = intervalsNeeded(asked.trip, asked.entry);
  const steps = [
    { label: 'Interval before the dive', value: minutes(intervalMin) },
    ...nitrogenSteps(asked, nitrogenNeed(asked)),
    ...needed.flatMap(({ min, limit }) => needSteps(min, limit)),
  ];
  const longestMin = Math.max(...needed.map(({ min }) => min));
  if (longestMin === Infinity)
    return { ...shared, steps, result: 'not possible at any interval', exact: null };
  if (longestMin === -Infinity) return { ...shared, steps, result: 'any time', exact: null };
  const exact = intervalMin - longestMin;
  return { ...shared, steps, result: minutesOut(exact), exact };
};
