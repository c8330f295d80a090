import { printedSi } from '../words/quantity';
import { figure, NOTHING, said, type Said } from '../words/said';
import { AIR_O2, richestO2 } from '../gas';
import type { Entry } from '../ledger/ledger-types';
import { DUST, eachMadeDive, told, WATCH, type Place, type Rule } from './rule';
import { MOD_SOURCE } from './sources';
import { surroundingsAt } from '../document/waters';

/** What a dive below the MOD is told; null where it is not, or rests on another reading of its mix. */
export function belowModSaid(entry: Entry, { ledger }: Place, isAnalysed: boolean): Said | null {
  const { modM, o2, depthM, diver } = entry;
  if (modM === null || o2 === null || entry.isAnalysed !== isAnalysed || depthM <= modM + DUST) return null;
  const richest = Math.min(
    richestO2(diver.po2.working, depthM, surroundingsAt(ledger.trip, entry.dive).column),
    diver.maxO2,
  );
  const mix = isAnalysed
    ? said`${figure('oxygen', o2)} oxygen analysed`
    : said`${figure('oxygen', o2)} oxygen on the label`;
  const leaner =
    printedSi(richest, 'oxygenLimit', 'metric') >= AIR_O2
      ? said`, or take a mix of ${figure('oxygenLimit', richest)} or less`
      : NOTHING;
  return told(
    entry,
    said`${figure('depthMet', depthM)} is below the MOD of ${figure('depthLimit', modM)} for the ${mix} at a PO2 of ${figure('po2Limit', diver.po2.working)}`,
    said`stay above it${leaner}`,
    WATCH,
  );
}

/** A dive below the MOD of its mix as labelled. Source: as in the rule. */
export const belowMod: Rule = {
  code: 'below-mod',
  severity: 'stop',
  source: MOD_SOURCE,
  find: eachMadeDive((entry, place) => belowModSaid(entry, place, false)),
};
