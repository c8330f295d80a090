import { describe, expect, it } from 'vitest';
import { esotAdvised, otuAllowedToday, otuTotalAllowed } from '../../../../core/oxygen/budgets';
import { cnsFraction, cnsMinutesLeft } from '../../../../core/oxygen/cns';
import { esot, kIndex } from '../../../../core/oxygen/esot';
import { LIMIT_SPANS, limitMin, limitWithin, withoutDust } from '../../../../core/oxygen/limits';
import { meanPower } from '../../../../core/oxygen/mean-power';
import { otu } from '../../../../core/oxygen/otu';

function slope(fromBar: number, toBar: number, min: number) {
  return [{ fromBar, toBar, min }];
}

describe('limitMin', () => {
  it('is linear between the rows, for one exposure and for the day apart', () => {
    expect(limitMin(1.05, 'single')).toBeCloseTo(270, 9);
    expect(limitMin(1.05, 'daily')).toBeCloseTo(285, 9);
    expect(limitMin(1.45, 'daily')).toBeCloseTo(180, 9);
    expect(limitMin(1.58, 'single')).toBeCloseTo(60, 9);
  });

  it('gives the printed minutes at both ends of every span', () => {
    for (const span of [...LIMIT_SPANS.single, ...LIMIT_SPANS.daily]) {
      expect(limitWithin(span, span.fromBar)).toBe(span.fromLimitMin);
      expect(limitWithin(span, span.toBar)).toBe(span.toLimitMin);
    }
  });
});

describe('withoutDust', () => {
  it('takes 1.6 with its rounding as 1.6 and nothing else', () => {
    expect(withoutDust(0.4 * 4.000000000000001)).toBe(1.6);
    expect(withoutDust(1.6 + 1e-10)).toBe(1.6);
    expect(withoutDust(1.6 + 1e-8)).toBeNull();
    expect(withoutDust(1.4)).toBe(1.4);
  });
});

describe('cnsFraction', () => {
  it('is 0 for air at the surface and for no legs at all', () => {
    expect(cnsFraction([{ fromBar: 1, toBar: 1, min: 600 }], 0.21, 'single')).toBe(0);
    expect(cnsFraction([], 0.32, 'single')).toBe(0);
  });

  it('adds legs, each at its own limit', () => {
    const legs = [...slope(1.4, 1.4, 15), ...slope(1.0, 1.0, 30)];
    expect(cnsFraction(legs, 1, 'single')).toBeCloseTo(0.2, 12);
    expect(cnsFraction(legs, 1, 'daily')).toBeCloseTo(15 / 180 + 0.1, 12);
  });

  it('counts a level at a row of the table as that row, from both sides', () => {
    expect(cnsFraction(slope(0.6, 0.6, 72), 1, 'single')).toBeCloseTo(0.1, 13);
    expect(cnsFraction(slope(1.5, 1.5, 12), 1, 'single')).toBeCloseTo(0.1, 13);
    expect(cnsFraction(slope(1.6, 1.6, 4.5), 1, 'single')).toBeCloseTo(0.1, 13);
  });

  it('of a slope within one straight piece is the quotient of the logarithm', () => {
    expect(cnsFraction(slope(1.5, 1.6, 7.5), 1, 'single')).toBeCloseTo((7.5 * Math.log(120 / 45)) / 75, 13);
  });

  it('counts of a slope only the part above 0.5 bar', () => {
    // From 0.3 to 0.6 in 3 minutes: the last one is above 0.5, at the 0.6 row.
    expect(cnsFraction(slope(0.3, 0.6, 3), 1, 'single')).toBeCloseTo(1 / 720, 13);
  });
});

describe('cnsMinutesLeft', () => {
  it('is what the limit leaves, negative when passed', () => {
    expect(cnsMinutesLeft(0.4, 1.4, 'single')).toBeCloseTo(90, 12);
    expect(cnsMinutesLeft(0.4, 1.4, 'daily')).toBeCloseTo(108, 12);
    expect(cnsMinutesLeft(1.2, 1.4, 'single')).toBeCloseTo(-30, 12);
  });

  it('has no end where nothing counts, and no figure above 1.6', () => {
    expect(cnsMinutesLeft(0.4, 0.5, 'single')).toBe(Infinity);
    expect(cnsMinutesLeft(1, 0.5, 'single')).toBe(Infinity);
    expect(cnsMinutesLeft(1.01, 0.5, 'single')).toBe(-Infinity);
    expect(cnsMinutesLeft(0.4, 1.7, 'single')).toBeNull();
  });
});

