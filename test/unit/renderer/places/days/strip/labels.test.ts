import { describe, expect, it } from 'vitest';
import {
  ASCENDER_PX,
  CHARACTER_PX,
  DESCENDER_PX,
  placeLabels,
  type LabelledDive,
} from '../../../../../../renderer/places/days/strip/labels';

function dive(lineX: number, over: Partial<LabelledDive> = {}): LabelledDive {
  return {
    lineX,
    barEndX: lineX + 30,
    weightY: 100,
    sounding: '18',
    mix: '32 %',
    interval: '3:05',
    intervalFromX: lineX - 60,
    dayEndX: lineX + 500,
    isFirstChoice: false,
    ...over,
  };
}

const page = (widthPx: number, textScale = 1) => ({ widthPx, heightPx: 240, textScale });

const soundingsOf = (dives: readonly LabelledDive[], width: number) =>
  placeLabels(dives, page(width)).map((place, i) => ({
    left: place.soundingX,
    right: place.soundingX + dives[i]!.sounding.length * CHARACTER_PX.sounding,
    top: place.soundingY - ASCENDER_PX,
    bottom: place.soundingY + DESCENDER_PX,
  }));

describe('placeLabels', () => {
  it('shows everything where there is room', () => {
    const places = placeLabels([dive(100), dive(300)], page(600));
    expect(places.map(({ mix, showsInterval }) => [mix, showsInterval])).toEqual([
      ['beside', true],
      ['beside', true],
    ]);
  });

  it('leaves the mix out first: the sounding stays in its place', () => {
    const [first] = placeLabels(
      [dive(100, { barEndX: 106 }), dive(118, { barEndX: 122, weightY: 200 })],
      page(600),
    );
    expect(first).toMatchObject({ mix: null, soundingX: 99 });
  });

  it('writes a mix under its sounding rather than across the end of the day', () => {
    const [atDusk] = placeLabels([dive(100, { dayEndX: 140 })], page(600));
    expect(atDusk).toMatchObject({ mix: 'below', soundingX: 99 });
    // Under it there is no more room within the day than beside it.
    const [later] = placeLabels([dive(100, { dayEndX: 110 })], page(600));
    expect(later).toMatchObject({ mix: 'beside' });
  });

  it('leaves out an interval that would cover its neighbour', () => {
    const places = placeLabels([dive(100), dive(118, { intervalFromX: 90 }), dive(300)], page(600));
    expect(places.map(({ showsInterval }) => showsInterval)).toEqual([true, true, true]);
    const crowded = placeLabels(
      [dive(100, { intervalFromX: 92 }), dive(112, { intervalFromX: 104 }), dive(300)],
      page(600),
    );
    expect(crowded.map(({ showsInterval }) => showsInterval)).toEqual([true, false, true]);
  });

  it('writes the mix under the sounding where only that is free', () => {
    const [first] = placeLabels(
      [dive(100, { barEndX: 106 }), dive(135, { barEndX: 140, weightY: 112 })],
      page(600),
    );
    expect(first).toMatchObject({ mix: 'below', soundingX: 99 });
  });

  it('makes place where text is larger', () => {
    const dives = [dive(100), dive(160)];
    expect(placeLabels(dives, page(600))[0]!.mix).toBe('beside');
    expect(placeLabels(dives, page(600, 2))[0]!.mix).toBe('below');
  });

  it('shows the chosen dive before its neighbours', () => {
    const crowded = placeLabels(
      [dive(100, { intervalFromX: 92 }), dive(112, { intervalFromX: 104, isFirstChoice: true })],
      page(600),
    );
    expect(crowded.map(({ showsInterval }) => showsInterval)).toEqual([false, true]);
  });

  it('has no interval to show for a first dive', () => {
    expect(placeLabels([dive(100, { interval: '' })], page(600))[0]!.showsInterval).toBe(false);
  });

  it('moves a sounding only when another figure stands there', () => {
    const [a, b] = soundingsOf([dive(100, { barEndX: 103 }), dive(108, { barEndX: 111 })], 600);
    expect(a!.left).toBe(99);
    expect(b!.left === 107 && b!.top === a!.top).toBe(false);
  });

  it('keeps labels inside the water at its right edge', () => {
    const [place] = soundingsOf([dive(595, { barEndX: 598 })], 600);
    expect(place!.right).toBeLessThanOrEqual(600);
  });

  it('keeps the soundings of 60 dives in 14 days apart on a page 860 px wide', () => {
    // Four or five dives a day, alternating deep and shallow as people dive them.
    const dives = Array.from({ length: 60 }, (_, i) => {
      const day = Math.floor((i * 14) / 60);
      const ofDay = i - Math.ceil((day * 60) / 14);
      const lineX = (day * 860) / 14 + 6 + ofDay * 13;
      return dive(lineX, { barEndX: lineX + 8, weightY: 200 - ofDay * 30, intervalFromX: lineX - 4 });
    });
    const boxes = soundingsOf(dives, 860);
    const covering = boxes.flatMap((a, i) =>
      boxes
        .slice(i + 1)
        .filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom),
    );
    expect(covering).toHaveLength(0);
  });
});
