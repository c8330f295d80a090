import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { limitShare, type OxygenLeg } from '../../core/oxygen/clock-pieces';
import { cnsAfterInterval, cnsFraction, cnsMinutesLeft } from '../../core/oxygen/cns';
import { dailyPieces, dayPeak, dayShareAt, type ClockPiece } from '../../core/oxygen/cns-day';
import { esot } from '../../core/oxygen/esot';
import { limitMin, type OxygenClock } from '../../core/oxygen/limits';
import { meanPower } from '../../core/oxygen/mean-power';
import { otu } from '../../core/oxygen/otu';

/** Two sums of the same shares in another order: rounding alone, relative. */
const ROUNDING = 1e-12;

/** Oxygen pressures at the ends of legs and the minutes between; air at altitude up to the last limit. */
const dive: fc.Arbitrary<readonly OxygenLeg[]> = fc
  .tuple(
    fc.double({ min: 0.1, max: 1.6, noNaN: true }),
    fc.array(
      fc.tuple(
        fc.oneof(fc.double({ min: 0.1, max: 1.6, noNaN: true }), fc.constantFrom(0.5, 0.6, 1.1, 1.4, 1.6)),
        fc.double({ min: 0, max: 120, noNaN: true }),
        fc.boolean(),
      ),
      { minLength: 1, maxLength: 8 },
    ),
  )
  .map(([start, steps]) => {
    const legs: OxygenLeg[] = [];
    let fromBar = start;
    for (const [bar, min, isLevel] of steps) {
      const toBar = isLevel ? fromBar : bar;
      legs.push({ fromBar, toBar, min });
      fromBar = toBar;
    }
    return legs;
  });

const clock = fc.constantFrom<OxygenClock>('single', 'daily');

function cutLeg(leg: OxygenLeg, part: number): readonly OxygenLeg[] {
  const middleBar = leg.fromBar + part * (leg.toBar - leg.fromBar);
  return [
    { fromBar: leg.fromBar, toBar: middleBar, min: part * leg.min },
    { fromBar: middleBar, toBar: leg.toBar, min: (1 - part) * leg.min },
  ];
}

/** Midpoint rule over many small steps: another method for the same integral. */
function quadrature(legs: readonly OxygenLeg[], rate: (po2: number) => number, steps: number): number {
  let sum = 0;
  for (const leg of legs) {
    for (let step = 0; step < steps; step += 1) {
      sum += (rate(leg.fromBar + ((step + 0.5) / steps) * (leg.toBar - leg.fromBar)) * leg.min) / steps;
    }
  }
  return sum;
}

const doses = {
  'CNS single': (legs: readonly OxygenLeg[]) => cnsFraction(legs, 1, 'single')!,
  'CNS daily': (legs: readonly OxygenLeg[]) => cnsFraction(legs, 1, 'daily')!,
  OTU: (legs: readonly OxygenLeg[]) => otu(legs, 1),
  ESOT: (legs: readonly OxygenLeg[]) => esot(legs, 1),
} as const;

/** What a minute at one pressure adds, written as published, without closed forms. */
const rates = {
  'CNS single': (po2: number) => 1 / limitMin(po2, 'single')!,
  'CNS daily': (po2: number) => 1 / limitMin(po2, 'daily')!,
  OTU: (po2: number) => (po2 > 0.5 ? ((po2 - 0.5) / 0.5) ** (5 / 6) : 0),
  ESOT: (po2: number) => (po2 > 0.5 ? po2 ** 2.285 : 0),
} as const;

/** The largest jump of a rate (at 0.5 bar) is missed by at most half a step of the leg it falls in. */
const jumps = { 'CNS single': 1 / 720, 'CNS daily': 1 / 720, OTU: 0, ESOT: 0.5 ** 2.285 } as const;

