/** The limits that room is measured to, in words. */
import type { RoomLimit } from '../../core/trip/ledger-types';

/** Behind a figure or "the". */
export const LIMIT_WORDS: Readonly<Record<RoomLimit, string>> = {
  'no-stop': 'no-stop limit',
  mod: 'MOD',
  po2: 'PO₂ limit',
  cns: 'CNS clock',
  'cns-day': 'CNS of 24 h',
  gas: 'minimum gas',
  'diver-depth': 'own depth limit',
  interval: 'dive before',
};

/** Of a dive that is past a limit without a figure of how far: "past the PO₂ limit". */
export function pastText(limit: RoomLimit | null): string {
  return limit === null ? 'past its limit' : `past the ${LIMIT_WORDS[limit]}`;
}
