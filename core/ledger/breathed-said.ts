/** What a diver breathes on a dive, in words. */
import { bare, said, type Said } from '../words/said';
import { mixSaid } from '../words/terms';
import type { Entry } from './ledger-types';

/** "32 %" as a mix is called, "loop 1.2" by the high setpoint, or that no mix may go there. */
export function breathedSaid({ isMade, loop, o2 }: Pick<Entry, 'isMade' | 'loop' | 'o2'>): Said {
  if (loop !== null) return said`loop ${bare('po2Limit', loop.breathing.highBar)}`;
  return isMade && o2 !== null ? mixSaid(o2) : said`no mix`;
}
