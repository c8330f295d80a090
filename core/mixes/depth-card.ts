import type { Diver, Mix, Trip } from '../document/types';
import { eadM, gasDensityGL, isAbovePo2, modM, po2Bar } from '../gas';
import { mixO2 } from '../ledger/mix-choice';
import { limitMin } from '../oxygen/limits';
import { surroundingsOf, type Surroundings } from '../profile';
import { M_PER_FOOT } from '../units';
import { ambientBar } from '../water';
import { noStopFromRest } from './compare';
import { usableModM } from './richest';

/** What a mix is at one depth. */
export interface DepthCardRow {
  readonly depthM: number;
  readonly po2Bar: number;
  /** Grams a litre. */
  readonly densityGL: number;
  /** Below the MOD: within the contingency PO2, and only to get out of trouble. No times are given there. */
  readonly isPastMod: boolean;
  /** Not above the surface. */
  readonly eadM: number;
  /** Of a first dive; null where it has no end. */
  readonly noStopMin: number | null;
  /** Minutes that take the whole of the single CNS clock; null where nothing counts. */
  readonly cnsMin: number | null;
}

/** A mix by depth, for the most careful of some divers. */
export interface DepthCard {
  readonly mix: Mix;
  /** Least of the divers', exact. */
  readonly modM: number;
  /** Of the limits behind the MOD and behind the rows below it, bar. */
  readonly workingBar: number;
  readonly contingencyM: number;
  /** Where rows end above the MOD, as nobody goes deeper; else null. */
  readonly ownDepthM: number | null;
  /** Whose no-stop times stand there: least high gradient. */
  readonly strictest: Diver;
  /** Of the divers asked for, those with a ceiling below this mix. */
  readonly notFor: readonly Diver[];
  /** Rising in depth. */
  readonly rows: readonly DepthCardRow[];
}

/** From one row to the next, and the first row. Source: common practice; steps of stops and of government tables. */
const STEPS = {
  metric: { firstM: 12, stepM: 3 },
  imperial: { firstM: 40 * M_PER_FOOT, stepM: 10 * M_PER_FOOT },
} as const;

/** Depths are compared with this much room for binary fractions, metres. */
const SAME_M = 1e-6;

function rowAt(
  mix: Mix,
  richestO2: number,
  depthM: number,
  isPastMod: boolean,
  strictest: Diver,
  around: Surroundings,
): DepthCardRow {
  const bar = ambientBar(depthM, around.column);
  const po2 = po2Bar(richestO2, bar);
  const cnsMin = limitMin(po2, 'single');
  return {
    depthM,
    po2Bar: po2,
    densityGL: gasDensityGL(richestO2, bar),
    isPastMod,
    eadM: Math.max(0, eadM(mixO2(mix), depthM, around.column)),
    noStopMin: noStopFromRest(mixO2(mix), depthM, strictest, around).min,
    cnsMin: cnsMin === Infinity ? null : cnsMin,
  };
}

/**
 * What a mix is by depth, from 12 m in steps of 3 m (40 ft and 10 ft) to where its PO2 meets the divers' contingency
 * limit, or to where none of them goes.
 * @param divers one or more; of several every figure is that of the most careful
 * @returns PO2, density and CNS with the trip's tolerance of analysis as more oxygen while the mix is not analysed,
 *   as the MOD has it; EAD and the no-stop time of a first dive by the share itself; all exact
 * Source: CONVENTIONS, "PO2 and mixes", "No-stop limit" (from rest) and "CNS clocks".
 */
export function depthCard(
  trip: Trip,
  mix: Mix,
  divers: readonly Diver[],
  system: keyof typeof STEPS,
): DepthCard {
  const around = surroundingsOf(trip);
  const o2 = mixO2(mix);
  const notFor = divers.filter(({ maxO2 }) => o2 > maxO2 + 1e-12);
  const those = notFor.length === divers.length ? divers : divers.filter((each) => !notFor.includes(each));
  const richest = mix.analysedO2 === undefined ? o2 + trip.settings.analysisTolerance : o2;
  const contingencyBar = Math.min(...those.map(({ po2 }) => po2.contingency));
  const mod = Math.min(...those.map((diver) => usableModM(mix, diver, trip, around)));
  const contingencyM = Math.max(mod, modM(richest, contingencyBar, around.column));
  const deepestOwnM = Math.max(...those.map(({ maxDepthM }) => maxDepthM));
  const ownDepthM = deepestOwnM < mod - SAME_M ? deepestOwnM : null;
  const strictest = those.reduce((least, each) => (each.gradient.high < least.gradient.high ? each : least));
  const { firstM, stepM } = STEPS[system];
  const toM = ownDepthM ?? contingencyM;
  const rows: DepthCardRow[] = [];
  for (let i = 0; ; i += 1) {
    const depthM = firstM + i * stepM;
    // Above 1.6 bar no exposure limit is published, and there is nothing to print.
    if (depthM > toM + SAME_M || isAbovePo2(po2Bar(richest, ambientBar(depthM, around.column)), 1.6)) break;
    rows.push(rowAt(mix, richest, depthM, depthM > mod + SAME_M, strictest, around));
  }
  const workingBar = Math.min(...those.map(({ po2 }) => po2.working));
  return { mix, modM: mod, workingBar, contingencyM, ownDepthM, strictest, notFor, rows };
}
