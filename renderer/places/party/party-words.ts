/** The figures of the place in words. */
import { wallText, type WallMin } from '../../../core/words/calendar';
import type { Settings } from '../../../core/host';
import type { Entry, Room, RoomLimit } from '../../../core/ledger/ledger-types';
import { clockText, dateText, minutesText, NO_FIGURE } from '../../figures/format';
import { LIMIT_WORDS, noMinutesText } from '../../figures/limits';
import { isTooLong } from '../../../core/ledger/tightest';

/** From here on room is in the cautionary colour, as on the card of a dive. */
export const CARE_BELOW_MIN = 5;

/** "4 min to the no-stop limit", "13 min past the minimum gas". */
export function limitPhrase(entry: Entry, { min, minLimit }: Pick<Room, 'min' | 'minLimit'>): string {
  if (min === null) return noMinutesText(entry, minLimit);
  const limit = minLimit === null ? 'its limit' : `the ${OWN_WORDS[minLimit]}`;
  return isTooLong(min)
    ? `${minutesText(-min, 'up')} past ${limit}`
    : `${minutesText(min, 'down')} to ${limit}`;
}

export function isCare(min: number | null): boolean {
  return min === null || min < CARE_BELOW_MIN;
}

export function momentText(min: WallMin | null, clock: Settings['clock']): string {
  return min === null ? NO_FIGURE : `${dateText(wallText(min))}, ${clockText(wallText(min), clock)}`;
}

export function entryDate(entry: Entry): string {
  return dateText(wallText(entry.startMin));
}

/** Behind "4 min to the …". */
const OWN_WORDS: Readonly<Record<RoomLimit, string>> = {
  ...LIMIT_WORDS,
  cns: 'limit of the CNS clock',
  'cns-day': 'CNS limit of 24 h',
  'diver-depth': 'depth limit',
  interval: 'limit of the interval',
};
