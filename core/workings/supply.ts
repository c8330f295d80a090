import { idealBar } from '../compressibility';
import { surroundingsAt } from '../document/waters';
import { ascentLegs, type Leg } from '../profile';
import { contentL, gasUsedL, pressureBar, type MinimumGas } from '../supply';
import { planOf } from '../ledger/dive-plan';
import { minimumGasOf, reckonedOf, USUAL_TURN_SHARE } from '../ledger/gas-outcome';
import { ambientBar, SEA_LEVEL_BAR } from '../water';
import { bar, digits, legSteps, litres, litresOut } from './digits';
import type { Asked, Work, WorkingsStep } from './types';

const CONSUMPTION = 'U.S. Navy Diving Manual, ch. 7: consumption in proportion to pressure';
const PRACTICE = 'common practice; no published standard for minimum gas was found';

function law({ trip }: Asked): string {
  return trip.settings.gasLaw === 'ideal' ? 'ideal: volume × pressure' : 'with compressibility at 20 °C';
}

function rateStep({ entry }: Asked): WorkingsStep {
  return { label: 'Surface gas rate (RMV)', value: `${digits(entry.diver.surfaceRateLpm, 1)} L/min` };
}

/** How real the gas is at a pressure, at least 0: Z = p V / (n R T). */
function zOf({ o2 }: Asked, absoluteBar: number): number {
  return absoluteBar / idealBar(o2, absoluteBar);
}

/** What turns litres into a pressure by hand where the gas is real; nothing where it is ideal. */
function realSteps(
  asked: Asked,
  gauges: readonly (readonly [at: string, gaugeBar: number | null])[],
): readonly WorkingsStep[] {
  if (asked.trip.settings.gasLaw === 'ideal') return [];
  const z = (label: string, absoluteBar: number): WorkingsStep => ({
    label: `Z ${label}, ${digits(absoluteBar, 3)} bar absolute`,
    value: digits(zOf(asked, absoluteBar), 5),
  });
  return [
    z('where litres are measured', 1),
    z('where the gauge reads 0', SEA_LEVEL_BAR),
    ...gauges.flatMap(([at, gaugeBar]) => (gaugeBar === null ? [] : [z(at, gaugeBar + SEA_LEVEL_BAR)])),
  ];
}

/** The formula of what a cylinder holds, where the gas is real. */
const REAL = 'litres = volume × (p / Z(p) − P0 / Z(P0)) × Z(1 bar), p absolute, P0 where the gauge reads 0';

function withReal(formula: string, { trip }: Asked): string {
  return trip.settings.gasLaw === 'ideal' ? formula : `${formula}; ${REAL}`;
}

function cylinderStep(asked: Asked): WorkingsStep {
  const { waterL, fillBar } = asked.entry.diver.cylinder;
  return { label: `Content of ${waterL} L at ${fillBar} bar, ${law(asked)}`, value: litres(filledL(asked)) };
}

function filledL({ entry, trip, o2 }: Asked): number {
  const { waterL, fillBar } = entry.diver.cylinder;
  return contentL(waterL, fillBar, o2, trip.settings.gasLaw);
}

function meanText({ fromBar, toBar }: Leg): string {
  return `at ${digits((fromBar + toBar) / 2, 3)} bar on average`;
}

/** Said where a dive has stops to make: what is reckoned may be neither shown as made nor as planned. */
const MORE_COUNTS = '; of required stops and safety stop, what takes more gas counts';
const NO_WAY_UP = 'none: no ascent with stops on this gas was found';

function moreCounts({ entry }: Asked): string {
  return entry.isPastLimit ? MORE_COUNTS : '';
}

/** The legs the gas is reckoned with. */
function legsOfGas({ entry, trip }: Asked): readonly Leg[] {
  return reckonedOf(planOf(trip, entry), entry).legs;
}

/** Litres used; null where no way up on this gas was found. */
function usedOf(asked: Asked): number | null {
  const rateLpm = asked.entry.diver.surfaceRateLpm;
  if (asked.entry.stops === null) return null;
  return legsOfGas(asked).reduce((sum, leg) => sum + gasUsedL([leg], rateLpm), 0);
}

/** Litres used by the pressure read at the end; null where none was. */
function readOf(asked: Asked): number | null {
  const { entry, trip, o2 } = asked;
  if (!entry.gas.isEndRead) return null;
  return filledL(asked) - contentL(entry.diver.cylinder.waterL, entry.gas.endBar!, o2, trip.settings.gasLaw);
}

const READ = 'pressure read at the surface after the dive';

function readSteps(asked: Asked, readL: number): readonly WorkingsStep[] {
  const { gas } = asked.entry;
  return [
    cylinderStep(asked),
    { label: 'Left, as read', value: `${digits(gas.endBar!, 1)} bar` },
    { label: 'Used', value: litres(readL) },
    ...realSteps(asked, [
      ['at the fill', asked.entry.diver.cylinder.fillBar],
      ['at what was read', gas.endBar],
    ]),
  ];
}

