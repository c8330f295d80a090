/** Room in words, on every face. */
import { printed } from '../words/quantity';
import { figure, said, type Said } from '../words/said';
import { NO_ROOM, pastSaid } from '../words/terms';
import type { Entry } from './ledger-types';
import type { MinutesRoom } from './room';
import { isRoomUnknown, isTooLong } from './tightest';

type Of = Pick<Entry, 'isMade' | 'po2Bar'>;

/** Of a dive that no mix may make. */
const NO_MIX = said`no mix`;

/** Of a dive that no limit is in reach of. */
const NO_LIMIT = said`no limit in reach`;

/** Of a dive after one above 1.6 bar: no clock tells what is left. */
const UNKNOWN = said`CNS not known`;

function withoutMinutes(entry: Of, { minLimit }: MinutesRoom): Said {
  if (!entry.isMade) return NO_MIX;
  if (minLimit === null) return NO_LIMIT;
  return isRoomUnknown(entry, minLimit) ? UNKNOWN : pastSaid(minLimit);
}

/** Minutes past a limit, "2 min over". @param min of room, below zero */
export function overSaid(min: number): Said {
  return said`${figure('minutesMet', -min)} over`;
}

/**
 * What is left of a dive or what it is past, where "room" stands over it: "4 min", "2 min over", "past the MOD".
 * Source: room is rounded down and what is over up, CONVENTIONS, "Room".
 */
export function roomShortSaid(entry: Of, room: MinutesRoom): Said {
  if (!entry.isMade || room.min === null) return withoutMinutes(entry, room);
  return isTooLong(room.min) ? overSaid(room.min) : said`${figure('minutesLeft', Math.max(0, room.min))}`;
}

/** The same in a sentence: "4 min of room", "no room left", "2 min over". Source: as `roomShortSaid`. */
export function roomSaid(entry: Of, room: MinutesRoom): Said {
  if (!entry.isMade || room.min === null || isTooLong(room.min)) return roomShortSaid(entry, room);
  const left = Math.max(0, room.min);
  return printed(left, 'minutesLeft', 'metric') === 0
    ? NO_ROOM
    : said`${figure('minutesLeft', left)} of room`;
}
