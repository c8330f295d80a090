import type { Trouble } from '../../core/result';
import { wallMin, wallText, type WallMin, type WallTime } from '../../core/words/calendar';
import { flyingRow, HOURS_BEFORE_FLIGHT } from '../../core/ledger/flying';
import type { Id } from '../../core/document/types';
import { clockText, dateText } from '../figures/format';
import { selectChosenDive, selectLedger } from '../store/selectors';
import type { Desk } from '../store/store';

/** Start to start, where nobody said when. */
const USUAL_GAP_MIN = 180;
const FIRST_START = '08:00';
const FIRST_MIN = 8 * 60;
const LAST_HOUR_MIN = 19 * 60;
const DAY_MIN = 1440;

/** Left at the surface before and after. As much as the cautions ask for. */
const SURFACE_MIN = 60;
/** What a new dive is taken to last until somebody says so. */
const NEW_DIVE_MIN = 60;
const STEP_MIN = 5;

interface Span {
  readonly fromMin: WallMin;
  readonly toMin: WallMin;
}

/** When somebody is in the water, by dive: as dived, stops included. */
function spansOf(state: Desk): ReadonlyMap<Id, Span> {
  const spans = new Map<Id, Span>();
  for (const { dive, startMin, surfacesMin } of selectLedger(state).divers.flatMap(
    ({ entries }) => entries,
  )) {
    const held = spans.get(dive.id);
    spans.set(dive.id, {
      fromMin: Math.min(startMin, held?.fromMin ?? startMin),
      toMin: Math.max(surfacesMin, held?.toMin ?? surfacesMin),
    });
  }
  return spans;
}

/** Nobody who did not ask for it is sent in before the morning of another day, or late in the evening. */
function isByDay(min: WallMin, originalMin: WallMin): boolean {
  const isSameDay = Math.floor(min / DAY_MIN) === Math.floor(originalMin / DAY_MIN);
  return min % DAY_MIN <= LAST_HOUR_MIN && (isSameDay || min % DAY_MIN >= FIRST_MIN);
}

/** How much later the spans are free together, and by day. */
function freeShift(spans: readonly Span[], taken: readonly Span[], fromMin: number): number {
  const first = Math.min(...spans.map((span) => span.fromMin));
  let byMin = fromMin;
  for (;;) {
    const at = byMin;
    const isFree = spans.every((span) =>
      taken.every(
        (other) =>
          span.fromMin + at >= other.toMin + SURFACE_MIN || span.toMin + at + SURFACE_MIN <= other.fromMin,
      ),
    );
    // Behind the last of them every day is free, so this ends.
    if (isFree && isByDay(first + at, first)) return at;
    byMin += STEP_MIN;
  }
}

/** How much later copies of dives go: three hours, or to the next moment at which the water is free for all of them. */
export function copyShift(state: Desk, ids: readonly Id[]): number {
  const byDive = spansOf(state);
  const spans = ids.flatMap((id) => byDive.get(id) ?? []);
  return spans.length === 0 ? USUAL_GAP_MIN : freeShift(spans, [...byDive.values()], USUAL_GAP_MIN);
}

/** Hours that somebody's dives of the trip and one day more leave before a flight. */
function hoursBeforeFlight(state: Desk): number {
  const rows = selectLedger(state).divers.map((each) => flyingRow(each) ?? 'oneNoStopDive');
  const { severalDivesOrDays } = HOURS_BEFORE_FLIGHT;
  return Math.max(severalDivesOrDays, ...rows.map((row) => HOURS_BEFORE_FLIGHT[row]));
}

/**
 * How much later the copy of a day goes: to the first later day without dives. Refused where that would take of
 * the hours before the flight, as every day behind it would too.
 */
export function dayShift(state: Desk, date: string): number | Trouble {
  const { dives, flight } = state.trip;
  const taken = new Set(dives.map((dive) => dive.startsAt.slice(0, 10)));
  const from = wallMin(`${date}T00:00`);
  let byMin = DAY_MIN;
  while (taken.has(wallText(from + byMin).slice(0, 10))) byMin += DAY_MIN;
  if (!flight) return byMin;
  const spans = spansOf(state);
  const ends = dives
    .filter(({ startsAt }) => startsAt.startsWith(date))
    .map(({ id }) => spans.get(id)?.toMin ?? 0);
  const hours = hoursBeforeFlight(state);
  if (Math.max(...ends) + byMin + hours * 60 <= wallMin(flight.at)) return byMin;
  const day = dateText(wallText(from + byMin));
  const at = `${dateText(flight.at)}, ${clockText(flight.at, state.settings.clock)}`;
  return {
    kind: 'in-use',
    what: `The first day without dives is ${day}, and a copy there would not leave ${hours} h before the flight on ${at}.`,
    where: 'flight.at',
    mend: 'Remove the dives of another day first, or set a later flight.',
  };
}

/**
 * Where a new dive goes: three hours after the selected or last one or when the water is next free, on the next
 * morning if that is late. A trip without dives begins two days before its flight, else on the morning after
 * `today` ("2027-03-06"): this one may be over.
 */
export function nextStart(state: Desk, today: string): WallTime {
  const { dives, flight } = state.trip;
  const after = selectChosenDive(state) ?? dives.at(-1);
  if (!after) {
    if (!flight) return wallText(wallMin(`${today}T${FIRST_START}`) + DAY_MIN);
    const dayBefore = wallMin(flight.at) - 2 * DAY_MIN;
    return `${wallText(dayBefore).slice(0, 10)}T${FIRST_START}`;
  }
  const afterMin = wallMin(after.startsAt);
  const span = { fromMin: afterMin, toMin: afterMin + NEW_DIVE_MIN };
  return wallText(afterMin + freeShift([span], [...spansOf(state).values()], USUAL_GAP_MIN));
}
