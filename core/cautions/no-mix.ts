import { printedSi } from '../words/quantity';
import { figure, NOTHING, said } from '../words/said';
import { AIR_O2, richestO2 } from '../gas';
import { deepestReachM } from './deepest-reach';
import { eachDive, type Rule } from './rule';
import { surroundingsAt } from '../document/waters';

/** A dive on "auto" that none of the trip's mixes may make. Source: as in the rule. */
export const noMix: Rule = {
  code: 'no-mix',
  severity: 'stop',
  source: said`Dalton’s law with the working PO2 set for the diver (1.4 after the NOAA Diving Program, 2015)`,
  find: eachDive((entry, { ledger: { trip } }) => {
    if (entry.isMade) return null;
    const { dive, diver } = entry;
    const { column } = surroundingsAt(trip, dive);
    const reachesO2 = richestO2(diver.po2.working, dive.depthM, column) - trip.settings.analysisTolerance;
    const richest = Math.min(reachesO2, diver.maxO2);
    const onBoard = trip.mixes.filter((mix) => dive.onBoard?.includes(mix.id) ?? true);
    const deepest = deepestReachM(diver, onBoard, trip, column);
    const bring =
      printedSi(richest, 'oxygenLimit', 'metric') >= AIR_O2
        ? said`bring a mix of ${figure('oxygenLimit', richest)} or less, or `
        : NOTHING;
    const plan =
      deepest >= 1 ? said`plan it no deeper than ${figure('depthLimit', deepest)}` : said`leave it out`;
    return said`None of the mixes on board can be used at ${figure('depthMet', dive.depthM)} at a PO2 of ${figure('po2Limit', diver.po2.working)} within the diver’s oxygen ceiling: ${bring}${plan}. Until then the dive is left out of every figure.`;
  }),
};
