/** What a briefing is compared with: as it was printed here, else the last save of a day before, else as it was opened. */
import { readTrip } from '../../../core/document/read-trip';
import type { Trip } from '../../../core/document/types';
import type { Since, SlateKind } from '../../../core/slate/request';
import { localText, todayText } from '../../figures/local-time';
import { machine } from '../../store/machine';
import { desk } from '../../store/store';

interface Printed extends Since {
  /** What it was compared with: printed once more, it says the same. */
  readonly before: Since | null;
}

/** The last briefing of each trip that this window printed or saved, by the trip's place; '' for one without. */
const printed = new Map<string, Printed>();

function placeOf(): string {
  return desk.getState().keeping.token ?? '';
}

/** The newest save that was made before today: the plan that people went to bed with. */
async function savedBefore(today: string): Promise<Since | null> {
  const { token } = desk.getState().keeping;
  const listed = token === null ? null : await machine().listVersions(token);
  if (token === null || listed === null || !listed.ok) return null;
  const found = listed.value.find(
    ({ savedAt, unreadable }) => unreadable === undefined && localText(new Date(savedAt)) < today,
  );
  if (found === undefined) return null;
  const text = await machine().readVersion(token, found.version);
  const read = text.ok ? readTrip(text.value) : null;
  return read?.ok ? { trip: read.value, at: localText(new Date(found.savedAt)) } : null;
}

/** What pages of a kind are compared with; null: with nothing. */
export async function sinceOf(kind: SlateKind, trip: Trip): Promise<Since | null> {
  if (kind !== 'briefing') return null;
  const last = printed.get(placeOf());
  if (last !== undefined) return last.trip === trip ? last.before : { trip: last.trip, at: last.at };
  const opened = desk.getState().history.past[0]?.trip;
  return (await savedBefore(todayText())) ?? (opened === undefined ? null : { trip: opened, at: null });
}

/** Remembers that a briefing of the trip went out. */
export async function rememberPrinted(kind: SlateKind, trip: Trip): Promise<void> {
  if (kind !== 'briefing') return;
  const before = await sinceOf(kind, trip);
  printed.set(placeOf(), { trip, at: localText(new Date()), before });
}
