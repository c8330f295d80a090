import type { Leg } from '../profile';
import { EXPOSURE_FROM_BAR, LIMIT_SPANS, limitWithin, withoutDust, type OxygenClock } from './limits';

/** What of a leg the oxygen clocks ask: pressure runs linearly from one end to the other. */
export type OxygenLeg = Pick<Leg, 'fromBar' | 'toBar' | 'min'>;

/** A time in which the oxygen limit runs linearly, with the share of the limit it takes. */
export interface ClockPiece {
  readonly fromMin: number;
  readonly toMin: number;
  readonly fromLimitMin: number;
  readonly toLimitMin: number;
  /** Integral of dt / limit over the piece. */
  readonly share: number;
}

/**
 * Share of a limit that a time takes while the limit itself runs linearly.
 * @param min minutes, 0 or more @param fromLimitMin minutes, above 0 @param toLimitMin minutes, above 0
 * @returns fraction: min ln(L2 / L1) / (L2 - L1), which tends to min / L1 where L2 = L1.
 *   Written as min / L1 * log1p(r) / r with r = (L2 - L1) / L1, it keeps all digits at any slope.
 * Source: E. C. Baker, "Oxygen toxicity calculations" (closed form for sloping legs).
 */
export function limitShare(min: number, fromLimitMin: number, toLimitMin: number): number {
  const rise = (toLimitMin - fromLimitMin) / fromLimitMin;
  const level = min / fromLimitMin;
  return rise === 0 ? level : (level * Math.log1p(rise)) / rise;
}

/**
 * A dive cut where the limit's line bends, so that in each piece the limit is linear in time.
 * @param legs in order, pressures in bar @param o2 oxygen fraction, 0 to 1 @param startMin minutes
 * @returns pieces in order of time, without those at or below 0.5 bar; null where the oxygen pressure passes
 *   1.6 bar at any moment, as no limit exists there
 * Source: NOAA limits with straight lines between the rows (core/oxygen/limits.ts).
 */
export function clockPieces(
  legs: readonly OxygenLeg[],
  o2: number,
  clock: OxygenClock,
  startMin: number,
): readonly ClockPiece[] | null {
  const pieces: ClockPiece[] = [];
  const spans = LIMIT_SPANS[clock];
  let legStartMin = startMin;
  for (const leg of legs) {
    const from = withoutDust(o2 * leg.fromBar);
    const to = withoutDust(o2 * leg.toBar);
    if (from === null || to === null) return null;
    const isRising = to > from;
    const low = Math.min(from, to);
    const high = Math.max(from, to);
    if (leg.min > 0 && high > EXPOSURE_FROM_BAR) {
      for (let index = 0; index < spans.length; index += 1) {
        const span = spans[isRising ? index : spans.length - 1 - index]!;
        if (
          low === high
            ? !(low > span.fromBar && low <= span.toBar)
            : low >= span.toBar || high <= span.fromBar
        ) {
          continue;
        }
        const first = isRising ? Math.max(from, span.fromBar) : Math.min(from, span.toBar);
        const last = isRising ? Math.min(to, span.toBar) : Math.max(to, span.fromBar);
        const perBar = low === high ? 0 : leg.min / (to - from);
        const min = low === high ? leg.min : (last - first) * perBar;
        const fromLimitMin = limitWithin(span, first);
        const toLimitMin = limitWithin(span, last);
        const fromMin = legStartMin + (first - from) * perBar;
        pieces.push({
          fromMin,
          toMin: fromMin + min,
          fromLimitMin,
          toLimitMin,
          share: limitShare(min, fromLimitMin, toLimitMin),
        });
      }
    }
    legStartMin += leg.min;
  }
  return pieces;
}
