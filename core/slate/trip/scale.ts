import type { Entry } from '../../ledger/ledger-types';

export const DAY_MIN = 1440;

/** Share of a day's width that belongs to its diving hours; the night gets the rest. */
const DAYTIME_SHARE = 0.86;

/** A minute in the water is as wide as so many at the surface. Source: choice of this project, to see a dive's shape. */
const WET = 3;

/** White around the first and the last dive of the diving hours, minutes. */
const EDGE_MIN = 45;

/** Time along the page: every day equally wide, its diving hours most of it. Strictly rising. */
export interface TimeScale {
  readonly firstDay: number;
  readonly days: number;
  /** Minutes of the day between which is dived; the rest is night. */
  readonly fromMin: number;
  readonly toMin: number;
  /** Days since the first one, 0 at its midnight. */
  readonly at: (min: number) => number;
}

/**
 * The scale of a trip: from the first day of its dives to the last, those that are not made included, as their
 * days have a heading too.
 * @param entries at least one
 */
export function timeScale(entries: readonly Entry[]): TimeScale {
  const dayOf = (min: number): number => Math.floor(min / DAY_MIN);
  const firstDay = dayOf(Math.min(...entries.map((entry) => entry.startMin)));
  const days = dayOf(Math.max(...entries.map((entry) => entry.surfacesMin))) - firstDay + 1;
  const starts = entries.map((entry) => entry.startMin - dayOf(entry.startMin) * DAY_MIN);
  const ends = entries.map((entry) => Math.min(DAY_MIN, entry.surfacesMin - dayOf(entry.startMin) * DAY_MIN));
  const from = Math.max(0, Math.min(...starts) - EDGE_MIN);
  const to = Math.min(DAY_MIN, Math.max(...ends) + EDGE_MIN);
  const night = DAY_MIN - (to - from);
  const dayShare = night <= 0 ? 1 : DAYTIME_SHARE;
  const before = night <= 0 ? 0 : ((1 - dayShare) * from) / night;
  const alongs = Array.from({ length: days }, (_, day) =>
    alongOf(
      entries
        .map(({ startMin, surfacesMin }): Stretch => [
          startMin - (firstDay + day) * DAY_MIN,
          surfacesMin - (firstDay + day) * DAY_MIN,
        ])
        .filter(([start, end]) => end > from && start < to),
      from,
      to,
    ),
  );
  return {
    firstDay,
    days,
    fromMin: from,
    toMin: to,
    at: (min) => {
      const day = dayOf(min) - firstDay;
      const time = min - dayOf(min) * DAY_MIN;
      const along = alongs[Math.max(0, Math.min(days - 1, day))]!;
      const inDay =
        time < from
          ? (time / Math.max(from, 1)) * before
          : time <= to
            ? before + along(time) * dayShare
            : before + dayShare + ((time - to) / (DAY_MIN - to)) * (1 - dayShare - before);
      return day + inDay;
    },
  };
}

type Stretch = readonly [startMin: number, endMin: number];

/** The part of the diving hours that has gone by at a time of a day, 0 to 1, its minutes in the water counted more. */
function alongOf(wet: readonly Stretch[], from: number, to: number): (time: number) => number {
  const weightUntil = (time: number): number =>
    wet.reduce(
      (sum, [start, end]) => sum + (WET - 1) * Math.max(0, Math.min(time, end) - Math.max(from, start)),
      time - from,
    );
  const whole = weightUntil(to);
  return (time) => weightUntil(time) / whole;
}
