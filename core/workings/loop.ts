/** How figures of a dive on a loop come about. */
import { setpointBar } from '../breathing';
import type { Entry, LoopFigures } from '../ledger/ledger-types';
import { cnsFraction } from '../oxygen/cns';
import { esot } from '../oxygen/esot';
import { otu } from '../oxygen/otu';
import { loopOxygen } from '../ledger/breathed-oxygen';
import { bar, digits, metres, minutes, minutesOut, percent } from './digits';
import type { FigureId, Workings, WorkingsStep } from './types';

const SOURCE =
  'A. A. Buehlmann, Tauchmedizin, with a setpoint as cells read it in moist gas; tolerance of the setpoint by common practice';

type OnLoop = Omit<Workings, 'figure'>;

function setpointSteps({ breathing }: LoopFigures): readonly WorkingsStep[] {
  const { lowBar, highBar, switchM, toleranceBar } = breathing;
  return [
    { label: `Setpoint above ${metres(switchM)}`, value: bar(lowBar) },
    { label: `Setpoint at ${metres(switchM)} and below`, value: bar(highBar) },
    {
      label: 'Tolerance: nitrogen by the setpoint less it, the clocks by it and more',
      value: bar(toleranceBar),
    },
  ];
}

function po2Working(entry: Entry, loop: LoopFigures): OnLoop {
  const { breathing } = loop;
  return {
    title: 'PO2 on the loop',
    formula: 'PO2 = max(min(setpoint, P − 0.0627), oxygen of the diluent × (P − 0.0627))',
    steps: [
      ...setpointSteps(loop),
      { label: `Setpoint at ${metres(entry.depthM)}`, value: bar(setpointBar(breathing, entry.depthM)) },
      { label: 'Oxygen of the diluent', value: percent(breathing.diluentO2) },
    ],
    result: bar(entry.po2Bar!),
    exact: entry.po2Bar,
    source: SOURCE,
  };
}

function noStopWorking(entry: Entry, loop: LoopFigures): OnLoop {
  return {
    title: 'No-stop limit on the loop',
    formula:
      't = ln(1 + (L − p) / (I − L)) / k, nitrogen inspired I = P − 0.0627 − (setpoint − tolerance), never below 0',
    steps: setpointSteps(loop),
    result: entry.noStopMin === null ? 'no limit' : minutesOut(entry.noStopMin),
    exact: entry.noStopMin,
    source: SOURCE,
  };
}

/** The clocks: each by the loop's PO2, where those of open circuit take oxygen times ambient pressure. */
function clockWorking(figure: FigureId, entry: Entry, loop: LoopFigures): OnLoop | null {
  const { legs, o2 } = loopOxygen(entry.legs, loop.breathing);
  const steps = setpointSteps(loop);
  const formula = 'the clock of open circuit on pure oxygen at PO2 = min(setpoint + tolerance, P − 0.0627)';
  switch (figure) {
    case 'cns.after': {
      const own = cnsFraction(legs, o2, 'single');
      return {
        title: 'CNS clock after the dive',
        formula,
        steps: [
          ...steps,
          { label: 'Before the dive', value: percent(entry.cns.before ?? 0) },
          { label: 'Taken by the dive', value: own === null ? 'not known above 1.6 bar' : percent(own) },
        ],
        result: entry.cns.after === null ? 'none' : percent(entry.cns.after),
        exact: own === null || entry.cns.before === null ? null : entry.cns.before + own,
        source: 'NOAA Diving Manual, oxygen partial pressure limits for normal exposure',
      };
    }
    case 'otu.dive': {
      const units = otu(legs, o2);
      return {
        title: 'OTU of the dive',
        formula,
        steps,
        result: digits(units, 1),
        exact: units,
        source: 'J. M. Clark, C. J. Lambertsen (1971)',
      };
    }
    case 'esot.dive': {
      const min = esot(legs, o2);
      return {
        title: 'ESOT of the dive',
        formula,
        steps,
        result: minutes(min),
        exact: min,
        source: 'J. Risberg, P.-J. van Ooij (2022)',
      };
    }
    default:
      return null;
  }
}

/**
 * How a figure of a dive on a loop comes about; of what has no workings of its own here, by what it is reckoned.
 * @param entry of a dive on a loop
 * Source: CONVENTIONS, "Constant PO2".
 */
export function loopWorkings(figure: FigureId, entry: Entry, loop: LoopFigures): OnLoop {
  if (figure === 'po2Bar') return po2Working(entry, loop);
  if (figure === 'noStopMin') return noStopWorking(entry, loop);
  return (
    clockWorking(figure, entry, loop) ?? {
      title: 'On a loop',
      formula: 'as on open circuit, with what the loop holds in place of the mix',
      steps: setpointSteps(loop),
      result: 'not worked out here on a loop',
      exact: null,
      source: SOURCE,
    }
  );
}
