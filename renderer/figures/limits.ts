/** The limits that room is measured to, in words. */
import { fileWords } from '../../core/words/reader';
import { LIMITS, pastSaid } from '../../core/words/terms';
import { isRoomUnknown } from '../../core/ledger/tightest';
import type { Entry, RoomLimit } from '../../core/ledger/ledger-types';

/** Behind a figure or "the". */
export const LIMIT_WORDS: Readonly<Record<RoomLimit, string>> = {
  'no-stop': fileWords(LIMITS['no-stop']),
  mod: fileWords(LIMITS.mod),
  po2: fileWords(LIMITS.po2),
  cns: fileWords(LIMITS.cns),
  'cns-day': fileWords(LIMITS['cns-day']),
  gas: fileWords(LIMITS.gas),
  oxygen: fileWords(LIMITS.oxygen),
  scrubber: fileWords(LIMITS.scrubber),
  'bail-out': fileWords(LIMITS['bail-out']),
  'diver-depth': fileWords(LIMITS['diver-depth']),
  interval: fileWords(LIMITS.interval),
};

/** Of a made dive with a limit and no minutes: "past the PO2 limit"; or that nothing is known. */
export function noMinutesText(entry: Entry, limit: RoomLimit | null): string {
  if (isRoomUnknown(entry, limit)) return 'CNS not known';
  return limit === null ? 'past its limit' : fileWords(pastSaid(limit));
}
