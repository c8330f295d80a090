import type { Trip } from '../document/types';
import { writeTrip } from '../document/write-trip';
import { crc32, utf8 } from '../bytes';

/**
 * A short mark of all that a plan says: two prints with different marks are of different plans. Alike marks
 * are no proof of the contrary, as one in 65 536 is so by chance.
 * @returns four hexadecimal digits, the same for the same trip wherever it is printed: the lower half of the
 *   CRC-32 of its file
 * Source: this project; the CRC-32 of archives.
 */
export function planMark(trip: Trip): string {
  // What other programs know the trip by is no part of the plan.
  const { id: _, ...plan } = trip;
  return (crc32(utf8(writeTrip(plan))) & 0xffff).toString(16).padStart(4, '0');
}
