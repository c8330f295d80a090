/** What is typed into a cell of the log, as what it makes of the dive. */
import type { Settings } from '../../../../core/host';
import {
  withAsPlanned,
  withLogged,
  withMade,
  withMissedBy,
  type LogField,
  type LoggedBy,
} from '../../../../core/document/log';
import type { Dive } from '../../../../core/document/types';
import { wallMin, wallText, type WallTime } from '../../../../core/words/calendar';
import { said, type Said } from '../../../../core/words/said';
import type { LogEntry } from '../../../actions/log';
import { parseClock, parseFigure, parseMinutes, parseShare, type Parsed } from '../../../figures/parse';

/** In the order of the columns. */
export const LOG_FIELDS = ['startsAt', 'depthM', 'bottomMin', 'endBar', 'o2'] as const satisfies LogField[];

const HALF_DAY_MIN = 720;

/** The moment of a time of day that lies nearest to the plan: a night dive may begin after midnight. */
function nearest(time: string, planned: WallTime): WallTime {
  const plannedMin = wallMin(planned);
  const sameDay = wallMin(`${planned.slice(0, 10)}T${time}`);
  const by = sameDay - plannedMin;
  return wallText(by > HALF_DAY_MIN ? sameDay - 1440 : by < -HALF_DAY_MIN ? sameDay + 1440 : sameDay);
}

function put<T>(parsed: Parsed<T>, change: (value: T) => LogEntry['change']): LogEntry['change'] | Said {
  return parsed.ok ? change(parsed.value) : said`${parsed.what} ${parsed.mend}`;
}

/**
 * Reads a cell: "P" as planned, "N" or "N ear" not dived, nothing to take the figure back, else the figure.
 * @returns what it makes of the dive, or why it cannot be read
 */
export function readCell(
  text: string,
  field: LogField,
  dive: Dive,
  by: LoggedBy,
  { units, clock }: Pick<Settings, 'units' | 'clock'>,
): LogEntry['change'] | Said {
  const plain = text.trim();
  if (/^[pn](?:$|[\s:,])/i.test(plain)) {
    const reason = plain.slice(1).replace(/^[\s:,]+/, '');
    if (/^n/i.test(plain)) return (of, party) => withMissedBy(of, by, reason, party);
    if (reason === '') return (of, party) => withAsPlanned(of, by, party);
  }
  if (plain === '') {
    return (of, party) => withMade(withLogged(of, by, field, undefined, party), by, party);
  }
  switch (field) {
    case 'startsAt':
      return put(
        parseClock(plain, clock),
        (time) => (of, party) => withLogged(of, by, field, nearest(time, dive.startsAt), party),
      );
    case 'depthM':
      return put(
        parseFigure(plain, 'depth', units),
        (depthM) => (of, party) => withLogged(of, by, field, depthM, party),
      );
    case 'bottomMin':
      return put(parseMinutes(plain), (min) => (of, party) => withLogged(of, by, field, min, party));
    case 'endBar':
      return put(
        parseFigure(plain, 'pressure', units),
        (bar) => (of, party) => withLogged(of, by, field, bar, party),
      );
    case 'o2':
      return put(parseShare(plain), (o2) => (of, party) => withLogged(of, by, field, o2, party));
  }
}
