/** Room of a dive in words, where there is a line for it. */
import type { Entry, RoomLimit } from '../../core/ledger/ledger-types';
import { isTooLong } from '../../core/ledger/tightest';
import { minutesText } from './format';
import { noMinutesText } from './limits';

/** "4 min", "13 min too long", of an entry that has a limit in reach; null is past one without a figure. */
export function roomWords(entry: Entry, min: number | null, limit: RoomLimit | null): string {
  if (min === null) return noMinutesText(entry, limit);
  return isTooLong(min) ? `${minutesText(-min, 'up')} too long` : minutesText(min, 'down');
}

/** "4 min of room", "13 min too long". */
export function roomPhrase(entry: Entry, min: number | null, limit: RoomLimit | null): string {
  const words = roomWords(entry, min, limit);
  return min === null || isTooLong(min) ? words : `${words} of room`;
}
