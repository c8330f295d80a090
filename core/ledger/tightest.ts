import { isAbovePo2 } from '../gas';
import { LAST_LIMIT_BAR } from '../oxygen/limits';
import { rounded } from '../words/quantity';
import type { Entry, RoomLimit } from './ledger-types';
import type { MinutesRoom } from './room';

/** Minutes of room of an entry, as `roomMinutes` has them. */
export type RoomOf = (entry: Entry) => MinutesRoom;

/**
 * Whether an entry has no room to tell because a clock ran out of figures on a dive before: it is past no limit
 * itself, as far as anybody knows.
 * @param limit of its minutes of room
 * Source: CONVENTIONS, "Room".
 */
export function isRoomUnknown(
  { isMade, po2Bar }: Pick<Entry, 'isMade' | 'po2Bar'>,
  limit: RoomLimit | null,
): boolean {
  return isMade && limit === 'po2' && !isAbovePo2(po2Bar ?? 0, LAST_LIMIT_BAR);
}

/**
 * The place of an entry in the order of rooms.
 * @returns minutes; -Infinity where there is no figure but a limit, Infinity where none is in reach or no mix may go
 * Source: CONVENTIONS, "Room".
 */
export function roomOrder({ isMade }: Pick<Entry, 'isMade'>, { min, minLimit }: MinutesRoom): number {
  if (!isMade || (min === null && minLimit === null)) return Infinity;
  return min ?? -Infinity;
}

/** What sums of leg times miss a whole number by. */
const DUST = 1e-9;

/** Whether a room is less than none: the dive is so many minutes too long. @param min minutes */
export function isTooLong(min: number): boolean {
  return min < -DUST;
}

/**
 * Whether a dive is past a limit that its room is measured to: by minutes, or by one that leaves no minutes at all.
 * @param room of the entry
 * @returns false too where no mix can be used there, or nothing is known: neither is a dive past its limit
 * Source: CONVENTIONS, "Room".
 */
export function isPastRoom(entry: Pick<Entry, 'isMade' | 'po2Bar'>, { min, minLimit }: MinutesRoom): boolean {
  if (!entry.isMade || isRoomUnknown(entry, minLimit)) return false;
  return min === null ? minLimit !== null : isTooLong(min);
}

/** Whether two rooms read alike: to the whole minute, as they are shown. */
function isSameRoom(one: number, other: number): boolean {
  // Most are minutes apart, and rounding is dear.
  if (Math.abs(one - other) > 2) return false;
  return one === other || rounded(one, 0, 'down') === rounded(other, 0, 'down');
}

function tightness(entry: Entry, roomOf: RoomOf): number {
  const room = roomOf(entry);
  return isRoomUnknown(entry, room.minLimit) ? Infinity : roomOrder(entry, room);
}

/**
 * The entry with the least room, the first of several with the very same.
 * @returns as the first of `tightestOf`; null where that has none
 * Source: as `tightestOf`.
 */
export function tightestEntry(entries: readonly Entry[], roomOf: RoomOf): Entry | null {
  let least: Entry | null = null;
  let leastMin = Infinity;
  for (const entry of entries) {
    const min = tightness(entry, roomOf);
    if (min >= leastMin) continue;
    least = entry;
    leastMin = min;
  }
  return least;
}

/**
 * The tightest of several entries, on every face: the one with the least room, and behind it all whose room reads the
 * same. What has no figure because a limit is passed is tighter than any figure.
 * @returns the least first, then in order of start; none where no limit is in reach; an entry of which nothing is known
 *   is as tight as no other
 * Source: CONVENTIONS, "Room".
 */
export function tightestOf(entries: readonly Entry[], roomOf: RoomOf): readonly Entry[] {
  const least = tightestEntry(entries, roomOf);
  if (least === null) return [];
  const leastMin = tightness(least, roomOf);
  const alike = entries.filter((entry) => entry !== least && isSameRoom(tightness(entry, roomOf), leastMin));
  return [least, ...alike.toSorted((a, b) => a.startMin - b.startMin)];
}
