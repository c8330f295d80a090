/** How figures of a dive on a loop come about. */
import { setpointBar } from '../breathing';
import type { Entry, LoopFigures, RoomLimit } from '../ledger/ledger-types';
import { loopSupplies } from '../ledger/loop-room';
import { roomMinutes } from '../ledger/room';
import { loopSettingsOf } from '../document/loops';
import { gasDensityGL } from '../gas';
import { loopOxygen } from '../ledger/breathed-oxygen';
import { runtimeMin } from '../profile';
import { INSPIRED } from './nitrogen';
import { bar, digits, litres, litresOut, metres, minutes, minutesOut, percent } from './digits';
import { oxygenStep } from './mix';
import { LIMIT_NAMES, ROOM_SOURCE } from './room';
import type { Asked, FigureId, Workings, WorkingsStep } from './types';

const SOURCE =
  'A. A. Bühlmann, Tauchmedizin, with a setpoint as cells read it in moist gas; tolerance of the setpoint by common practice';

const PRACTICE = 'common practice of diving on loops';

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

/** What does not hang on what is breathed, or takes what a loop holds as a mix does: the workings of open circuit. */
export const ALIKE: ReadonlySet<FigureId> = new Set<FigureId>([
  'leading',
  'interval',
  'cns.before',
  'cns.day',
  'flyAfter',
  'climbs',
  'clearAt',
  'secondOpinion',
  'room.m',
]);

/** Those of nitrogen, whose legs a loop breathes as pure nitrogen. */
const NITROGEN: ReadonlySet<FigureId> = new Set<FigureId>(['noStopMin', 'stops', 'earlierMin']);

/** Whether a figure is worked out as on open circuit, of pure nitrogen. */
export function isOfNitrogen(figure: FigureId): boolean {
  return NITROGEN.has(figure) || figure.startsWith('levels.');
}

/** The workings of a limit of nitrogen on open circuit, said of a loop. @param of worked out without oxygen */
export function nitrogenOnLoop(of: OnLoop, asked: Asked, loop: LoopFigures): OnLoop {
  const { label: ofMix } = oxygenStep(asked);
  const onLoop = 'Inspired nitrogen at the level, I = P − 0.0627 − (setpoint − tolerance), never below 0';
  return {
    ...of,
    steps: [
      ...setpointSteps(loop),
      ...of.steps
        .filter(({ label }) => label !== ofMix)
        .map((step) => (step.label === INSPIRED ? { ...step, label: onLoop } : step)),
    ],
  };
}

/** Those whose legs a loop breathes as pure oxygen. */
export const CLOCKS: ReadonlySet<FigureId> = new Set<FigureId>([
  'cns.after',
  'otu.dive',
  'otu.day',
  'otu.trip',
  'esot.dive',
  'esot.day',
]);

/** A dive on a loop as its oxygen clocks see it: pure oxygen at an ambient pressure of its PO2. */
export function asked100(asked: Omit<Asked, 'o2'>, loop: LoopFigures): Asked {
  const { legs, o2 } = loopOxygen(asked.entry.legs, loop.breathing);
  return { ...asked, entry: { ...asked.entry, legs }, o2 };
}

/** The workings of an oxygen clock on open circuit, said of a loop. @param of worked out of `asked100` */
export function clockOnLoop(of: OnLoop, asked: Asked, loop: LoopFigures): OnLoop {
  const { label: ofMix } = oxygenStep(asked);
  return {
    ...of,
    formula: `${of.formula}; on a loop PO2 = max(min(setpoint + tolerance, P − 0.0627), oxygen of the diluent × (P − 0.0627))`,
    steps: [...setpointSteps(loop), ...of.steps.filter(({ label }) => label !== ofMix)],
  };
}

function scrubberWorking({ entry }: Omit<Asked, 'o2'>, { scrubber }: LoopFigures): OnLoop {
  const ownMin = runtimeMin(entry.legs);
  const exact = scrubber.leftMin;
  return {
    title: 'Scrubber left at the surface',
    formula: 'what a fresh one lasts − its minutes on the dives since it was packed − those of this dive',
    steps: [
      { label: 'A fresh scrubber lasts', value: minutes(scrubber.usedMin + exact) },
      { label: 'On the dives before, since it was packed', value: minutes(scrubber.usedMin - ownMin) },
      { label: 'This dive, surface to surface', value: minutes(ownMin) },
    ],
    result: minutesOut(exact),
    exact,
    source: PRACTICE,
  };
}

