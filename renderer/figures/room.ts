/** Room of a dive in the words of the window. */
import type { Entry, RoomLimit } from '../../core/ledger/ledger-types';
import { roomSaid, roomShortSaid } from '../../core/ledger/room-said';
import { wordsIn } from './reader';

/** Minutes are the same to every reader. */
const read = wordsIn({ units: 'metric', clock: '24h' });

/** "4 min", "13 min over"; without minutes the limit that is passed. */
export function roomWords(entry: Entry, min: number | null, limit: RoomLimit | null): string {
  return read(roomShortSaid(entry, { min, minLimit: limit }));
}

/** "4 min of room", "no room left", "13 min over". */
export function roomPhrase(entry: Entry, min: number | null, limit: RoomLimit | null): string {
  return read(roomSaid(entry, { min, minLimit: limit }));
}
