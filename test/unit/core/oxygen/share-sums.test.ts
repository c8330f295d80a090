import { describe, expect, it } from 'vitest';
import { clockShare } from '../../../../core/oxygen/clock-pieces';
import { LIMIT_SPANS, limitMin } from '../../../../core/oxygen/limits';
import { ShareSums } from '../../../../core/oxygen/share-sums';

/** Rows of the table, their middles, a hair to either side of each, and what lies at and below 0.5 bar. */
const PRESSURES = [
  0,
  0.21,
  0.5,
  ...LIMIT_SPANS.daily.flatMap(({ fromBar, toBar }) => [
    fromBar + 1e-7,
    (fromBar + toBar) / 2,
    toBar - 1e-7,
    toBar,
  ]),
];

describe.each(['single', 'daily'] as const)('ShareSums of the %s clock', (clock) => {
  const sums = new ShareSums(clock);

  it('takes up to any pressure what a slope of a minute a bar takes, cut row by row', () => {
    for (const po2 of PRESSURES) {
      const share = clockShare([{ fromBar: 0, toBar: po2, min: po2 }], 1, clock)!;
      expect(Math.abs(sums.upTo(po2) - share), `${po2} bar`).toBeLessThanOrEqual(1e-13);
    }
  });

  it('has at any pressure the limit of the table', () => {
    for (const po2 of PRESSURES) {
      const limit = limitMin(po2, clock)!;
      if (limit === Infinity) expect(sums.limitMin(po2), `${po2} bar`).toBe(Infinity);
      else expect(sums.limitMin(po2) / limit, `${po2} bar`).toBeCloseTo(1, 12);
    }
  });

  it('holds the last limit above 1.6 bar', () => {
    expect(sums.limitMin(1.7)).toBeCloseTo(limitMin(1.6, clock)!, 9);
  });
});
