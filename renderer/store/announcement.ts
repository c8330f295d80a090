import type { Caution, Entry } from '../../core/trip/ledger-types';
import { countText, minutesText } from '../figures/format';
import { diveNumber, selectCautions, selectRoomMin, selectTightest, shownEntry } from './selectors';
import type { Desk } from './store';

/** A caution as the same one, whatever its figures are now. */
function cautionKey({ code, diverId, diveId }: Caution): string {
  return `${code}/${diverId ?? ''}/${diveId ?? ''}`;
}

function roomMin(state: Desk, entry: Entry | null): number | null {
  return entry ? selectRoomMin(state)(entry) : null;
}

/**
 * What a change did, in a sentence for who cannot see it: the room of the chosen dive (else the trip's
 * least), and the cautions that came or went. Empty where neither changed.
 */
export function announcement(before: Desk, after: Desk): string {
  if (before.trip === after.trip) return '';
  const parts: string[] = [];
  const [chosen] = after.selection.diveIds;
  if (chosen !== undefined && shownEntry(after, chosen)) {
    const was = roomMin(before, shownEntry(before, chosen));
    const is = roomMin(after, shownEntry(after, chosen));
    if (was !== is) {
      const room = is === null ? 'no limit in reach' : `${minutesText(is, 'down')} of room`;
      parts.push(`Dive ${diveNumber(after.trip, chosen)}: ${room}.`);
    }
  } else {
    const is = selectTightest(after);
    const min = roomMin(after, is);
    if (is && min !== null && min !== roomMin(before, selectTightest(before))) {
      const number = diveNumber(after.trip, is.dive.id);
      parts.push(`Tightest is dive ${number}, ${minutesText(min, 'down')} of room.`);
    }
  }
  const had = new Set(selectCautions(before).map(cautionKey));
  const has = selectCautions(after);
  const keys = new Set(has.map(cautionKey));
  const come = has.filter((caution) => !had.has(cautionKey(caution)));
  const gone = [...had].filter((key) => !keys.has(key)).length;
  const [first] = come;
  if (come.length === 1 && first) parts.push(`New caution: ${first.message}`);
  else if (come.length > 1) parts.push(`${countText(come.length)} new cautions.`);
  if (gone > 0)
    parts.push(gone === 1 ? 'One caution is settled.' : `${countText(gone)} cautions are settled.`);
  return parts.join(' ');
}
