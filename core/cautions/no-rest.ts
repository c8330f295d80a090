import { dayOf, said } from '../words/said';
import { dayNumber } from '../words/calendar';
import { daysOfDives } from './days';
import { eachDiver, type Rule } from './rule';

/** More diving days than this in a row are long without a rest. Source: common practice. */
const LONG_RUN_DAYS = 6;

/** Many diving days without a day of rest; days of dives brought to the trip count. Source: as in the rule. */
export const noRest: Rule = {
  code: 'no-rest',
  severity: 'know',
  source: said`common practice; no published evidence for a fixed day of rest was found`,
  find: eachDiver((diverLedger) => {
    const isDivingDay = new Set(diverLedger.earlier.map(({ startMin }) => dayNumber(startMin)));
    const days = daysOfDives(diverLedger).filter(({ made }) => made.length > 0);
    for (const { number } of days) isDivingDay.add(number);
    for (const { line, number, made } of days) {
      let run = 1;
      while (isDivingDay.has(number - run)) run += 1;
      if (run <= LONG_RUN_DAYS) continue;
      const says = said`${dayOf(line.date)} is diving day ${run} in a row: plan a day, or at least half a day, without dives before it.`;
      return [{ diveId: null, atMin: made[0]!.startMin, says }];
    }
    return [];
  }),
};
