/** The log of a day: what was dived, missed, read and noted. Many entries are one step of undo. */
import { checkTrip } from '../../core/document/check-trip';
import { withAsPlanned, withMissedBy, withRestAsPlanned, type LoggedBy } from '../../core/document/log';
import type { DayDate, Dive, Id, Trip } from '../../core/document/types';
import type { SaidTrouble } from '../../core/words/said';
import { said } from '../../core/words/said';
import { dateText } from '../figures/format';
import { wordsIn } from '../figures/reader';
import { desk } from '../store/store';
import { edit, type EditResult } from './edit';
import { freeId } from './ids';

/** One entry, as what it makes of its dive. */
export interface LogEntry {
  readonly diveId: Id;
  readonly change: (dive: Dive, party: readonly Id[]) => Dive;
}

function idsOf({ party }: Trip): readonly Id[] {
  return party.map(({ id }) => id);
}

function inOrder(dives: readonly Dive[]): readonly Dive[] {
  return dives.toSorted((a, b) => (a.startsAt < b.startsAt ? -1 : a.startsAt > b.startsAt ? 1 : 0));
}

function withEntries(trip: Trip, entries: readonly LogEntry[]): Trip {
  const party = idsOf(trip);
  const dives = trip.dives.map((dive) =>
    entries.reduce((sum, { diveId, change }) => (diveId === dive.id ? change(sum, party) : sum), dive),
  );
  return { ...trip, dives: inOrder(dives) };
}

/**
 * Puts entries into the log in one step of undo. What cannot be is left out and given back; the rest is taken.
 * @returns for each entry null, or why it was not taken
 */
export function putLog(date: DayDate, entries: readonly LogEntry[]): readonly (SaidTrouble | null)[] {
  const name = { label: `Log of ${dateText(date)}`, code: 'day.log' };
  if (edit(name, (trip) => withEntries(trip, entries)).ok) return entries.map(() => null);
  const { trip, settings } = desk.getState();
  let taken = trip;
  const refused = entries.map((entry): SaidTrouble | null => {
    const next = withEntries(taken, [entry]);
    const [trouble] = checkTrip(
      next,
      wordsIn({ ...settings, trip, changed: { trip: next, newDive: said`the dive` } }),
    );
    if (trouble) return { what: said`${trouble.what}`, mend: said`${trouble.mend}` };
    taken = next;
    return null;
  });
  if (taken !== trip) edit(name, () => taken);
  return refused;
}

/** The dives of a day, as planned. */
export function divesOfDay({ dives }: Trip, date: DayDate): readonly Dive[] {
  return dives.filter(({ startsAt }) => startsAt.startsWith(date));
}

/** All of a day that is not logged yet went as planned. */
export function logRestAsPlanned(date: DayDate): EditResult {
  return edit({ label: `Log of ${dateText(date)}`, code: 'day.log' }, (trip) => {
    const ids = new Set(divesOfDay(trip, date).map(({ id }) => id));
    const dives = trip.dives.map((dive) => (ids.has(dive.id) ? withRestAsPlanned(dive, idsOf(trip)) : dive));
    return { ...trip, dives };
  });
}

function logDive(diveId: Id, change: LogEntry['change']): EditResult {
  return edit({ label: 'Log of a dive', code: 'day.log' }, (trip) => withEntries(trip, [{ diveId, change }]));
}

/** A whole dive went as planned, for all on it. */
export function logAsPlanned(diveId: Id): EditResult {
  return logDive(diveId, (dive, party) => withAsPlanned(dive, null, party));
}

/** A dive was missed, by a diver or by all. */
export function logMissed(diveId: Id, by: LoggedBy, reason: string): EditResult {
  return logDive(diveId, (dive, party) => withMissedBy(dive, by, reason, party));
}

/** What is known of a dive that nobody had planned. */
export type AddedDive = Pick<Dive, 'siteId' | 'startsAt' | 'depthM' | 'bottomMin'>;

/** A dive that was made without having been planned, by the whole party until somebody is taken off. */
export function addDived(dive: AddedDive): EditResult {
  const id = freeId('d', desk.getState().trip.dives);
  return edit({ label: 'Dive that was not planned', code: 'day.added' }, (trip) => ({
    ...trip,
    dives: inOrder([...trip.dives, { ...dive, id, mix: 'auto', added: true, asDived: [{}] }]),
  }));
}

/** What is noted of a day; nothing takes the note away. */
export function setDayNotes(date: DayDate, notes: string): EditResult {
  return edit({ label: `Notes of ${dateText(date)}`, code: 'day.notes' }, (trip) => {
    const { days = [], ...rest } = trip;
    const others = days.filter((day) => day.date !== date);
    const all = notes.trim() === '' ? others : [...others, { date, notes }];
    const ordered = all.toSorted((a, b) => (a.date < b.date ? -1 : 1));
    return ordered.length === 0 ? rest : { ...rest, days: ordered };
  });
}

/** What is noted of a dive; nothing takes the note away. */
export function setDiveNotes(diveId: Id, notes: string): EditResult {
  return edit({ label: 'Notes of a dive', code: 'dive.notes' }, (trip) => ({
    ...trip,
    dives: trip.dives.map((dive) => {
      if (dive.id !== diveId) return dive;
      const { notes: _, ...rest } = dive;
      return notes.trim() === '' ? rest : { ...rest, notes };
    }),
  }));
}

/** Plans a diver's dives from a day on with another gas rate; null takes the rate of that day back. */
export function planWithRate(diverId: Id, from: DayDate, surfaceRateLpm: number | null): EditResult {
  return edit({ label: `Gas rate from ${dateText(from)}`, code: 'diver.rate-from' }, (trip) => ({
    ...trip,
    party: trip.party.map((diver) => {
      if (diver.id !== diverId) return diver;
      const { rates = [], ...rest } = diver;
      const others = rates.filter((rate) => rate.from !== from);
      const all = surfaceRateLpm === null ? others : [...others, { from, surfaceRateLpm }];
      const ordered = all.toSorted((a, b) => (a.from < b.from ? -1 : 1));
      return ordered.length === 0 ? rest : { ...rest, rates: ordered };
    }),
  }));
}
