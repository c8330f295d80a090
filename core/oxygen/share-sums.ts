import { EXPOSURE_FROM_BAR, LAST_LIMIT_BAR, LIMIT_SPANS, type OxygenClock } from './limits';

/** Width of a span of the table, bar. */
const STEP_BAR = 0.1;

/**
 * Shares of an oxygen limit by antiderivative, for who asks for very many: on a slope PO2 runs evenly, so the share is
 * (H(to) - H(from)) / rate with H the integral of 1 / limit over PO2. That is a logarithm an end, where cutting the leg
 * at every row of the table takes one a row; the sum is the same.
 * Source: as core/oxygen/clock-pieces.ts, taken at once.
 */
export class ShareSums {
  private readonly fromLimit: Float64Array;
  private readonly slope: Float64Array;
  private readonly before: Float64Array;

  constructor(clock: OxygenClock) {
    const spans = LIMIT_SPANS[clock];
    this.fromLimit = Float64Array.from(spans, (span) => span.fromLimitMin);
    this.slope = Float64Array.from(spans, (span) => span.minPerBar);
    this.before = new Float64Array(spans.length + 1);
    spans.forEach((span, n) => {
      this.before[n + 1] = this.before[n]! + this.within(n, span.toBar - span.fromBar);
    });
  }

  private within(n: number, bar: number): number {
    const slope = this.slope[n]!;
    return slope === 0 ? bar / this.fromLimit[n]! : Math.log1p((slope * bar) / this.fromLimit[n]!) / slope;
  }

  private spanAt(po2: number): number {
    return Math.min(this.slope.length - 1, Math.floor((po2 - EXPOSURE_FROM_BAR) / STEP_BAR));
  }

  /**
   * Integral of 1 / limit from 0 up to a PO2.
   * @param po2 bar, at most 1.6 @returns bar a minute
   * Source: as the class.
   */
  upTo(po2: number): number {
    if (po2 <= EXPOSURE_FROM_BAR) return 0;
    const n = this.spanAt(po2);
    return this.before[n]! + this.within(n, po2 - EXPOSURE_FROM_BAR - n * STEP_BAR);
  }

  /**
   * As `limitMin`, at most at 1.6 bar.
   * @param po2 bar @returns minutes; Infinity where nothing counts
   * Source: as `limitMin`.
   */
  limitMin(po2: number): number {
    if (po2 <= EXPOSURE_FROM_BAR) return Infinity;
    const bar = Math.min(po2, LAST_LIMIT_BAR);
    const n = this.spanAt(bar);
    return this.fromLimit[n]! + this.slope[n]! * (bar - EXPOSURE_FROM_BAR - n * STEP_BAR);
  }
}
