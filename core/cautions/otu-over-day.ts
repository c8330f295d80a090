import { figure, said } from '../words/said';
import { daysOfDives } from './days';
import { DUST, eachDiver, findingAt, told, type Rule } from './rule';

/**
 * More OTU in a day than the mission so far leaves for it, which dives brought to the trip are part of.
 * Source: as in the rule.
 */
export const otuOverDay: Rule = {
  code: 'otu-over-day',
  severity: 'change',
  source: said`R. W. Hamilton, D. J. Kenyon, R. E. Peterson, "Repex habitat diving procedures", NOAA Technical Report 88-1B (1988)`,
  find: eachDiver((diverLedger) =>
    daysOfDives(diverLedger).flatMap(({ line, made }) => {
      const first = made.find((entry) => entry.otu.day > line.otuAllowed + DUST);
      if (first === undefined) return [];
      const finding = said`This dive brings the day to ${figure('doseMet', first.otu.day)} OTU, more than the ${figure('doseLeft', Math.max(0, line.otuAllowed))} that this day of the trip allows`;
      return [findingAt(first, told(first, finding, said`take leaner mixes or dive less on it`))];
    }),
  ),
};
