/**
 * What a briefing is compared with: what was chosen, else as it was printed here, else the last save of a day before, else
 * as it was opened.
 */
import type { WallTime } from '../../../core/words/calendar';
import { readTrip } from '../../../core/document/read-trip';
import type { Trip } from '../../../core/document/types';
import type { Since, SlateKind } from '../../../core/slate/request';
import type { TripToken } from '../../../core/host';
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

/** What is chosen to compare with: nothing, the trip as it was opened, a save of it (`EarlierSave.id`); null: the usual. */
export type SinceWish = 'nothing' | 'opened' | `save ${string}` | null;

/** A save to compare with. */
export interface EarlierSave {
  /** Of this trip alone: what was chosen for one trip is no choice for the next that is opened. */
  readonly id: `save ${string}`;
  readonly version: string;
  /** "2027-03-05T18:00", on the clock of this machine. */
  readonly at: WallTime;
}

/** The saves of the trip that can be read, newest first; none where the host cannot tell. */
export async function earlierSaves(token: TripToken | null): Promise<readonly EarlierSave[]> {
  const listed = token === null ? null : await machine().listVersions(token);
  if (!listed?.ok) return [];
  return listed.value
    .filter(({ unreadable }) => unreadable === undefined)
    .map(({ version, savedAt }) => ({
      id: `save ${token} ${version}`,
      version,
      at: localText(new Date(savedAt)),
    }));
}

/** The newest save that is as it is wanted, where it can still be read. */
async function savedAs(isWanted: (save: EarlierSave) => boolean): Promise<Since | null> {
  const { token } = desk.getState().keeping;
  const found = (await earlierSaves(token)).find(isWanted);
  if (token === null || found === undefined) return null;
  const text = await machine().readVersion(token, found.version);
  const read = text.ok ? readTrip(text.value) : null;
  return read?.ok ? { trip: read.value, at: found.at } : null;
}

/** What pages of a kind are compared with; null: with nothing. */
export async function sinceOf(kind: SlateKind, trip: Trip, wish: SinceWish): Promise<Since | null> {
  if (kind !== 'briefing' || wish === 'nothing') return null;
  const opened = desk.getState().history.past[0]?.trip;
  if (wish === 'opened') return { trip: opened ?? trip, at: null };
  const chosen = wish === null ? null : await savedAs(({ id }) => id === wish);
  if (chosen !== null) return chosen;
  const last = printed.get(placeOf());
  if (last !== undefined) return last.trip === trip ? last.before : { trip: last.trip, at: last.at };
  // The plan that people went to bed with.
  const today = todayText();
  const saved = await savedAs(({ at }) => at < today);
  return saved ?? (opened === undefined ? null : { trip: opened, at: null });
}

/** Remembers that a briefing of the trip went out. */
export async function rememberPrinted(kind: SlateKind, trip: Trip, wish: SinceWish): Promise<void> {
  if (kind !== 'briefing') return;
  const before = await sinceOf(kind, trip, wish);
  printed.set(placeOf(), { trip, at: localText(new Date()), before });
}
