import { cnsMinutesLeft } from '../oxygen/cns';
import { deeper, entryWith, shapeOf } from '../ledger/changed-dive';
import { planOf } from '../ledger/dive-plan';
import type { Entry, RoomLimit } from '../ledger/ledger-types';
import { askedDive, pastCns, passedDepth, spareAsPlannedL } from '../ledger/limits-kept';
import { roomMinutes, roomOf } from '../ledger/room';
import { digits, litres, metres, minutesOut, percent } from './digits';
import type { Asked, Work, WorkingsStep } from './types';

export const ROOM_SOURCE =
  'each limit as in its own workings; that the first one to be met decides is this project’s';

export const LIMIT_NAMES: Readonly<Record<RoomLimit, string>> = {
  'no-stop': 'the no-stop limit',
  mod: 'the MOD',
  po2: 'a PO2 of 1.6 bar, above which no limit exists',
  cns: 'the CNS clock',
  'cns-day': 'the oxygen limit of any 24 hours',
  gas: 'the minimum gas or the reserve',
  oxygen: 'the reserve of the loop’s oxygen',
  scrubber: 'the scrubber’s time',
  'bail-out': 'the bail-out gas',
  'diver-depth': 'the diver’s own depth limit',
  interval: 'the dive before',
};

interface Candidate {
  readonly label: string;
  readonly amount: number;
}

/** Minutes to each limit that a formula tells, the dive made as planned: one that keeps its limits has no stops. */
function minuteCandidates({ entry, trip, o2 }: Asked): readonly Candidate[] {
  const plan = planOf(trip, entry);
  const lastBar = plan.profile.lastLevel.toBar;
  const po2 = o2 * lastBar;
  const cnsAfter = 1 + pastCns(askedDive(trip, entry), plan.legs);
  const cnsLeftMin = cnsMinutesLeft(cnsAfter, po2, 'single');
  const spare = spareAsPlannedL(trip, entry, o2, plan);
  const candidates: Candidate[] = [];
  if (entry.noStopMin !== null) {
    candidates.push({
      label: `To the no-stop limit, ${digits(entry.noStopMin, 2)} − ${digits(entry.bottomMin, 2)}`,
      amount: entry.noStopMin - entry.bottomMin,
    });
  }
  if (cnsLeftMin !== null && Number.isFinite(cnsLeftMin)) {
    candidates.push({
      label: `To the CNS clock, (1 − ${percent(cnsAfter)}) × the limit at ${digits(po2, 3)} bar`,
      amount: cnsLeftMin,
    });
  }
  candidates.push({
    label: `To the gas, ${litres(spare)} / (${digits(entry.diver.surfaceRateLpm, 1)} L/min × ${digits(lastBar, 3)} bar)`,
    amount: spare / (entry.diver.surfaceRateLpm * lastBar),
  });
  return candidates;
}

/** Minutes longer. Source: named in the workings. */
export const roomMinWorkings: Work = (asked) => {
  const { entry, trip } = asked;
  const { min, minLimit } = roomMinutes(trip, entry);
  const candidates = [...minuteCandidates(asked)];
  if (minLimit === 'cns-day' && min !== null) {
    candidates.push({ label: 'To the oxygen limit of any 24 hours, found by trying', amount: min });
  }
  const passed = passedDepth(trip, entry);
  const steps: WorkingsStep[] = [
    ...candidates.map(({ label, amount }) => ({ label, value: minutesOut(amount) })),
    // Two levels may lie at one depth.
    ...Array.from(new Set(entry.levelsPastLimitM.map(metres)), (depth) => ({
      label: `Level at ${depth}`,
      value: 'past its no-stop limit',
    })),
    ...(passed === null
      ? []
      : [{ label: `Depth of ${metres(entry.depthM)}`, value: `past ${LIMIT_NAMES[passed]}` }]),
  ];
  const shared = {
    title: 'Room: minutes longer',
    formula:
      'the least of the minutes to each limit, the last level lengthened; negative where it must be shorter',
    steps,
    source: ROOM_SOURCE,
  };
  if (min === null) {
    const why =
      minLimit === null
        ? 'no limit is in reach'
        : `past ${LIMIT_NAMES[minLimit]}, which no shorter stay at the last level would keep`;
    return { ...shared, result: `none to tell: ${minLimit === 'po2' ? LIMIT_NAMES.po2 : why}`, exact: null };
  }
  const exact = Math.min(...candidates.map(({ amount }) => amount));
  return { ...shared, result: `${minutesOut(exact)}, to ${LIMIT_NAMES[minLimit!]}`, exact };
};

/** The dive at its deepest allowed depth, to show that the limit is met there. */
function checkedAt({ entry, trip }: Asked, byM: number): readonly WorkingsStep[] {
  const shape = deeper(shapeOf(entry), byM);
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
  const bailOut = there.loop?.bailOut ?? null;
  if (bailOut !== null) {
    steps.push({ label: 'Bail-out left at the worst moment', value: litres(bailOut.spareL) });
  }
  return steps;
}

/** The MODs that a dive keeps: of its mix, or on a loop of diluent and leanest bail-out. */
function modsOf({ modM, loop }: Entry): readonly { readonly of: string; readonly modM: number }[] {
  if (loop === null) return [{ of: '', modM: modM! }];
  return [
    { of: ' of the diluent', modM: loop.diluentModM },
    { of: ' of the leanest bail-out', modM: loop.bailOutModM },
  ];
}

/** Metres deeper. Source: named in the workings. */
export const roomMWorkings: Work = (asked) => {
  const { entry, trip } = asked;
  const { m, mLimit } = roomOf(trip, entry);
  const mods = modsOf(entry);
  const toMod = Math.min(...mods.map(({ modM }) => modM)) - entry.depthM;
  const toDiver = entry.diver.maxDepthM - entry.depthM;
  const candidates: Candidate[] = [
    ...mods.map(({ of, modM }) => ({
      label: `To the MOD${of}, ${digits(modM, 2)} − ${digits(entry.depthM, 2)}`,
      amount: modM - entry.depthM,
    })),
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
    source: ROOM_SOURCE,
  };
  if (m === null) {
    const result =
      mLimit === null
        ? 'no figure: at the depths such a dive can have, no limit is met'
        : mLimit === 'po2'
          ? `no figure: ${LIMIT_NAMES.po2}`
          : `no figure: past ${LIMIT_NAMES[mLimit]} at every depth such a dive can have${mLimit === 'no-stop' ? ' that is no deeper than planned' : ''}`;
    return { ...shared, steps, result, exact: null };
  }
  const exact = mLimit === 'mod' ? toMod : mLimit === 'diver-depth' ? toDiver : m;
  const found = isByFormula
    ? []
    : [
        { label: `To ${LIMIT_NAMES[mLimit!]}, found by trying depths`, value: metres(m) },
        ...checkedAt(asked, m),
      ];
  return {
    ...shared,
    steps: [...steps, ...found],
    result: `${metres(exact)}, to ${LIMIT_NAMES[mLimit!]}`,
    exact,
  };
};
