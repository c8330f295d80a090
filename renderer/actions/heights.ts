/** Edits of the stays at other heights: a pass on the way, a lake between days at sea. */
import type { Id, Trip, TripEvent } from '../../core/document/types';
import { wallMin, wallText, type WallTime } from '../../core/words/calendar';
import { desk } from '../store/store';
import { edit, type EditResult } from './edit';
import { freeId } from './ids';

const DAY_MIN = 1440;

/** A stay is first put an hour and a half long, on the morning after the last dive or the last stay. */
const FIRST = { atMin: 10 * 60, lastsMin: 90, altitudeM: 1000 } as const;

function withEvents(trip: Trip, events: readonly TripEvent[]): Trip {
  const { events: _, ...rest } = trip;
  return events.length === 0
    ? rest
    : { ...rest, events: events.toSorted((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : 0)) };
}

function labelOf(id: Id, what: string): string {
  const title = desk.getState().trip.events?.find((event) => event.id === id)?.title ?? id;
  return `${what} of ${title}`;
}

/** @param today "2027-03-06", where the trip has neither dive nor stay yet */
export function addEvent(today: string): EditResult {
  return edit({ label: 'A stay at another height', code: 'event.add' }, (trip) => {
    const { events = [] } = trip;
    const last = [trip.dives.at(-1)?.startsAt, events.at(-1)?.to].filter((time) => time !== undefined);
    const lastMin = last.length === 0 ? null : Math.max(...last.map(wallMin));
    const dayMin =
      lastMin === null ? wallMin(`${today}T00:00`) : DAY_MIN * (Math.floor(lastMin / DAY_MIN) + 1);
    const fromMin = dayMin + FIRST.atMin;
    const event: TripEvent = {
      id: freeId('e', events),
      title: 'A pass',
      from: wallText(fromMin),
      to: wallText(fromMin + FIRST.lastsMin),
      altitudeM: FIRST.altitudeM,
    };
    return withEvents(trip, [...events, event]);
  });
}

function editEvent(id: Id, what: string, change: (event: TripEvent) => TripEvent): EditResult {
  return edit({ label: labelOf(id, what), code: `event.${what.toLowerCase()}` }, (trip) =>
    withEvents(
      trip,
      (trip.events ?? []).map((event) => (event.id === id ? change(event) : event)),
    ),
  );
}

export function setEventTitle(id: Id, title: string): EditResult {
  return editEvent(id, 'Name', (event) => ({ ...event, title }));
}

/** The stay is moved and lasts as long: its end has not to be mended after its day. */
export function setEventFrom(id: Id, from: WallTime): EditResult {
  return editEvent(id, 'Beginning', (event) => {
    const lastsMin = wallMin(event.to) - wallMin(event.from);
    return { ...event, from, to: wallText(wallMin(from) + lastsMin) };
  });
}

export function setEventTo(id: Id, to: WallTime): EditResult {
  return editEvent(id, 'End', (event) => ({ ...event, to }));
}

export function setEventAltitude(id: Id, altitudeM: number): EditResult {
  return editEvent(id, 'Height', (event) => ({ ...event, altitudeM }));
}

export function removeEvent(id: Id): EditResult {
  return edit({ label: labelOf(id, 'Removal'), code: 'event.remove' }, (trip) =>
    withEvents(
      trip,
      (trip.events ?? []).filter((event) => event.id !== id),
    ),
  );
}
