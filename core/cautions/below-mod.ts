import { AIR_O2, richestO2, wholePercentDown } from '../gas';
import type { Entry } from '../ledger/ledger-types';
import { DUST, eachMadeDive, told, WATCH, type Place, type Rule } from './rule';
import { MOD_SOURCE } from './sources';
import { surroundingsOf } from '../profile';

/** What a dive below the MOD is told; null where it is not, or rests on another reading of its mix. */
export function belowModMessage(entry: Entry, { ledger, say }: Place, isAnalysed: boolean): string | null {
  const { modM, o2, depthM, diver } = entry;
  if (modM === null || o2 === null || entry.isAnalysed !== isAnalysed || depthM <= modM + DUST) return null;
  const richest = wholePercentDown(
    Math.min(richestO2(diver.po2.working, depthM, surroundingsOf(ledger.trip).column), diver.maxO2),
  );
  const mix = isAnalysed
    ? `${say.percentO2(o2)} oxygen analysed`
    : `${say.percentO2(o2)} oxygen on the label`;
  const leaner = richest >= AIR_O2 ? `, or take a mix of ${say.percentO2(richest)} or less` : '';
  return told(
    entry,
    `${say.depthMet(depthM)} is below the MOD of ${say.depthAllowed(modM)} for the ${mix} at a PO2 of ` +
      say.po2Limit(diver.po2.working),
    `stay above it${leaner}`,
    WATCH,
  );
}

/** A dive below the MOD of its mix as labelled. Source: as in the rule. */
export const belowMod: Rule = {
  code: 'below-mod',
  severity: 'stop',
  source: MOD_SOURCE,
  find: eachMadeDive((entry, place) => belowModMessage(entry, place, false)),
};
