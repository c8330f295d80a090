import type { Entry, RoomLimit } from '../../../core/ledger/ledger-types';
import { minutesText } from '../../figures/format';
import { noMinutesText } from '../../figures/limits';

/**
 * Room in a word or two. `key` is the entry's place in the order of rooms (`selectRoomKey`): minutes, or
 * infinite where there is no figure, which is said apart: past a limit, or none in reach.
 */
export function roomWords(entry: Entry, key: number, limit: RoomLimit | null): string {
  if (!entry.isMade) return 'no mix';
  if (key === Number.NEGATIVE_INFINITY) return noMinutesText(entry, limit);
  if (key === Number.POSITIVE_INFINITY) return 'no limit';
  return minutesText(key, 'down');
}