describe.each(['CNS single', 'CNS daily', 'OTU', 'ESOT'] as const)('%s of a dive', (name) => {
  const dose = doses[name];

  it('does not change when a leg is cut in two', () => {
    fc.assert(
      fc.property(dive, fc.nat(7), fc.double({ min: 0, max: 1, noNaN: true }), (legs, pick, part) => {
        const index = pick % legs.length;
        const cut = [...legs.slice(0, index), ...cutLeg(legs[index]!, part), ...legs.slice(index + 1)];
        const whole = dose(legs);
        // A level leg at 0.5 bar exactly may be cut to a hair above it by rounding; dives there count nothing.
        fc.pre(legs.every((leg) => leg.fromBar !== 0.5 && leg.toBar !== 0.5));
        expect(Math.abs(dose(cut) - whole)).toBeLessThanOrEqual(ROUNDING * Math.max(1, whole));
      }),
    );
  });

  it('is the same on the way down as on the way up', () => {
    fc.assert(
      fc.property(dive, (legs) => {
        const back = legs
          .toReversed()
          .map((leg) => ({ fromBar: leg.toBar, toBar: leg.fromBar, min: leg.min }));
        expect(Math.abs(dose(back) - dose(legs))).toBeLessThanOrEqual(ROUNDING * Math.max(1, dose(legs)));
      }),
    );
  });

  it('agrees with a quadrature of the published rate', () => {
    const steps = 4000;
    fc.assert(
      fc.property(dive, (legs) => {
        const fine = quadrature(legs, rates[name], steps);
        const minutes = legs.reduce((sum, leg) => sum + leg.min, 0);
        // Midpoint error: bounded by the bends and the jump of the rate, of order min / steps.
        const bound = 1e-9 + minutes * (1e-6 + jumps[name] / steps);
        expect(Math.abs(dose(legs) - fine)).toBeLessThanOrEqual(bound);
      }),
      { numRuns: 40 },
    );
  });

  it('never falls with more oxygen, more depth or more time', () => {
    fc.assert(
      fc.property(
        dive,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 30, noNaN: true }),
        (legs, richer, longer) => {
          const deeper = legs.map((leg) => ({
            ...leg,
            fromBar: leg.fromBar + richer * (1.6 - leg.fromBar),
            toBar: leg.toBar + richer * (1.6 - leg.toBar),
          }));
          const slower = legs.map((leg) => ({ ...leg, min: leg.min + longer }));
          const slack = ROUNDING * Math.max(1, dose(legs));
          expect(dose(deeper)).toBeGreaterThanOrEqual(dose(legs) - slack);
          expect(dose(slower)).toBeGreaterThanOrEqual(dose(legs) - slack);
        },
      ),
    );
  });

  it('depends on oxygen and pressure through their product alone', () => {
    fc.assert(
      fc.property(dive, fc.double({ min: 0.21, max: 1, noNaN: true }), (legs, o2) => {
        fc.pre(legs.every((leg) => leg.fromBar !== 0.5 && leg.toBar !== 0.5));
        const ambient = legs.map((leg) => ({ ...leg, fromBar: leg.fromBar / o2, toBar: leg.toBar / o2 }));
        const share =
          name === 'OTU'
            ? otu(ambient, o2)
            : name === 'ESOT'
              ? esot(ambient, o2)
              : cnsFraction(ambient, o2, name === 'CNS single' ? 'single' : 'daily')!;
        // The product rounds, and near 0.5 the OTU rate is as steep as the fifth sixth of that rounding.
        expect(Math.abs(share - dose(legs))).toBeLessThanOrEqual(1e-11 * Math.max(1, dose(legs)));
      }),
    );
  });
});