/** Gas used. Source: named in the workings. */
export const usedWorkings: Work = (asked) => {
  const { diver } = asked.entry;
  const readL = readOf(asked);
  if (readL !== null) {
    return {
      title: 'Gas used',
      formula: withReal('content at the start − content at the pressure read', asked),
      steps: readSteps(asked, readL),
      result: litresOut(readL),
      exact: readL,
      source: `${READ}; ${law(asked)}`,
    };
  }
  const exact = usedOf(asked);
  const used = legSteps(
    legsOfGas(asked),
    (leg) => `${meanText(leg)}: ${litres(gasUsedL([leg], diver.surfaceRateLpm))}`,
  );
  return {
    title: 'Gas used',
    formula: `the sum over the legs of rate × mean ambient pressure × minutes${moreCounts(asked)}`,
    steps: [rateStep(asked), ...used],
    result: exact === null ? NO_WAY_UP : litresOut(exact),
    exact,
    source: CONSUMPTION,
  };
};

/** Pressure left at the surface. Source: named in the workings. */
export const endWorkings: Work = (asked) => {
  const { entry, trip, o2 } = asked;
  if (entry.gas.isEndRead) {
    const readBar = entry.gas.endBar!;
    return {
      title: 'Pressure left at the surface',
      formula: 'as read',
      steps: [],
      result: `${digits(readBar, 1)} bar`,
      exact: readBar,
      source: READ,
    };
  }
  const shared = {
    title: 'Pressure left at the surface',
    formula: withReal('pressure of (content − used) in the cylinder', asked),
    source: `${CONSUMPTION}; ${law(asked)}`,
  };
  const usedL = usedOf(asked);
  if (usedL === null) return { ...shared, steps: [cylinderStep(asked)], result: NO_WAY_UP, exact: null };
  const leftL = filledL(asked) - usedL;
  const exact = pressureBar(entry.diver.cylinder.waterL, leftL, o2, trip.settings.gasLaw);
  return {
    ...shared,
    steps: [
      cylinderStep(asked),
      { label: 'Used', value: litres(usedL) },
      { label: 'Left', value: litres(leftL) },
      ...realSteps(asked, [
        ['at the fill', entry.diver.cylinder.fillBar],
        ['at what is left', exact],
      ]),
    ],
    result: exact === null ? 'none: the gas does not last' : `${digits(exact, 1)} bar`,
    exact,
  };
};

function minimumOf({ entry, trip, o2 }: Asked): MinimumGas | null {
  const plan = planOf(trip, entry);
  const { stops } = reckonedOf(plan, entry);
  return minimumGasOf(plan, stops, entry.diver, o2, trip.settings.gasLaw);
}

/** Minimum gas. Source: named in the workings. */
export const minimumWorkings: Work = (asked) => {
  const { entry, trip, o2 } = asked;
  const around = surroundingsAt(trip, entry.dive);
  const found = minimumOf(asked);
  const rateLpm = 4 * entry.diver.surfaceRateLpm;
  const deepestBar = ambientBar(entry.depthM, around.column);
  const ascent = found === null ? [] : ascentLegs(entry.depthM, found.stops, around);
  const { waterL } = entry.diver.cylinder;
  const neededBar = found && pressureBar(waterL, found.litres, o2, trip.settings.gasLaw);
  return {
    title: 'Minimum gas: what brings two divers from the deepest point to the surface',
    formula: withReal(
      `2 divers × 2 × rate × (1 min at depth + ascent and stops), and never below the reserve${moreCounts(asked)}`,
      asked,
    ),
    steps: [
      { label: 'Two divers at twice the surface rate', value: `${digits(rateLpm, 1)} L/min` },
      {
        label: `One minute at ${digits(entry.depthM, 1)} m, ${bar(deepestBar)}`,
        value: litres(rateLpm * deepestBar),
      },
      ...legSteps(ascent, (leg) => `${meanText(leg)}: ${litres(gasUsedL([leg], rateLpm))}`),
      ...(found === null ? [] : [{ label: 'Together', value: litres(found.litres) }]),
      { label: 'Reserve of the diver', value: `${entry.diver.cylinder.reserveBar} bar` },
      { label: 'Cylinder', value: `${waterL} L, ${law(asked)}` },
      ...realSteps(asked, [['at what that takes', neededBar]]),
    ],
    result: found === null ? NO_WAY_UP : `${digits(found.bar, 1)} bar`,
    exact: found && found.bar,
    source: PRACTICE,
  };
};

/** Turn pressure. Source: named in the workings. */
export const turnWorkings: Work = (asked) => {
  const { fillBar } = asked.entry.diver.cylinder;
  const minimumBar = minimumOf(asked)?.bar ?? null;
  const share = asked.entry.dive.turnShare ?? USUAL_TURN_SHARE;
  const exact = minimumBar === null || fillBar < minimumBar ? null : fillBar - (fillBar - minimumBar) * share;
  const none = minimumBar === null ? NO_WAY_UP : 'none: the fill does not reach the minimum gas';
  return {
    title: 'Turn pressure',
    formula: 'fill − (fill − minimum gas) × share',
    steps: [
      { label: 'Fill', value: `${fillBar} bar` },
      ...(minimumBar === null ? [] : [{ label: 'Minimum gas', value: `${digits(minimumBar, 1)} bar` }]),
      { label: 'Share of the gas above it for the way out', value: percentShare(share) },
    ],
    result: exact === null ? none : `${digits(exact, 1)} bar`,
    exact,
    source: PRACTICE,
  };
};

function percentShare(share: number): string {
  return `${digits(share * 100, 0)} %`;
}
