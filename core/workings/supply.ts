import { ascentLegs, safetyStopOf, type Leg } from '../profile';
import { contentL, gasUsedL, minimumGas, pressureBar } from '../supply';
import { surroundingsOf } from '../ledger/dive-plan';
import { USUAL_TURN_SHARE } from '../ledger/entry';
import type { SafetyStop } from '../document/types';
import { ambientBar } from '../water';
import { bar, digits, legSteps, litres, litresOut } from './digits';
import type { Asked, Work, WorkingsStep } from './types';

const CONSUMPTION = 'U.S. Navy Diving Manual, ch. 7: consumption in proportion to pressure';
const PRACTICE = 'common practice; no published standard for minimum gas was found';

function law({ trip }: Asked): string {
  return trip.settings.gasLaw === 'ideal' ? 'ideal: volume × pressure' : 'with compressibility at 20 °C';
}

function rateStep({ entry }: Asked): WorkingsStep {
  return { label: 'Surface gas rate', value: `${digits(entry.diver.surfaceRateLpm, 1)} L/min` };
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

/** Gas used. Source: named in the workings. */
export const usedWorkings: Work = (asked) => {
  const { legs, diver } = asked.entry;
  const exact = legs.reduce((sum, leg) => sum + gasUsedL([leg], diver.surfaceRateLpm), 0);
  const used = legSteps(legs, (leg) => `${meanText(leg)}: ${litres(gasUsedL([leg], diver.surfaceRateLpm))}`);
  return {
    title: 'Gas used',
    formula: 'the sum over the legs of rate × mean ambient pressure × minutes',
    steps: [rateStep(asked), ...used],
    result: litresOut(exact),
    exact,
    source: CONSUMPTION,
  };
};

/** Pressure left at the surface. Source: named in the workings. */
export const endWorkings: Work = (asked) => {
  const { entry, trip, o2 } = asked;
  const usedL = gasUsedL(entry.legs, entry.diver.surfaceRateLpm);
  const leftL = filledL(asked) - usedL;
  const exact = pressureBar(entry.diver.cylinder.waterL, leftL, o2, trip.settings.gasLaw);
  return {
    title: 'Pressure left at the surface',
    formula: 'pressure of (content − used) in the cylinder',
    steps: [
      cylinderStep(asked),
      { label: 'Used', value: litres(usedL) },
      { label: 'Left', value: litres(leftL) },
    ],
    result: exact === null ? 'none: the gas does not last' : `${digits(exact, 1)} bar`,
    exact,
    source: `${CONSUMPTION}; ${law(asked)}`,
  };
};

/** The stops of the emergency ascent: the required ones, else the safety stop. */
function emergencyStops({ entry }: Asked): readonly SafetyStop[] {
  if (entry.stops !== null && entry.stops.length > 0) return entry.stops;
  const { safetyStop } = entry.dive;
  const stop = safetyStopOf({
    depthM: entry.depthM,
    bottomMin: entry.bottomMin,
    ...(safetyStop === undefined ? {} : { safetyStop }),
  });
  return stop === null ? [] : [stop];
}

function minimumOf(asked: Asked) {
  const { entry, trip, o2 } = asked;
  const { waterL, reserveBar } = entry.diver.cylinder;
  const around = surroundingsOf(trip);
  const stops = emergencyStops(asked);
  const supply = {
    surfaceRateLpm: entry.diver.surfaceRateLpm,
    waterL,
    reserveBar,
    o2,
    law: trip.settings.gasLaw,
  };
  return {
    ...minimumGas(supply, entry.depthM, null, around, stops),
    legs: ascentLegs(entry.depthM, stops, around),
  };
}

/** Minimum gas. Source: named in the workings. */
export const minimumWorkings: Work = (asked) => {
  const { entry, trip } = asked;
  const found = minimumOf(asked);
  const rateLpm = 4 * entry.diver.surfaceRateLpm;
  const deepestBar = ambientBar(entry.depthM, surroundingsOf(trip).column);
  return {
    title: 'Minimum gas: what brings two divers from the deepest point to the surface',
    formula: '2 divers × 2 × rate × (1 min at depth + ascent and stops), and never below the reserve',
    steps: [
      { label: 'Two divers at twice the surface rate', value: `${digits(rateLpm, 1)} L/min` },
      {
        label: `One minute at ${digits(entry.depthM, 1)} m, ${bar(deepestBar)}`,
        value: litres(rateLpm * deepestBar),
      },
      ...legSteps(found.legs, (leg) => `${meanText(leg)}: ${litres(gasUsedL([leg], rateLpm))}`),
      { label: 'Together', value: litres(found.litres) },
      { label: 'Reserve of the diver', value: `${entry.diver.cylinder.reserveBar} bar` },
      { label: 'Cylinder', value: `${entry.diver.cylinder.waterL} L, ${law(asked)}` },
    ],
    result: `${digits(found.bar, 1)} bar`,
    exact: found.bar,
    source: PRACTICE,
  };
};

/** Turn pressure. Source: named in the workings. */
export const turnWorkings: Work = (asked) => {
  const { fillBar } = asked.entry.diver.cylinder;
  const minimumBar = minimumOf(asked).bar;
  const share = asked.entry.dive.turnShare ?? USUAL_TURN_SHARE;
  const exact = fillBar < minimumBar ? null : fillBar - (fillBar - minimumBar) * share;
  return {
    title: 'Turn pressure',
    formula: 'fill − (fill − minimum gas) × share',
    steps: [
      { label: 'Fill', value: `${fillBar} bar` },
      { label: 'Minimum gas', value: `${digits(minimumBar, 1)} bar` },
      { label: 'Share of the gas above it for the way out', value: percentShare(share) },
    ],
    result: exact === null ? 'none: the fill does not reach the minimum gas' : `${digits(exact, 1)} bar`,
    exact,
    source: PRACTICE,
  };
};

function percentShare(share: number): string {
  return `${digits(share * 100, 0)} %`;
}
