import { cnsMinutesLeft } from '../oxygen/cns';
import { effectiveDive } from '../document/as-dived';
import type { RoomLimit } from '../ledger/ledger-types';
import { deeper, entryWith, roomOf, spareAsPlannedL } from '../ledger/room';
import { digits, litres, metres, minutesOut, percent } from './digits';
import type { Asked, Work, WorkingsStep } from './types';

const SOURCE = 'each limit as in its own workings; that the first one to be met decides is this project’s';

const LIMIT_NAMES: Readonly<Record<RoomLimit, string>> = {
  'no-stop': 'the no-stop limit',
  mod: 'the MOD',
  po2: 'a PO2 of 1.6 bar, above which no limit exists',
  cns: 'the CNS clock',
  'cns-day': 'the oxygen limit of any 24 hours',
  gas: 'the minimum gas or the reserve',
  'diver-depth': 'the diver’s own depth limit',
  interval: 'the dive before',
};

interface Candidate {
  readonly label: string;
  readonly amount: number;
}

function atMost(candidates: readonly Candidate[]): number | null {
  const least = Math.min(...candidates.map(({ amount }) => amount));
  return Number.isFinite(least) ? least : null;
}

/** Minutes longer. Source: named in the workings. */
export const roomMinWorkings: Work = (asked) => {
  const { entry, trip, o2 } = asked;
  const room = roomOf(trip, entry);
  const lastBar = entry.legs.findLast((leg) => leg.kind === 'level')!.toBar;
  const po2 = o2 * lastBar;
  const cnsLeftMin = entry.cns.after === null ? null : cnsMinutesLeft(entry.cns.after, po2, 'single');
  const spare = spareAsPlannedL(entry, trip);
  const candidates: Candidate[] = [];
  if (entry.noStopMin !== null) {
    candidates.push({
      label: `To the no-stop limit, ${digits(entry.noStopMin, 2)} − ${digits(entry.bottomMin, 2)}`,
      amount: entry.noStopMin - entry.bottomMin,
    });
  }
  if (cnsLeftMin !== null && cnsLeftMin !== Infinity) {
    candidates.push({
      label: `To the CNS clock, (1 − ${percent(entry.cns.after!)}) × the limit at ${digits(po2, 3)} bar`,
      amount: cnsLeftMin,
    });
  }
  candidates.push({
    label: `To the gas, ${litres(spare)} / (${digits(entry.diver.surfaceRateLpm, 1)} L/min × ${digits(lastBar, 3)} bar)`,
    amount: spare / (entry.diver.surfaceRateLpm * lastBar),
  });
  if (room.minLimit === 'cns-day' && room.min !== null) {
    candidates.push({ label: 'To the oxygen limit of any 24 hours, found to 0.01 min', amount: room.min });
  }
  // Above 1.6 bar the CNS clock has no figure, so no room can be told from the rest.
  const isPastLevel = entry.levelsPastLimitM.length > 0;
  const exact = room.minLimit === 'po2' || isPastLevel ? null : atMost(candidates);
  return {
    title: 'Room: minutes longer',
    formula: 'the least of the minutes to each limit, the last level lengthened',
    steps: [
      ...candidates.map(({ label, amount }) => ({ label, value: minutesOut(amount) })),
      ...entry.levelsPastLimitM.map((m) => ({
        label: `Level at ${metres(m)}`,
        value: 'past its no-stop limit',
      })),
    ],
    result:
      exact === null
        ? `none to tell: ${LIMIT_NAMES[room.minLimit ?? 'po2']}`
        : `${minutesOut(exact)}, to ${LIMIT_NAMES[room.minLimit!]}`,
    exact,
    source: SOURCE,
  };
};

/** The dive at its deepest allowed depth, to show that the limit is met there. */
function checkedAt({ entry, trip }: Asked, byM: number): readonly WorkingsStep[] {
  const shape = deeper(effectiveDive(entry.dive, entry.diver).shape, byM);
  const there = entryWith(trip, entry, shape);
  const steps: WorkingsStep[] = [];
  for (const [index, { depthM, min, noStopMin }] of there.levels.entries()) {
    if (noStopMin === null) continue;
    const level = there.levels.length < 2 ? '' : ` of level ${index + 1}`;
    steps.push({
      label: `No-stop limit${level} at ${metres(depthM)}, for ${minutesOut(min)}`,
      value: minutesOut(noStopMin),
    });
  }
  if (there.cns.after !== null) steps.push({ label: 'CNS clock after it', value: percent(there.cns.after) });
  if (there.gas.endBar !== null) {
    steps.push({ label: 'Pressure left at the surface', value: `${digits(there.gas.endBar, 1)} bar` });
  }
  return steps;
}

/** Metres deeper. Source: named in the workings. */
export const roomMWorkings: Work = (asked) => {
  const { entry, trip } = asked;
  const { m, mLimit } = roomOf(trip, entry);
  const toMod = entry.modM! - entry.depthM;
  const toDiver = entry.diver.maxDepthM - entry.depthM;
  const candidates: Candidate[] = [
    { label: `To the MOD, ${digits(entry.modM!, 2)} − ${digits(entry.depthM, 2)}`, amount: toMod },
    {
      label: `To the diver’s limit, ${digits(entry.diver.maxDepthM, 2)} − ${digits(entry.depthM, 2)}`,
      amount: toDiver,
    },
  ];
  const isByFormula = mLimit === 'mod' || mLimit === 'diver-depth';
  const steps = candidates.map(({ label, amount }) => ({ label, value: metres(amount) }));
  const shared = {
    title: 'Room: metres deeper, for the same bottom time',
    formula: 'the least of the metres to each limit, every level shifted alike',
    source: SOURCE,
  };
  if (m === null) {
    const result =
      mLimit === null
        ? 'no figure: at the depths such a dive can have, no limit is met'
        : mLimit === 'po2'
          ? `no figure: ${LIMIT_NAMES.po2}`
          : `no figure: past ${LIMIT_NAMES[mLimit]} at every depth such a dive can have`;
    return { ...shared, steps, result, exact: null };
  }
  const exact = mLimit === 'mod' ? toMod : mLimit === 'diver-depth' ? toDiver : m;
  const found = isByFormula
    ? []
    : [{ label: `To ${LIMIT_NAMES[mLimit!]}, found to 0.01 m`, value: metres(m) }, ...checkedAt(asked, m)];
  return {
    ...shared,
    steps: [...steps, ...found],
    result: `${metres(exact)}, to ${LIMIT_NAMES[mLimit!]}`,
    exact,
  };
};
