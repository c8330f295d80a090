import { AIR_O2, DENSITY_ADVISED_GL, DENSITY_LIMIT_GL, gasDensityGL } from '../gas';
import { ambientBar } from '../water';
import { bar, digits, metres, percent } from './digits';
import type { Asked, Work, WorkingsStep } from './types';
import { surroundingsAt } from '../document/waters';

/** Oxygen, and whether it was analysed: the first number of most figures. */
export function oxygenStep({ entry, o2 }: Asked): WorkingsStep {
  return { label: entry.isAnalysed ? 'Oxygen, as analysed' : 'Oxygen, by the label', value: percent(o2) };
}

/** Water and air above it. */
function columnSteps({ entry, trip }: Asked): readonly WorkingsStep[] {
  const { surfaceBar, barPerM } = surroundingsAt(trip, entry.dive).column;
  return [
    { label: 'Pressure at the surface, P0', value: bar(surfaceBar) },
    { label: 'Pressure of a metre of this water, w', value: `${digits(barPerM, 6)} bar` },
  ];
}

function deepestBar({ entry, trip }: Asked): number {
  return ambientBar(entry.depthM, surroundingsAt(trip, entry.dive).column);
}

function deepestStep(asked: Asked): WorkingsStep {
  return {
    label: `Ambient pressure at ${metres(asked.entry.depthM)}, P = P0 + w depth`,
    value: bar(deepestBar(asked)),
  };
}

/** MOD. Source: named in the workings. */
export const modWorkings: Work = (asked) => {
  const { surfaceBar, barPerM } = surroundingsAt(asked.trip, asked.entry.dive).column;
  const { working } = asked.entry.diver.po2;
  const exact = (working / asked.o2 - surfaceBar) / barPerM;
  return {
    title: 'Maximum operating depth (MOD)',
    formula: '(PO2 limit / oxygen − P0) / w',
    steps: [
      oxygenStep(asked),
      { label: 'Working PO2 limit', value: `${working} bar` },
      ...columnSteps(asked),
    ],
    result: metres(exact),
    exact,
    source:
      'NOAA Diving Manual, 4th ed. (2001), ch. 15; working PO2 1.4 after the NOAA Diving Program (2015)',
  };
};

/** PO2 at the deepest point. Source: named in the workings. */
export const po2Workings: Work = (asked) => {
  const exact = asked.o2 * deepestBar(asked);
  return {
    title: 'Oxygen pressure (PO2) at the deepest point',
    formula: 'oxygen × P',
    steps: [oxygenStep(asked), ...columnSteps(asked), deepestStep(asked)],
    result: bar(exact),
    exact,
    source: 'Dalton’s law',
  };
};

/** EAD. Source: named in the workings. */
export const eadWorkings: Work = (asked) => {
  const { surfaceBar, barPerM } = surroundingsAt(asked.trip, asked.entry.dive).column;
  const n2 = 1 - asked.o2;
  const exact = ((deepestBar(asked) * n2) / (1 - AIR_O2) - surfaceBar) / barPerM;
  return {
    title: 'Equivalent air depth (EAD)',
    formula: '(P × nitrogen / 0.79 − P0) / w',
    steps: [
      { label: 'Nitrogen, the rest of the mix', value: percent(n2) },
      ...columnSteps(asked),
      deepestStep(asked),
    ],
    result: metres(exact),
    exact,
    source: 'U.S. Navy Diving Manual Revision 7 (2016), ch. 10; NOAA Diving Manual, 4th ed. (2001), ch. 15',
  };
};

/** Density of the breathed gas. Source: named in the workings. */
export const densityWorkings: Work = (asked) => {
  const pressureBar = deepestBar(asked);
  const atOneBarGL = gasDensityGL(asked.o2, 1);
  const exact = atOneBarGL * pressureBar;
  return {
    title: 'Density of the breathed gas at the deepest point',
    formula: 'density at 1 bar × P, at 0 °C as the published marks have it',
    steps: [
      oxygenStep(asked),
      { label: 'Density of the mix at 1 bar', value: `${digits(atOneBarGL, 4)} g/L` },
      deepestStep(asked),
      { label: 'Advised below, not above', value: `${DENSITY_ADVISED_GL} and ${DENSITY_LIMIT_GL} g/L` },
    ],
    result: `${digits(exact, 3)} g/L`,
    exact,
    source:
      'Ideal gas law; marks by G. Anthony, S. J. Mitchell, "Respiratory physiology of rebreather diving" (2016)',
  };
};
