import { firstOver } from './first-over';
import { DUST, eachDiver, findingAt, told, type Rule } from './rule';

/** More OTU in a day than the mission so far leaves for it. Source: as in the rule. */
export const otuOverDay: Rule = {
  code: 'otu-over-day',
  severity: 'change',
  source:
    'R. W. Hamilton, D. J. Kenyon, R. E. Peterson, "Repex habitat diving procedures", NOAA Technical Report 88-1B (1988)',
  find: eachDiver((diverLedger) => {
    const allowed = new Map(diverLedger.days.map((day) => [day.date, day.otuAllowed]));
    return firstOver(
      diverLedger,
      (entry, date) => entry.otu.day > (allowed.get(date) ?? Infinity) + DUST,
    ).map(({ entry, date }) =>
      findingAt(
        entry,
        told(
          entry,
          `This dive brings the day to ${Math.ceil(entry.otu.day)} OTU, more than the ` +
            `${Math.max(0, Math.floor(allowed.get(date) ?? 0))} that this day of the trip allows`,
          'take leaner mixes or dive less on it',
        ),
      ),
    );
  }),
};
