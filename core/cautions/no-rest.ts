import { daysOfDives } from './days';
import { eachDiver, type Rule } from './rule';

/** More diving days than this in a row are long without a rest. Source: common practice. */
const LONG_RUN_DAYS = 6;

/** Many diving days without a day of rest. Source: as in the rule. */
export const noRest: Rule = {
  code: 'no-rest',
  severity: 'know',
  source: 'common practice; no published evidence for a fixed day of rest was found',
  find: eachDiver((diverLedger, _ledger, say) => {
    let run = 0;
    let last = NaN;
    for (const { line, number, made } of daysOfDives(diverLedger)) {
      const first = made[0];
      if (first === undefined) continue;
      run = number === last + 1 ? run + 1 : 1;
      last = number;
      if (run <= LONG_RUN_DAYS) continue;
      const message = `${say.day(line.date)} is diving day ${run} in a row: plan a day, or at least half a day, without dives before it.`;
      return [{ diveId: null, atMin: first.startMin, message }];
    }
    return [];
  }),
};
