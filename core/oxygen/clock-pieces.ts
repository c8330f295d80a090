import type { Leg } from '../profile';
import {
  EXPOSURE_FROM_BAR,
  LIMIT_SPANS,
  limitWithin,
  withoutDust,
  type LimitSpan,
  type OxygenClock,
} from './limits';

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

/** What a minute takes while a whole span is gone through, up or down: its logarithm is taken once. */
const SHARE_PER_MIN: Readonly<Record<OxygenClock, readonly number[]>> = {
  single: sharesPerMin(LIMIT_SPANS.single),
  daily: sharesPerMin(LIMIT_SPANS.daily),
};

function sharesPerMin(spans: readonly LimitSpan[]): readonly number[] {
  return spans.map(({ fromLimitMin, toLimitMin }) => limitShare(1, fromLimitMin, toLimitMin));
}

/** A piece of a dive: its span, its oxygen pressures, from when and how long. Both clocks have their spans alike. */
type Visit = (span: number, fromBar: number, toBar: number, fromMin: number, min: number) => void;

const SPANS = LIMIT_SPANS.daily;

/**
 * Goes through a dive in order of time, cut where the limit's line bends, so that in each piece the limit is linear.
 * @param legs in order, pressures in bar @param o2 oxygen fraction, 0 to 1 @param startMin minutes
 * @returns false where the oxygen pressure passes 1.6 bar at any moment, as no limit exists there
 */
function eachPiece(legs: readonly OxygenLeg[], o2: number, startMin: number, visit: Visit): boolean {
  let legFromMin = startMin;
  for (const { fromBar, toBar, min } of legs) {
    const from = withoutDust(o2 * fromBar);
    const to = withoutDust(o2 * toBar);
    if (from === null || to === null) return false;
    if (min > 0 && (from > EXPOSURE_FROM_BAR || to > EXPOSURE_FROM_BAR)) {
      if (from === to) visit(spanUpTo(from), from, from, legFromMin, min);
      else if (to > from) goUp(from, to, legFromMin, min, visit);
      else goDown(from, to, legFromMin, min, visit);
    }
    legFromMin += min;
  }
  return true;
}

/** The span in which a pressure lies, or whose upper end it is. @param po2 bar, 1.6 at most */
function spanUpTo(po2: number): number {
  let span = 0;
  while (po2 > SPANS[span]!.toBar) span += 1;
  return span;
}

/** As `eachPiece` along a leg on which the pressure rises. */
function goUp(from: number, to: number, legFromMin: number, legMin: number, visit: Visit): void {
  const minPerBar = legMin / (to - from);
  let bar = Math.max(from, EXPOSURE_FROM_BAR);
  // From a row of the table the leg goes on into the span above it.
  for (let span = SPANS.findIndex(({ toBar }) => toBar > bar); bar < to; span += 1) {
    const end = Math.min(to, SPANS[span]!.toBar);
    visit(span, bar, end, legFromMin + (bar - from) * minPerBar, (end - bar) * minPerBar);
    bar = end;
  }
}

/** As `eachPiece` along a leg on which the pressure falls. */
function goDown(from: number, to: number, legFromMin: number, legMin: number, visit: Visit): void {
  const minPerBar = legMin / (to - from);
  const lastBar = Math.max(to, EXPOSURE_FROM_BAR);
  let bar = from;
  for (let span = spanUpTo(from); bar > lastBar; span -= 1) {
    const end = Math.max(lastBar, SPANS[span]!.fromBar);
    visit(span, bar, end, legFromMin + (bar - from) * minPerBar, (end - bar) * minPerBar);
    bar = end;
  }
}

/** What a clock counts of a piece within one span. */
function shareOf(clock: OxygenClock, span: number, fromBar: number, toBar: number, min: number): number {
  const row = LIMIT_SPANS[clock][span]!;
  const isWhole = Math.min(fromBar, toBar) === row.fromBar && Math.max(fromBar, toBar) === row.toBar;
  if (isWhole) return min * SHARE_PER_MIN[clock][span]!;
  return limitShare(min, limitWithin(row, fromBar), limitWithin(row, toBar));
}

/** A piece as the daily clock sees it. */
function dailyPiece(span: number, fromBar: number, toBar: number, fromMin: number, min: number): ClockPiece {
  return {
    fromMin,
    toMin: fromMin + min,
    fromLimitMin: limitWithin(SPANS[span]!, fromBar),
    toLimitMin: limitWithin(SPANS[span]!, toBar),
    share: shareOf('daily', span, fromBar, toBar, min),
  };
}

/** A dive on both clocks: its share of the limit in one exposure, and the pieces of the daily one. */
export interface BothClocks {
  readonly single: number;
  readonly daily: readonly ClockPiece[];
  /** Of the daily limit, all pieces together. */
  readonly dailyShare: number;
}

/**
 * A dive on both clocks, cut where the limit's line bends, so that in each piece the limit is linear in time.
 * @param legs in order, pressures in bar @param o2 oxygen fraction, 0 to 1 @param startMin minutes
 * @returns the share, and pieces in order of time, without those at or below 0.5 bar; null where the oxygen pressure
 *   passes 1.6 bar at any moment, as no limit exists there
 * Source: NOAA limits with straight lines between the rows (core/oxygen/limits.ts).
 */
export function bothClocks(legs: readonly OxygenLeg[], o2: number, startMin: number): BothClocks | null {
  const daily: ClockPiece[] = [];
  let single = 0;
  let dailyShare = 0;
  const isKnown = eachPiece(legs, o2, startMin, (span, fromBar, toBar, fromMin, min) => {
    single += shareOf('single', span, fromBar, toBar, min);
    const piece = dailyPiece(span, fromBar, toBar, fromMin, min);
    dailyShare += piece.share;
    daily.push(piece);
  });
  return isKnown ? { single, daily, dailyShare } : null;
}

/**
 * The share of a limit that a dive takes: that of its pieces, summed up.
 * @returns fraction; null where the oxygen pressure passes 1.6 bar
 * Source: as `bothClocks`.
 */
export function clockShare(legs: readonly OxygenLeg[], o2: number, clock: OxygenClock): number | null {
  let sum = 0;
  const isKnown = eachPiece(legs, o2, 0, (span, fromBar, toBar, _fromMin, min) => {
    sum += shareOf(clock, span, fromBar, toBar, min);
  });
  return isKnown ? sum : null;
}
