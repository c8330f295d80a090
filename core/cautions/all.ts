import type { Ledger } from '../ledger/ledger-types';
import type { Id } from '../document/types';
import { altitudeTooSoon } from './altitude-too-soon';
import { belowMinimumGas } from './below-minimum-gas';
import { belowMod } from './below-mod';
import { belowModAnalysed } from './below-mod-analysed';
import { belowReserve } from './below-reserve';
import { climbBeforeOtherView } from './climb-before-other-view';
import { climbTooSoon } from './climb-too-soon';
import { cnsDayOver100 } from './cns-day-over-100';
import { cnsOver100 } from './cns-over-100';
import { cnsOver80 } from './cns-over-80';
import { cnsUnknown } from './cns-unknown';
import { deeperThanDiver } from './deeper-than-diver';
import { deeperThanSite } from './deeper-than-site';
import { deeperThanTheOneBefore } from './deeper-than-the-one-before';
import { earlierDiveWithoutMix } from './earlier-dive-without-mix';
import { esotOverDay } from './esot-over-day';
import { flightBeforeOtherView } from './flight-before-other-view';
import { flightHours } from './flight-hours';
import { flightTooSoon } from './flight-too-soon';
import { gasDense } from './gas-dense';
import { gasNotForStops } from './gas-not-for-stops';
import { gasRunsOut } from './gas-runs-out';
import { gasTooDense } from './gas-too-dense';
import { heightNotTold } from './height-not-told';
import { levelPastNoStop } from './level-past-no-stop';
import { manyDives } from './many-dives';
import { mixNotAnalysed } from './mix-not-analysed';
import { noMix } from './no-mix';
import { noRest } from './no-rest';
import { bailOutBelowMod } from './bail-out-below-mod';
import { bailOutShort } from './bail-out-short';
import { diluentAboveSetpoint } from './diluent-above-setpoint';
import { diluentBelowMod } from './diluent-below-mod';
import { loopGasShort } from './loop-gas-short';
import { loopTraining } from './loop-training';
import { scrubberShort } from './scrubber-short';
import { setpointAboveContingency } from './setpoint-above-contingency';
import { setpointAboveWorking } from './setpoint-above-working';
import { otuOverDay } from './otu-over-day';
import { pastNoStop } from './past-no-stop';
import { po2AboveContingency } from './po2-above-contingency';
import { po2AboveWorking } from './po2-above-working';
import { po2WithoutLimit } from './po2-without-limit';
import { richerThanDiver } from './richer-than-diver';
import { shortInterval } from './short-interval';
import { siteBeyondMixes } from './site-beyond-mixes';
import { siteNotForDiver } from './site-not-for-diver';
import { stopTakesUp } from './stop-takes-up';
import { stopsIntoNextDive } from './stops-into-next-dive';
import { mostCareful } from '../words/said';
import type { Found, Rule } from './rule';
import type { Caution, Severity } from './caution';
import { alike } from './told-together';

/** Every rule; within one severity and moment, findings stand in this order. */
export const RULES: readonly Rule[] = [
  noMix,
  earlierDiveWithoutMix,
  po2WithoutLimit,
  setpointAboveContingency,
  diluentBelowMod,
  bailOutBelowMod,
  bailOutShort,
  loopGasShort,
  scrubberShort,
  po2AboveContingency,
  belowModAnalysed,
  belowMod,
  richerThanDiver,
  deeperThanDiver,
  pastNoStop,
  levelPastNoStop,
  stopsIntoNextDive,
  gasNotForStops,
  gasRunsOut,
  cnsOver100,
  cnsDayOver100,
  altitudeTooSoon,
  climbTooSoon,
  flightTooSoon,
  po2AboveWorking,
  setpointAboveWorking,
  diluentAboveSetpoint,
  cnsOver80,
  belowMinimumGas,
  belowReserve,
  gasTooDense,
  deeperThanSite,
  siteNotForDiver,
  climbBeforeOtherView,
  flightBeforeOtherView,
  heightNotTold,
  shortInterval,
  deeperThanTheOneBefore,
  otuOverDay,
  cnsUnknown,
  esotOverDay,
  stopTakesUp,
  gasDense,
  manyDives,
  noRest,
  loopTraining,
  siteBeyondMixes,
  mixNotAnalysed,
  flightHours,
];

const RANK: Readonly<Record<Severity, number>> = { stop: 0, change: 1, know: 2 };

/** How many divers each dive concerns. */
function diversOfDives(ledger: Ledger): ReadonlyMap<Id, number> {
  const counts = new Map<Id, number>();
  for (const { entries } of ledger.divers) {
    for (const { dive } of entries) counts.set(dive.id, (counts.get(dive.id) ?? 0) + 1);
  }
  return counts;
}

/** Puts findings together that say the same to everybody concerned, where they are more than one. */
function together(
  findings: readonly Found[],
  party: number,
  divers: ReadonlyMap<Id, number>,
): readonly Found[] {
  // Most rules are silent.
  if (findings.length === 0) return findings;
  const put: Found[] = [];
  for (const group of alike(findings, ({ diveId }) => diveId)) {
    const first = group[0]!;
    const concerned = first.diveId === null ? party : divers.get(first.diveId);
    if (group.length === 1 || group.length !== concerned) put.push(...group);
    else put.push({ ...first, says: group.map(({ says }) => says).reduce(mostCareful), diverId: null });
  }
  return put;
}

/**
 * All cautions of a trip: what every rule finds, put together for the party where it is the same for all. Worked out
 * once for a ledger, whoever reads them.
 * @param ledger of the whole party
 * @returns stop before change before know; within each by time, then in the order of `RULES`
 * Source: each rule names its own.
 */
export function cautionsOf(ledger: Ledger): readonly Caution[] {
  let cautions = cautionsKnown.get(ledger);
  if (cautions === undefined) cautionsKnown.set(ledger, (cautions = found(ledger)));
  return cautions;
}

const cautionsKnown = new WeakMap<Ledger, readonly Caution[]>();

function found(ledger: Ledger): readonly Caution[] {
  const divers = diversOfDives(ledger);
  const all: { readonly atMin: number; readonly caution: Caution }[] = [];
  for (const { code, severity, source, find } of RULES) {
    for (const { atMin, diverId, diveId, says } of together(find(ledger), ledger.divers.length, divers)) {
      all.push({ atMin, caution: { code, severity, diverId, diveId, says, source } });
    }
  }
  return all
    .toSorted((a, b) => RANK[a.caution.severity] - RANK[b.caution.severity] || order(a.atMin, b.atMin))
    .map(({ caution }) => caution);
}

/** Difference that also orders the infinite. */
function order(a: number, b: number): number {
  return a === b ? 0 : a < b ? -1 : 1;
}
