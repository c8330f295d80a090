/** What a dive on a loop is made with, in words. */
import { bare, figure, inRow, said, type Said } from '../words/said';
import { mixSaid } from '../words/terms';
import type { LoopFigures } from './ledger-types';

/** As deep as the diluent and a bail-out may both be breathed, metres. Source: core/gas.ts. */
export function loopModM({ diluentModM, bailOutModM }: LoopFigures): number {
  return Math.min(diluentModM, bailOutModM);
}

/** "setpoint 0.7, from 6 m 1.2". */
export function setpointsSaid({
  breathing: { lowBar, highBar, switchM },
}: Pick<LoopFigures, 'breathing'>): Said {
  if (lowBar === highBar || switchM === 0) return said`setpoint ${bare('po2Limit', highBar)}`;
  return said`setpoint ${bare('po2Limit', lowBar)}, from ${figure('depthSet', switchM)} ${bare('po2Limit', highBar)}`;
}

/** Bail-out at the worst moment: its mixes, stops and run time; or that no way up was found. */
export function bailOutSaid({ bailOut }: LoopFigures): Said {
  if (bailOut === null) return said`no way up on bail-out was found`;
  const { mixes, stops, fromM, atMin, runtimeMin } = bailOut;
  const each = mixes.map(
    ({ o2, modM, neededL, holdsL }) =>
      said`${mixSaid(o2)} ${figure('gasUsed', neededL)} of ${figure('gasLeft', holdsL)}, MOD ${figure('depthLimit', modM)}`,
  );
  const waits = stops.map(
    ({ depthM, min }) => said`${figure('depthMet', depthM)} ${figure('minutesMet', min)}`,
  );
  const stopped = waits.length === 0 ? said`no stop` : said`stops ${inRow(waits)}`;
  return said`from ${figure('depthMet', fromM)} at ${figure('minutesMet', atMin)}: ${inRow(each)}; ${stopped}; surface after ${figure('minutesMet', runtimeMin)}`;
}
