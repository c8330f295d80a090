import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { minutesLabels } from '../../../../../renderer/places/mixes/class-frame';

const TEXT_PX = 14;

/** From and to of a label, as wide as its digits are drawn at least. */
function spanOf(
  { xPx, anchor }: { readonly xPx: number; readonly anchor: 'start' | 'middle' | 'end' },
  digits: number,
): readonly [number, number] {
  const width = digits * 0.75 * TEXT_PX;
  const from = anchor === 'start' ? xPx : anchor === 'end' ? xPx - width : xPx - width / 2;
  return [from, from + width];
}

describe('minutesLabels', () => {
  it('stands beside its dot where there is room, else over it', () => {
    const dots = [100, 190, 256, 282].map((xPx) => ({ xPx, digits: 2 }));
    expect(minutesLabels(dots, TEXT_PX).map(({ line, anchor }) => `${line} ${anchor}`)).toEqual([
      '0 start',
      '0 start',
      '0 end',
      '0 start',
    ]);
    const close = [190, 200, 210].map((xPx) => ({ xPx, digits: 2 }));
    expect(minutesLabels(close, TEXT_PX).map(({ line, anchor }) => `${line} ${anchor}`)).toEqual([
      '0 end',
      '1 middle',
      '0 start',
    ]);
  });

  it('covers no other minutes, however close the dots are', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({ xPx: fc.integer({ min: 0, max: 200 }), digits: fc.integer({ min: 1, max: 3 }) }),
          {
            minLength: 1,
            maxLength: 4,
          },
        ),
        (drawn) => {
          const dots = drawn.toSorted((a, b) => a.xPx - b.xPx);
          const labels = minutesLabels(dots, TEXT_PX);
          labels.forEach((one, i) =>
            labels.slice(i + 1).forEach((other, j) => {
              if (one.line !== other.line) return;
              const [from, to] = spanOf(one, dots[i]!.digits);
              const [otherFrom, otherTo] = spanOf(other, dots[i + 1 + j]!.digits);
              expect(to <= otherFrom || otherTo <= from).toBe(true);
            }),
          );
        },
      ),
      { numRuns: 100, seed: 7 },
    );
  });
});
