import { wallMin, wallText } from '../../core/trip/clock';
import type { WallMin } from '../../core/trip/ledger-types';
import type { Id, WallTime } from '../../core/trip/types';
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

/**
 * Where a new dive goes: three hours after the selected or last one or when the water is next free, on the next
 * morning if that is late. A trip without dives begins two days before its flight, else on `today` ("2027-03-06").
 */
export function nextStart(state: Desk, today: string): WallTime {
  const { dives, flight } = state.trip;
  const after = selectChosenDive(state) ?? dives.at(-1);
  if (!after) {
    if (!flight) return `${today}T${FIRST_START}`;
    const dayBefore = wallMin(flight.at) - 2 * DAY_MIN;
    return `${wallText(dayBefore).slice(0, 10)}T${FIRST_START}`;
  }
  const afterMin = wallMin(after.startsAt);
  const span = { fromMin: afterMin, toMin: afterMin + NEW_DIVE_MIN };
  return wallText(afterMin + freeShift([span], [...spansOf(state).values()], USUAL_GAP_MIN));
}
