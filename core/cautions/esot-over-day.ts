import { bare, said } from '../words/said';
import { esotAdvised } from '../oxygen/budgets';
import { daysOfDives } from './days';
import { DUST, eachDiver, findingAt, type Rule } from './rule';

/**
 * More ESOT in a day than advised for so many diving days; days and doses of dives brought to the trip count.
 * Source: as in the rule.
 */
export const esotOverDay: Rule = {
  code: 'esot-over-day',
  severity: 'know',
  source: said`J. Risberg, P.-J. van Ooij, "Hyperoxic exposure monitoring in diving: a farewell to the UPTD", Undersea Hyperb Med 2022;49(4)`,
  find: eachDiver((diverLedger) => {
    const { divingDays } = diverLedger;
    const daysOfDiving = divingDays === 1 ? said`1 diving day` : said`${divingDays} diving days`;
    const advised = esotAdvised(Math.max(1, divingDays));
    return daysOfDives(diverLedger).flatMap(({ made }) => {
      const first = made.find((entry) => entry.esot.day > advised + DUST);
      if (first === undefined) return [];
      const says = said`This dive brings the day to an ESOT of ${bare('doseMet', first.esot.day)} min, more than the ${bare('doseLeft', advised)} min advised a day on a trip with ${daysOfDiving}: leaner mixes spare the lungs.`;
      return [findingAt(first, says)];
    });
  }),
};
