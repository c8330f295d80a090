/** The limits that room is measured to, in words. */
import { isAbovePo2 } from '../../core/gas';
import { fileWords } from '../../core/words/reader';
import { LIMITS } from '../../core/words/terms';
import { LAST_LIMIT_BAR } from '../../core/oxygen/limits';
import type { Entry, RoomLimit } from '../../core/ledger/ledger-types';

/** Behind a figure or "the". */
export const LIMIT_WORDS: Readonly<Record<RoomLimit, string>> = {
  'no-stop': fileWords(LIMITS['no-stop']),
  mod: fileWords(LIMITS.mod),
  po2: fileWords(LIMITS.po2),
  cns: fileWords(LIMITS.cns),
  'cns-day': fileWords(LIMITS['cns-day']),
  gas: fileWords(LIMITS.gas),
  'diver-depth': fileWords(LIMITS['diver-depth']),
  interval: fileWords(LIMITS.interval),
};

/**
 * Whether an entry has no room to tell because the clock ran out of figures on a dive before: it is past no limit
 * itself, as far as anybody knows.
 */
export function isRoomUnknown({ isMade, cns, po2Bar }: Pick<Entry, 'isMade' | 'cns' | 'po2Bar'>): boolean {
  return isMade && cns.after === null && !isAbovePo2(po2Bar ?? 0, LAST_LIMIT_BAR);
}

/** Of a made dive with a limit and no minutes: "past the PO2 limit"; or that nothing is known. */
export function noMinutesText(entry: Entry, limit: RoomLimit | null): string {
  if (isRoomUnknown(entry)) return 'CNS not known';
  return limit === null ? 'past its limit' : `past the ${LIMIT_WORDS[limit]}`;
}