function usedWorking({ entry, trip }: Omit<Asked, 'o2'>, { oxygen, diluentGas }: LoopFigures): OnLoop {
  const { oxygenLpm, volumeL } = loopSettingsOf(trip.settings);
  return {
    title: 'Gas that the loop takes',
    formula:
      'oxygen = rate × minutes, whatever the depth; diluent = volume of the loop × what each descent adds in bar',
    steps: [
      { label: 'Oxygen used up a minute', value: `${digits(oxygenLpm, 2)} L` },
      { label: 'This dive, surface to surface', value: minutes(runtimeMin(entry.legs)) },
      { label: 'Oxygen', value: litres(oxygen.usedL) },
      { label: 'Volume of the loop', value: `${digits(volumeL, 2)} L` },
      { label: 'All descents together', value: bar(diluentGas.usedL / volumeL) },
      { label: 'Diluent', value: litres(diluentGas.usedL) },
    ],
    result: `${litresOut(oxygen.usedL)} of oxygen, ${litresOut(diluentGas.usedL)} of diluent`,
    exact: null,
    source: PRACTICE,
  };
}

function densityWorking({ entry }: Omit<Asked, 'o2'>, loop: LoopFigures): OnLoop {
  const deepestBar = Math.max(...entry.legs.map(({ toBar }) => toBar));
  const o2 = Math.min(1, entry.po2Bar! / deepestBar);
  const atOneBarGL = gasDensityGL(o2, 1);
  const exact = atOneBarGL * deepestBar;
  return {
    title: 'Density of the gas in the loop at the deepest point',
    formula: 'density at 1 bar × P, of a mix whose oxygen is PO2 / P',
    steps: [
      ...setpointSteps(loop),
      { label: 'PO2', value: bar(entry.po2Bar!) },
      { label: 'Pressure at the deepest point, P', value: bar(deepestBar) },
      { label: 'Density of that mix at 1 bar', value: `${digits(atOneBarGL, 4)} g/L` },
    ],
    result: `${digits(exact, 3)} g/L`,
    exact,
    source: 'Ideal gas law',
  };
}

function roomWorking({ entry, trip }: Omit<Asked, 'o2'>): OnLoop {
  const { min, minLimit } = roomMinutes(trip, entry);
  const candidates = [
    ...(entry.noStopMin === null
      ? []
      : [
          {
            limit: 'no-stop' as RoomLimit,
            how: `, ${digits(entry.noStopMin, 2)} − ${digits(entry.bottomMin, 2)}`,
            amount: entry.noStopMin - entry.bottomMin,
          },
        ]),
    ...loopSupplies(trip, entry).map((each) => ({ ...each, how: '' })),
  ];
  const isFound = minLimit !== null && candidates.some(({ limit }) => limit === minLimit);
  if (min !== null && minLimit !== null && !isFound) {
    candidates.push({ limit: minLimit, how: ', found by trying', amount: min });
  }
  const shared = {
    title: 'Room: minutes longer',
    formula:
      'the least of the minutes to each limit, the last level lengthened; negative where it must be shorter',
    steps: candidates.map(({ limit, how, amount }) => ({
      label: `To ${LIMIT_NAMES[limit]}${how}`,
      value: minutesOut(amount),
    })),
    source: ROOM_SOURCE,
  };
  if (min === null || minLimit === null) {
    const why = minLimit === null ? 'no limit is in reach' : `past ${LIMIT_NAMES[minLimit]}`;
    return { ...shared, result: `none to tell: ${why}`, exact: null };
  }
  const exact = Math.min(...candidates.map(({ amount }) => amount));
  return { ...shared, result: `${minutesOut(exact)}, to ${LIMIT_NAMES[minLimit]}`, exact };
}

function modWorking({ diluentModM, bailOutModM, breathing }: LoopFigures): OnLoop {
  const least = Math.min(diluentModM, bailOutModM);
  return {
    title: 'MOD on a loop: of its diluent and of the leanest bail-out',
    formula: 'the lesser of the depths at which oxygen × P is the working PO2',
    steps: [
      { label: 'Oxygen of the diluent', value: percent(breathing.diluentO2) },
      { label: 'MOD of the diluent', value: metres(diluentModM) },
      { label: 'MOD of the leanest bail-out', value: metres(bailOutModM) },
    ],
    result: metres(least),
    // No mix of the dive has it.
    exact: null,
    source: PRACTICE,
  };
}

/**
 * How a figure of a dive on a loop comes about; of what there is on open circuit alone, that there is none.
 * @param asked of a dive on a loop
 * Source: CONVENTIONS, "Constant PO2"; CONVENTIONS, "On a loop".
 */
export function loopWorkings(figure: FigureId, asked: Omit<Asked, 'o2'>, loop: LoopFigures): OnLoop {
  const { entry } = asked;
  switch (figure) {
    case 'po2Bar':
      return po2Working(entry, loop);
    case 'room.min':
      return roomWorking(asked);
    case 'endBar':
      return scrubberWorking(asked, loop);
    case 'usedL':
      return usedWorking(asked, loop);
    case 'gasDensityGL':
      return densityWorking(asked, loop);
    case 'modM':
      return modWorking(loop);
    default:
      return {
        title: 'On a loop',
        formula: 'none: it belongs to one mix breathed from one cylinder',
        steps: setpointSteps(loop),
        result: 'there is none on a loop',
        exact: null,
        source: SOURCE,
      };
  }
}
