import { describe, expect, it } from 'vitest';
import { partedFrom } from '../../../../../../renderer/places/days/strip/proposed-curve';

/** A curve through shares, one every ten minutes. */
const curve = (...shares: readonly number[]) =>
  shares.map((fractionOfLimit, i) => ({ atMin: 10 * i, fractionOfLimit }));

const told = (parted: ReturnType<typeof partedFrom>) => parted.map(({ atMin, share }) => [atMin, share]);

describe('partedFrom', () => {
  it('has nothing where two curves are one, whichever points they have', () => {
    const coarse = [
      { atMin: 0, fractionOfLimit: 0 },
      { atMin: 30, fractionOfLimit: 0.6 },
    ];
    const parted = partedFrom(coarse, curve(0, 0.2, 0.4, 0.6));
    expect(parted.map(({ share }) => share)).toEqual([null, null, null, null]);
  });

  it('has the proposed share from the moment before they part to the one after they meet', () => {
    const parted = partedFrom(curve(0, 0.5, 1.2, 0.5, 0.3, 0.3), curve(0, 0.5, 0.9, 0.5, 0.3, 0.3));
    expect(told(parted)).toEqual([
      [0, null],
      [10, 0.5],
      [20, 0.9],
      [30, 0.5],
      [40, null],
      [50, null],
    ]);
  });

  it('goes on where the curve as it is has ended, and ends where it does', () => {
    expect(told(partedFrom(curve(0, 0.4), curve(0, 0.4, 0.2)))).toEqual([
      [0, null],
      [10, 0.4],
      [20, 0.2],
    ]);
    expect(told(partedFrom(curve(0, 0.4, 0.2), curve(0, 0.4)))).toEqual([
      [0, null],
      [10, null],
      [20, null],
    ]);
  });

  it('finds the shares between points on straight lines', () => {
    const now = [
      { atMin: 0, fractionOfLimit: 0 },
      { atMin: 20, fractionOfLimit: 1 },
    ];
    const proposed = [
      { atMin: 0, fractionOfLimit: 0 },
      { atMin: 10, fractionOfLimit: 0.2 },
      { atMin: 20, fractionOfLimit: 0.4 },
    ];
    expect(told(partedFrom(now, proposed))).toEqual([
      [0, 0],
      [10, 0.2],
      [20, 0.4],
    ]);
  });
});
