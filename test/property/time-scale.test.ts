/** Laws of the page's time: every place is one moment, whatever the dives. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { momentOf, placeOf, timeScale, type Stretch } from '../../renderer/places/days/strip/time-scale';

const FIRST_DAY = 20_884;

const spans = fc.record({ firstDay: fc.constant(FIRST_DAY), dayCount: fc.integer({ min: 1, max: 14 }) });
const stretches = fc.array(
  fc
    .record({
      startMin: fc.integer({ min: -300, max: 14 * 1440 + 300 }),
      runMin: fc.double({ min: 1, max: 400, noNaN: true }),
    })
    .map(({ startMin, runMin }): Stretch => {
      const atMin = FIRST_DAY * 1440 + startMin;
      return { startMin: atMin, endMin: atMin + runMin };
    }),
  { maxLength: 60 },
);
const widths = fc.double({ min: 200, max: 20_000, noNaN: true });
const scales = fc.tuple(spans, stretches, widths).map(([span, wet, width]) => timeScale(span, wet, width));
const share = fc.double({ min: -0.1, max: 1.1, noNaN: true });

describe('timeScale', () => {
  it('rises strictly: a later moment stands further right', () => {
    fc.assert(
      fc.property(scales, share, share, (scale, a, b) => {
        const at = (part: number) => (FIRST_DAY + part * scale.dayCount) * 1440;
        // A millisecond apart at the least, so that the difference is above the rounding of the sums.
        fc.pre(Math.abs(at(a) - at(b)) > 1e-3);
        expect(placeOf(scale, at(Math.max(a, b)))).toBeGreaterThan(placeOf(scale, at(Math.min(a, b))));
      }),
    );
  });

  it('is undone by momentOf, also beyond its ends', () => {
    fc.assert(
      fc.property(scales, share, (scale, part) => {
        const min = (FIRST_DAY + part * scale.dayCount) * 1440;
        // Minutes since 1970 are near 3e7: a hundred-thousandth of a minute is far above their rounding.
        expect(Math.abs(momentOf(scale, placeOf(scale, min)) - min)).toBeLessThan(1e-5);
      }),
    );
  });

  it('gives every day the same width', () => {
    fc.assert(
      fc.property(scales, (scale) => {
        for (let day = 0; day <= scale.dayCount; day += 1) {
          const place = placeOf(scale, (FIRST_DAY + day) * 1440);
          expect(Math.abs(place - day * scale.dayWidthPx)).toBeLessThan(1e-6 * scale.widthPx);
        }
      }),
    );
  });

  it('makes a minute in the water five times as wide as a minute of the same day at the surface', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 391, max: 800 }),
        fc.integer({ min: 5, max: 120 }),
        widths,
        (clockMin, runMin, width) => {
          const startMin = FIRST_DAY * 1440 + clockMin;
          const scale = timeScale(
            { firstDay: FIRST_DAY, dayCount: 3 },
            [{ startMin, endMin: startMin + runMin }],
            width,
          );
          const wet = placeOf(scale, startMin + 1) - placeOf(scale, startMin);
          const dry = placeOf(scale, startMin + runMin + 1) - placeOf(scale, startMin + runMin);
          expect(wet / dry).toBeCloseTo(5, 6);
        },
      ),
    );
  });

  it('narrows the night, evening and early morning alike', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 380 }), fc.integer({ min: 1235, max: 1438 }), (early, late) => {
        const startMin = FIRST_DAY * 1440 + 600;
        const scale = timeScale(
          { firstDay: FIRST_DAY, dayCount: 2 },
          [{ startMin, endMin: startMin + 50 }],
          860,
        );
        const widthOf = (clockMin: number) =>
          placeOf(scale, FIRST_DAY * 1440 + clockMin + 1) - placeOf(scale, FIRST_DAY * 1440 + clockMin);
        expect(widthOf(early) / widthOf(500)).toBeCloseTo(0.15, 6);
        expect(widthOf(late) / widthOf(500)).toBeCloseTo(0.15, 6);
      }),
    );
  });
});
