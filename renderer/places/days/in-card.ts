import type { Desk } from '../../store/store';

/** The parts that hold the card, and the strip with what stands about it. */
export const CARD_PART = 'days card';
export const STRIP_PART = 'days strip';

/**
 * Whether the hand is in the card. What it is in is drawn in the frame of the key, the rest of the place a frame later:
 * the card with the card, else the strip.
 */
export function isInCard(): boolean {
  return document.activeElement?.matches(`[data-part="${CARD_PART}"] *`) === true;
}

/** Whether the strip is drawn in the frame of the key: a dive that comes or goes may take the focus along. */
export function isStripFirst(now: Desk, before: Desk): boolean {
  return !isInCard() || now.trip.dives.length !== before.trip.dives.length;
}