describe('otu', () => {
  it('counts nothing at or below 0.5 bar, and of a slope the part above', () => {
    expect(otu(slope(0.5, 0.5, 60), 1)).toBe(0);
    expect(otu(slope(0.2, 0.5, 60), 1)).toBe(0);
    // A third of the way from 0 to 0.75 lies above: 20 minutes from 0.5 to 0.75.
    expect(otu(slope(0, 0.75, 60), 1)).toBeCloseTo(otu(slope(0.5, 0.75, 20), 1), 12);
    expect(otu(slope(0.75, 0, 60), 1)).toBeCloseTo(otu(slope(0.5, 0.75, 20), 1), 12);
  });

  it('of a slope is the closed form as printed', () => {
    const printed = ((3 / 11) * 2 * ((0.9 / 0.5) ** (11 / 6) - (0.2 / 0.5) ** (11 / 6))) / 0.7;
    expect(otu(slope(0.7, 1.4, 2), 1)).toBeCloseTo(printed, 12);
  });

  it('scales with oxygen: 50 % at 2 bar is 1 bar', () => {
    expect(otu(slope(2, 2, 30), 0.5)).toBeCloseTo(30, 12);
  });
});

describe('esot', () => {
  it('counts nothing at or below 0.5 bar, all of it just above', () => {
    expect(esot(slope(0.5, 0.5, 60), 1)).toBe(0);
    expect(esot(slope(0.4, 0.5, 60), 1)).toBe(0);
    expect(esot(slope(0.5001, 0.5001, 60), 1)).toBeCloseTo(60 * 0.5001 ** 2.285, 9);
    expect(esot(slope(0, 1, 60), 1)).toBeCloseTo(esot(slope(0.5, 1, 30), 1), 12);
    expect(esot(slope(1, 0, 60), 1)).toBeCloseTo(esot(slope(0.5, 1, 30), 1), 12);
  });

  it('of a slope is the closed form as printed', () => {
    const printed = ((5 / 0.4) * (1.4 ** 3.285 - 1.0 ** 3.285)) / 3.285;
    expect(esot(slope(1.0, 1.4, 5), 1)).toBeCloseTo(printed, 11);
    expect(esot(slope(2, 2.8, 5), 0.5)).toBeCloseTo(printed, 11);
  });

  it('K is the square of its hours', () => {
    expect(kIndex(120)).toBe(4);
  });
});

describe('meanPower', () => {
  it('keeps its digits on a slope of a billionth', () => {
    expect(meanPower(1, 1 + 1e-9, 5 / 6)).toBeCloseTo(1 + (5 / 6) * 0.5e-9, 15);
  });

  it('from 0 is 1 / (p + 1) of the end', () => {
    expect(meanPower(0, 2, 3)).toBeCloseTo(2, 14);
    expect(meanPower(2, 0, 3)).toBeCloseTo(2, 14);
    expect(meanPower(0, 0, 3)).toBe(0);
  });
});

describe('budgets', () => {
  it('leave for a day its row less what was taken, also below nothing', () => {
    expect(otuAllowedToday(1, 0)).toBe(850);
    expect(otuAllowedToday(3, 500)).toBe(1360);
    expect(otuAllowedToday(2, 1500)).toBe(-100);
    expect(otuTotalAllowed(10)).toBe(3100);
    expect(otuTotalAllowed(11)).toBe(3300);
  });

  it('advise less a day the more days there are', () => {
    expect(esotAdvised(2)).toBeGreaterThan(esotAdvised(3));
    expect(esotAdvised(5)).toBeGreaterThan(esotAdvised(6));
    expect(esotAdvised(60)).toBe(esotAdvised(6));
  });
});
