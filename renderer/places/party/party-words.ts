/** The figures of the place in words. */
import { wallText } from '../../../core/trip/clock';
import type { Settings } from '../../../core/host';
import type { Entry, Room, RoomLimit, WallMin } from '../../../core/trip/ledger-types';
import { clockText, dateText, minutesText, NO_FIGURE } from '../../figures/format';

/** From here on room is in the cautionary colour, as on the card of a dive. */
export const CARE_BELOW_MIN = 5;

const DUST = 1e-9;

/** Of an entry that has a limit in reach; null is past one without a figure of how far. */
export function roomWords(min: number | null): string {
  if (min === null) return 'past its limit';
  return min < -DUST ? `${minutesText(-min, 'up')} too long` : minutesText(min, 'down');
}

/** "4 min of room", "13 min too long". */
export function roomPhrase(min: number | null): string {
  return min === null || min < -DUST ? roomWords(min) : `${roomWords(min)} of room`;
}

/** "4 min to the no-stop limit", "13 min past the end of the gas". */
export function limitPhrase({ min, minLimit }: Pick<Room, 'min' | 'minLimit'>): string {
  const limit = minLimit === null ? 'its limit' : LIMIT_WORDS[minLimit];
  if (min === null) return `past ${limit}`;
  return min < -DUST ? `${minutesText(-min, 'up')} past ${limit}` : `${minutesText(min, 'down')} to ${limit}`;
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

const LIMIT_WORDS: Readonly<Record<RoomLimit, string>> = {
  'no-stop': 'the no-stop limit',
  mod: 'the MOD',
  po2: 'the PO₂ limit',
  cns: 'the limit of the CNS clock',
  'cns-day': 'the CNS limit of 24 h',
  gas: 'the end of the gas',
  'diver-depth': 'the depth limit',
  interval: 'the limit of the interval',
};
