import { dayNumber, wallDate } from '../trip/clock';
import { eachDiver, type Rule } from './rule';

/** More diving days than this in a row are long without a rest. Source: common practice. */
const LONG_RUN_DAYS = 6;

/** Many diving days without a day of rest. Source: as in the rule. */
export const noRest: Rule = {
  code: 'no-rest',
  severity: 'know',
  source: 'common practice; no published evidence for a fixed day of rest was found',
  find: eachDiver(({ entries, days }) => {
    const found = [];
    let run = 0;
    let last = NaN;
    for (const { date, dives } of days) {
      if (dives === 0) continue;
      const first = entries.find((entry) => entry.isMade && wallDate(entry.startMin) === date)!;
      const day = dayNumber(first.startMin);
      run = day === last + 1 ? run + 1 : 1;
      last = day;
      if (run !== LONG_RUN_DAYS + 1) continue;
      const message = `${date} is the ${run}th diving day in a row: plan a day, or at least half a day, without dives before it.`;
      found.push({ diveId: null, atMin: first.startMin, message });
    }
    return found;
  }),
};
