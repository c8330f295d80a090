import { limitingCompartment, type LevelStay } from '../ascent/no-stop-limit';
import { toleratedBar } from '../ascent/tolerated';
import { AIR_N2, COMPARTMENTS, inspiredBar, RATES_PER_MIN } from '../tissues/compartments';
import { planOf } from '../ledger/dive-plan';
import { surfaceLimits } from '../ledger/nitrogen-outcome';
import { lastLevelStay, levelStay } from '../ledger/level-limits';
import { bar, metres, minutes, minutesOut, percent } from './digits';
import { oxygenStep } from './mix';
import type { Asked, Work, WorkingsStep } from './types';
import { surroundingsAt } from '../document/waters';

/** Source of the model. */
export const MODEL =
  'A. A. Bühlmann, Tauchmedizin, 4th ed. (1995), ZH-L16C; J. S. Haldane’s solution for the time; E. C. Baker, "Understanding M-values" (1998)';

/** The nitrogen breathed at a level, as it is named on one mix. */
export const INSPIRED = 'Inspired nitrogen at the level, I = (P − 0.0627) × nitrogen';

/** A compartment with its half-time and coefficients. */
export function compartmentStep(compartment: number, role: string): WorkingsStep {
  const { halfTimeMin, aBar, b } = COMPARTMENTS[compartment - 1]!;
  return { label: role, value: `no. ${compartment}: half-time ${halfTimeMin} min, a ${aBar} bar, b ${b}` };
}

/** The question of a level's own limit, or of the whole dive, the last level lengthened, where none is named. */
export function stayOf(
  { entry, trip, o2 }: Pick<Asked, 'entry' | 'trip' | 'o2'>,
  level: number | null,
): LevelStay {
  const plan = planOf(trip, entry);
  const limits = surfaceLimits(plan.around.column, entry.diver.gradient.high);
  return level === null
    ? lastLevelStay(plan, entry.tensionsBefore, 1 - o2, limits)
    : levelStay(plan, level, entry.tensionsBefore, 1 - o2, limits);
}

/** The no-stop limit of the whole dive, the last level lengthened. Source: named in the workings. */
export const noStopWorkings: Work = (asked) =>
  limitWorkings(asked, null, {
    title: asked.entry.levels.length < 2 ? 'No-stop limit' : 'Whole time with the last level lengthened',
    arrival: 'Arrival at the level',
  });

/** The no-stop limit of one level. @param index from 0 Source: named in the workings. */
export function levelWorkings(index: number): Work {
  return (asked) => {
    const { depthM } = asked.entry.levels[index]!;
    return limitWorkings(asked, index, {
      title: `No-stop limit of level ${index + 1}, at ${metres(depthM)}`,
      arrival: index === 0 ? 'Arrival at the level' : 'Way from the level before',
    });
  };
}

function limitWorkings(
  asked: Asked,
  level: number | null,
  named: { readonly title: string; readonly arrival: string },
): ReturnType<Work> {
  const stay = stayOf(asked, level);
  const found = limitingCompartment(stay);
  const shared = {
    title: named.title,
    formula: 't = arrival + ln(1 + (L − p) / (I − L)) / k,  k = ln 2 / half-time',
    source: MODEL,
  };
  const inspired = {
    label: INSPIRED,
    value: bar(stay.inspiredN2Bar),
  };
  if (found === null) {
    const note = { label: 'Compartments whose limit lies below I', value: 'none' };
    return { ...shared, steps: [oxygenStep(asked), inspired, note], result: 'unlimited', exact: null };
  }
  const { compartment, tensionBar, limitBar } = found;
  const { surfaceBar } = surroundingsAt(asked.trip, asked.entry.dive).column;
  const { high } = asked.entry.diver.gradient;
  const isPastOnArrival = tensionBar > limitBar;
  const longerMin =
    Math.log1p((limitBar - tensionBar) / (stay.inspiredN2Bar - limitBar)) / RATES_PER_MIN[compartment - 1]!;
  const exact = isPastOnArrival ? 0 : stay.arrivalMin + longerMin;
  return {
    ...shared,
    steps: [
      oxygenStep(asked),
      compartmentStep(compartment, 'Compartment that meets its limit first'),
      { label: 'Its tension before the dive', value: bar(asked.entry.tensionsBefore[compartment - 1]!) },
      { label: 'Its tension on arrival at the level, p', value: bar(tensionBar) },
      {
        label: `Tolerated on surfacing, P0 + ${high} (a + P0/b − P0)`,
        value: bar(toleratedBar(compartment - 1, surfaceBar, high)),
      },
      { label: 'Tension from which a direct ascent just meets that, L', value: bar(limitBar) },
      inspired,
      { label: named.arrival, value: minutes(stay.arrivalMin) },
      isPastOnArrival
        ? { label: 'p is above L already', value: 'no time is left' }
        : { label: 'Time at the level from p to L', value: minutes(longerMin) },
    ],
    result: minutesOut(exact),
    exact,
  };
}

/** The leading compartment's share of its limit. Source: named in the workings. */
export const leadingWorkings: Work = ({ entry, trip }) => {
  const { surfaceBar } = surroundingsAt(trip, entry.dive).column;
  const { high } = entry.diver.gradient;
  const index = entry.leading.compartment - 1;
  const tensionBar = entry.after.tensions[index]!;
  const restBar = AIR_N2 * inspiredBar(surfaceBar);
  const limitBar = toleratedBar(index, surfaceBar, high);
  const exact = (tensionBar - restBar) / (limitBar - restBar);
  return {
    title: 'Nitrogen carried on surfacing, share of the limit',
    formula: '(tension − rest) / (tolerated at the surface − rest), the largest of the 16 compartments',
    steps: [
      compartmentStep(entry.leading.compartment, 'Leading compartment'),
      { label: 'Its tension on surfacing', value: bar(tensionBar) },
      { label: 'At rest, 0.79 (P0 − 0.0627)', value: bar(restBar) },
      { label: `Tolerated at the surface, P0 + ${high} (a + P0/b − P0)`, value: bar(limitBar) },
    ],
    result: percent(exact),
    exact,
    source: `${MODEL}; the share, 0 at rest and 1 at the limit, is this project’s`,
  };
};
