import { AIR_O2, modM, richestO2, wholePercentDown } from '../gas';
import { surroundingsOf } from '../trip/dive-plan';
import { mixO2 } from '../trip/mix-choice';
import { eachDive, type Rule } from './rule';
import { percentO2, po2Limit } from './wording';

/** A dive on "auto" that none of the trip's mixes may make. Source: as in the rule. */
export const noMix: Rule = {
  code: 'no-mix',
  severity: 'stop',
  source: 'Dalton’s law with the working PO2 set for the diver (1.4 after the NOAA Diving Program, 2015)',
  find: eachDive((entry, { ledger: { trip }, say }) => {
    if (entry.isMade) return null;
    const { diver } = entry;
    const { column } = surroundingsOf(trip);
    const { analysisTolerance } = trip.settings;
    const deepestM = Math.max(
      0,
      ...trip.mixes
        .filter((mix) => mixO2(mix) <= diver.maxO2)
        .map((mix) =>
          modM(
            mixO2(mix) + (mix.analysedO2 === undefined ? analysisTolerance : 0),
            diver.po2.working,
            column,
          ),
        ),
    );
    const richest = wholePercentDown(
      Math.min(richestO2(diver.po2.working, entry.dive.depthM, column) - analysisTolerance, diver.maxO2),
    );
    const bring = richest >= AIR_O2 ? `bring a mix of ${percentO2(richest)} or less, or ` : '';
    const plan = deepestM >= 1 ? `plan it no deeper than ${say.depthAllowed(deepestM)}` : 'leave it out';
    return (
      `None of the mixes on board may go to ${say.depthMet(entry.dive.depthM)} at a PO2 of ${po2Limit(diver.po2.working)} ` +
      `within this diver's ceiling: ${bring}${plan}. Until then the dive is left out of every figure.`
    );
  }),
};
