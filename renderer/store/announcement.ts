import { capital } from '../../core/words/reader';
import type { Entry } from '../../core/ledger/ledger-types';
import type { Trip } from '../../core/document/types';
import { countText } from '../figures/format';
import { wordsIn } from '../figures/reader';
import { roomPhrase } from '../figures/room';
import {
  diveNumber,
  selectCautions,
  selectRoomKey,
  selectRoomLimit,
  selectRoomMin,
  selectTightest,
  shownEntry,
} from './selectors';
import type { Desk } from './store';
import type { Caution } from '../../core/cautions/caution';

/** A caution as the same one, whatever its figures are now. */
function cautionKey({ code, diverId, diveId }: Caution): string {
  return `${code}/${diverId ?? ''}/${diveId ?? ''}`;
}

/** As `selectRoomKey`: minutes, or infinite where there is no figure. */
function roomKey(state: Desk, entry: Entry): number {
  return selectRoomKey(state)(entry);
}

function roomText(state: Desk, entry: Entry): string {
  const key = selectRoomKey(state)(entry);
  if (!entry.isMade) return 'no mix on board can be used there';
  if (key === Number.POSITIVE_INFINITY) return 'no limit in reach';
  return roomPhrase(entry, selectRoomMin(state)(entry), selectRoomLimit(state)(entry));
}

/** The trip as it is, was and may be again: edits, undo and a stored version share one of these. */
function tripsOf({ trip, history: { past, future, mark } }: Desk): readonly Trip[] {
  return [trip, ...[...past, ...future, ...(mark ? [mark] : [])].map((step) => step.trip)];
}

/** Whether another trip was put on the desk in between. */
function isAnother(before: Desk, after: Desk): boolean {
  const were = new Set(tripsOf(before));
  return !tripsOf(after).some((trip) => were.has(trip));
}

function counted(count: number): string {
  return capital(countText(count));
}

/** Which cautions came and went. */
function cautionParts(before: Desk, after: Desk): readonly string[] {
  const parts: string[] = [];
  const had = new Set(selectCautions(before).map(cautionKey));
  const has = selectCautions(after);
  const keys = new Set(has.map(cautionKey));
  const come = has.filter((caution) => !had.has(cautionKey(caution)));
  const gone = [...had].filter((key) => !keys.has(key)).length;
  const [first] = come;
  if (come.length === 1 && first)
    parts.push(`New caution: ${wordsIn({ ...after.settings, trip: after.trip })(first.says)}`);
  else if (come.length > 1) parts.push(`${counted(come.length)} new cautions.`);
  if (gone > 0) parts.push(gone === 1 ? 'One caution is settled.' : `${counted(gone)} cautions are settled.`);
  return parts;
}

/**
 * What a change did, in a sentence for who cannot see it: the room of the chosen dive (else the trip's
 * least), and the cautions that came or went. Empty where neither changed. Cautions of another trip are no news
 * of this one.
 */
export function announcement(before: Desk, after: Desk): string {
  if (before.trip === after.trip) return '';
  const parts: string[] = [];
  const [chosen] = after.selection.diveIds;
  const shown = chosen === undefined ? null : shownEntry(after, chosen);
  if (chosen !== undefined && shown) {
    const was = shownEntry(before, chosen);
    const is = roomText(after, shown);
    if (!was || roomText(before, was) !== is) {
      parts.push(`Dive ${diveNumber(after.trip, chosen)}: ${is}.`);
    }
  } else {
    const was = selectTightest(before);
    const is = selectTightest(after);
    if (is && (!was || roomKey(after, is) !== roomKey(before, was))) {
      const number = diveNumber(after.trip, is.dive.id);
      parts.push(`Tightest is dive ${number}, ${roomText(after, is)}.`);
    }
  }
  if (!isAnother(before, after)) parts.push(...cautionParts(before, after));
  return parts.join(' ');
}