describe('CNS', () => {
  it('has no figure as soon as one end of one leg passes 1.6 bar, and one at 1.6 with its rounding', () => {
    fc.assert(
      fc.property(
        dive,
        clock,
        fc.nat(7),
        fc.double({ min: 1.600001, max: 3, noNaN: true }),
        (legs, which, pick, bar) => {
          const index = pick % legs.length;
          const at = (toBar: number) => legs.map((leg, i) => (i === index ? { ...leg, toBar } : leg));
          expect(cnsFraction(at(bar), 1, which)).toBeNull();
          expect(cnsFraction(at(1.6 + 4e-16), 1, which)).toEqual(cnsFraction(at(1.6), 1, which));
        },
      ),
    );
  });

  it('the minutes left fill the clock exactly when they are spent', () => {
    fc.assert(
      fc.property(dive, clock, fc.double({ min: 0.51, max: 1.6, noNaN: true }), (legs, which, po2) => {
        const cns = cnsFraction(legs, 1, which)!;
        const left = cnsMinutesLeft(cns, po2, which)!;
        fc.pre(left > 0);
        const filled = cnsFraction([...legs, { fromBar: po2, toBar: po2, min: left }], 1, which)!;
        expect(filled).toBeCloseTo(1, 11);
      }),
    );
  });

  it('intervals add up', () => {
    const min = fc.double({ min: 0, max: 2000, noNaN: true });
    fc.assert(
      fc.property(fc.double({ min: 0, max: 2, noNaN: true }), min, min, (cns, first, second) => {
        const inTwo = cnsAfterInterval(cnsAfterInterval(cns, first), second);
        expect(inTwo).toBeCloseTo(cnsAfterInterval(cns, first + second), 13);
      }),
    );
  });

  it('a share of a linear limit is that of its two halves', () => {
    const limit = fc.double({ min: 1, max: 720, noNaN: true });
    fc.assert(
      fc.property(limit, limit, fc.double({ min: 0, max: 100, noNaN: true }), (from, to, min) => {
        const middle = (from + to) / 2;
        const halves = limitShare(min / 2, from, middle) + limitShare(min / 2, middle, to);
        expect(Math.abs(limitShare(min, from, to) - halves)).toBeLessThanOrEqual(ROUNDING * halves + 1e-300);
      }),
    );
  });
});

describe('mean of a power', () => {
  it('is between its ends and symmetric', () => {
    const end = fc.double({ min: 0, max: 3, noNaN: true });
    fc.assert(
      fc.property(end, end, fc.constantFrom(5 / 6, 2.285), (from, to, power) => {
        const mean = meanPower(from, to, power);
        expect(mean).toBe(meanPower(to, from, power));
        expect(mean).toBeGreaterThanOrEqual(Math.min(from, to) ** power * (1 - 1e-14));
        expect(mean).toBeLessThanOrEqual(Math.max(from, to) ** power * (1 + 1e-14));
      }),
    );
  });
});

/** Dives over several days, one after the other, as the daily clock sees them. */
const trip = fc
  .array(fc.tuple(dive, fc.double({ min: 0, max: 1500, noNaN: true })), { minLength: 1, maxLength: 7 })
  .map((dives) => {
    // A wall minute of 2027: the rounding of real trips is in the figures.
    let startMin = 30_000_000;
    return dives.map(([legs, interval]) => {
      startMin += interval;
      const entryMin = startMin;
      const pieces = dailyPieces(legs, 1, startMin)!;
      startMin += legs.reduce((sum, leg) => sum + leg.min, 0);
      return { entryMin, surfacesMin: startMin, pieces };
    });
  });

