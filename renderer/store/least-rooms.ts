/** Which of several entries are the tight ones. */
import type { Entry } from '../../core/ledger/ledger-types';
import { rounded } from '../../core/words/quantity';
import { isRoomUnknown } from '../figures/limits';

/** Orders entries by room, as `selectRoomKey` gives it: past a limit without a figure first, no limit in reach last. */
export type RoomKey = (entry: Entry) => number;

/** Whether two rooms read alike: to the whole minute, as they are shown. */
function isSameRoom(one: number, other: number): boolean {
  // Most are minutes apart, and rounding is dear.
  if (Math.abs(one - other) > 2) return false;
  return one === other || rounded(one, 0, 'down') === rounded(other, 0, 'down');
}

/**
 * The entry with the least room, and behind it all whose room reads the same, in order of start.
 * @returns none where no limit is in reach; an entry of which nothing is known is as tight as no other
 */
export function leastRooms(entries: readonly Entry[], key: RoomKey): readonly Entry[] {
  let least: Entry | null = null;
  for (const entry of entries) {
    if (key(entry) === Number.POSITIVE_INFINITY || isRoomUnknown(entry)) continue;
    if (least === null || key(entry) < key(least)) least = entry;
  }
  if (least === null) return [];
  const leastKey = key(least);
  const alike = entries.filter(
    (entry) => entry !== least && isSameRoom(key(entry), leastKey) && !isRoomUnknown(entry),
  );
  return [least, ...alike.toSorted((a, b) => a.startMin - b.startMin)];
}