describe('the rolling 24 h clock', () => {
  /** Wall minutes near 3e7 are kept to 4e-9; no piece counts more than 1/150 a minute. */
  const WALL_ROUNDING = 1e-9;

  it('peaks where a fine sampling from entry to surfacing does, never below it', () => {
    // Dives that add nothing while the clock stands at something.
    let counted = 0;
    fc.assert(
      fc.property(trip, (dives) => {
        const { pieces: current, entryMin: from, surfacesMin: to } = dives.at(-1)!;
        const earlier = dives.slice(0, -1).flatMap(({ pieces }) => pieces);
        const all = [...earlier, ...current];
        const peak = dayPeak(earlier, current, from);
        counted += current.length === 0 && peak > 0 ? 1 : 0;
        const steps = 3000;
        let sampled = 0;
        for (let step = 0; step <= steps; step += 1) {
          sampled = Math.max(sampled, naiveDayShare(all, from + (step / steps) * (to - from)));
        }
        expect(peak).toBeGreaterThanOrEqual(sampled - WALL_ROUNDING);
        // Between two samples a share grows by 1/150 a minute at most.
        expect(peak).toBeLessThanOrEqual(sampled + (to - from) / steps / 150 + WALL_ROUNDING);
      }),
      { numRuns: 60 },
    );
    expect(counted).toBeGreaterThan(0);
  });

  it('peaks so on the same hours day by day, with rates that meet, part and stay alike', () => {
    // Rows of the table alone, at whole minutes: edges and limits of two days fall on one another.
    const limit = fc.constantFrom(720, 720, 570, 300, 180);
    const stretch = fc.tuple(fc.integer({ min: 1, max: 30 }), limit, fc.option(limit), fc.boolean());
    const daily = fc.tuple(
      fc.integer({ min: 0, max: 60 }),
      fc.array(stretch, { minLength: 1, maxLength: 6 }),
    );
    fc.assert(
      fc.property(fc.array(daily, { minLength: 2, maxLength: 3 }), (days) => {
        const dives = days.map(([after, stretches], day) => {
          let at = day * 1440 + after;
          return stretches.flatMap(([min, fromLimitMin, to, isPause]): readonly ClockPiece[] => {
            const [fromMin, toMin, toLimitMin] = [at, (at += min), to ?? fromLimitMin];
            const share = limitShare(min, fromLimitMin, toLimitMin);
            return isPause ? [] : [{ fromMin, toMin, fromLimitMin, toLimitMin, share }];
          });
        });
        const current = dives.pop()!;
        fc.pre(current.length > 0);
        const earlier = dives.flat();
        const [from, to] = [current[0]!.fromMin, current.at(-1)!.toMin];
        const peak = dayPeak(earlier, current, from);
        let sampled = 0;
        for (let at = from; at <= to; at += 1 / 4) {
          sampled = Math.max(sampled, naiveDayShare([...earlier, ...current], at));
        }
        expect(peak).toBeGreaterThanOrEqual(sampled - 1e-12);
        expect(peak).toBeLessThanOrEqual(sampled + 1 / 4 / 180);
      }),
      { numRuns: 200 },
    );
  });

  it('at any moment is what has come in less what is a day old', () => {
    fc.assert(
      fc.property(trip, fc.double({ min: 0, max: 8000, noNaN: true }), (dives, after) => {
        const all = dives.flatMap(({ pieces }) => pieces);
        const atMin = 30_000_000 + after;
        expect(Math.abs(dayShareAt(all, atMin) - naiveDayShare(all, atMin))).toBeLessThan(WALL_ROUNDING);
      }),
    );
  });

  it('with nothing in the day before is the whole dive', () => {
    fc.assert(
      fc.property(dive, (legs) => {
        const minutes = legs.reduce((sum, leg) => sum + leg.min, 0);
        fc.pre(minutes < 1440);
        const peak = dayPeak([], dailyPieces(legs, 1, 30_000_000)!, 30_000_000);
        expect(Math.abs(peak - cnsFraction(legs, 1, 'daily')!)).toBeLessThan(WALL_ROUNDING);
      }),
    );
  });
});

/** D(t) - D(t - 1440) with both D by the quotient of logarithms as Baker prints it: another way to the same. */
function naiveDayShare(pieces: readonly ClockPiece[], atMin: number): number {
  const taken = (untilMin: number) =>
    pieces.reduce((sum, piece) => {
      const part = Math.min(1, Math.max(0, (untilMin - piece.fromMin) / (piece.toMin - piece.fromMin || 1)));
      const min = part * (piece.toMin - piece.fromMin);
      const reached = piece.fromLimitMin + part * (piece.toLimitMin - piece.fromLimitMin);
      const rise = reached - piece.fromLimitMin;
      return (
        sum + (Math.abs(rise) < 1e-6 ? min / reached : (min * Math.log(reached / piece.fromLimitMin)) / rise)
      );
    }, 0);
  return taken(atMin) - taken(atMin - 1440);
}
