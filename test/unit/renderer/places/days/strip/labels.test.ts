import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { diveViews } from '../../../../../../renderer/places/days/strip/dive-view';
import { depthScale } from '../../../../../../renderer/places/days/strip/depth-scale';
import { labelledDives } from '../../../../../../renderer/places/days/strip/marks';
import { spanOf, timeScale } from '../../../../../../renderer/places/days/strip/time-scale';
import {
  selectCautions,
  selectEntriesByDive,
  selectRoomLimit,
  selectRoomMin,
  selectTight,
  selectTightOfDays,
} from '../../../../../../renderer/store/selectors';
import { desk, freshDesk } from '../../../../../../renderer/store/store';
import { bigTrip } from '../../../../../bench/big-trip';
import {
  ASCENDER_PX,
  CHARACTER_PX,
  DESCENDER_PX,
  MIX_LINE_PX,
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
    hasCare: false,
    ...over,
  };
}

const page = (widthPx: number, textScale = 1) => ({ widthPx, heightPx: 240, textScale });

const soundingsOf = (dives: readonly LabelledDive[], width: number, textScale = 1) =>
  placeLabels(dives, page(width, textScale)).map((place, i) => ({
    shows: place.showsSounding,
    left: place.soundingX,
    right: place.soundingX + dives[i]!.sounding.length * CHARACTER_PX.sounding * textScale,
    top: place.soundingY - ASCENDER_PX * textScale,
    bottom: place.soundingY + DESCENDER_PX * textScale,
  }));

type Sounding = ReturnType<typeof soundingsOf>[number];

/** From a weight to the nearest point of a sounding. */
function distance({ lineX, weightY }: LabelledDive, { left, right, top, bottom }: Sounding): number {
  return Math.hypot(Math.max(left - lineX, 0, lineX - right), Math.max(top - weightY, 0, weightY - bottom));
}

/** Soundings that stand at another's weight, or on another's sounding. */
function misread(dives: readonly LabelledDive[], width: number, textScale: number): readonly string[] {
  const soundings = soundingsOf(dives, width, textScale);
  return soundings.flatMap((mine, i) => {
    if (!mine.shows) return [];
    const own = dives[i]!;
    return dives.flatMap((other, k) => {
      if (k === i) return [];
      const its = soundings[k]!;
      const covers =
        its.shows &&
        mine.left < its.right &&
        its.left < mine.right &&
        mine.top < its.bottom &&
        its.top < mine.bottom;
      const isOneWeight = Math.hypot(other.lineX - own.lineX, other.weightY - own.weightY) < 2;
      const isAt = !isOneWeight && distance(other, mine) < 1.4 * distance(own, mine);
      return isAt || covers ? [`${i} at ${k}`] : [];
    });
  });
}

/** Labels that lie on the bar of their own dive. */
function onTheirBars(dives: readonly LabelledDive[], width: number, textScale: number): readonly string[] {
  const places = placeLabels(dives, page(width, textScale));
  return dives.flatMap(({ lineX, barEndX, weightY, sounding, mix }, i) => {
    const { showsSounding, soundingX, soundingY, mix: mixPlace } = places[i]!;
    const soundingPx = sounding.length * CHARACTER_PX.sounding * textScale;
    const lies = (left: number, baseline: number, widthPx: number) =>
      left < Math.max(barEndX, lineX + 5) &&
      left + widthPx > lineX - 5 &&
      baseline - ASCENDER_PX * textScale < weightY + 5 &&
      baseline + DESCENDER_PX * textScale > weightY - 5;
    const mixX = mixPlace === 'below' ? soundingX : soundingX + soundingPx + 3;
    const mixY = mixPlace === 'below' ? soundingY + MIX_LINE_PX * textScale : soundingY;
    return [
      ...(showsSounding && lies(soundingX, soundingY, soundingPx) ? [`depth of ${i}`] : []),
      ...(mix !== '' && mixPlace && lies(mixX, mixY, mix.length * CHARACTER_PX.mix * textScale)
        ? [`mix of ${i}`]
        : []),
    ];
  });
}

const READER = { units: 'metric', clock: '24h' } as const;

/** The dives of a full fortnight as the strip has them at a width. */
function fortnight(widthPx: number, heightPx: number): readonly LabelledDive[] {
  const trip = bigTrip(60, 12);
  desk.setState(freshDesk(trip));
  const state = desk.getState();
  const views = diveViews({
    trip,
    entriesByDive: selectEntriesByDive(state),
    diverId: null,
    tight: selectTight(state),
    tightOfDays: selectTightOfDays(state),
    roomLimitOf: selectRoomLimit(state),
    cautions: selectCautions(state),
    roomMinOf: selectRoomMin(state),
    reader: READER,
  });
  const wet = views.map(({ startMin, surfacesMin }) => ({ startMin, endMin: surfacesMin }));
  const time = timeScale(spanOf(wet, [], 0), wet, widthPx);
  return labelledDives(views, time, depthScale(36, heightPx, 'metric'), new Set());
}

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

  it('moves a sounding only where another figure or weight is in the way', () => {
    const [a, b] = soundingsOf([dive(100, { barEndX: 103 }), dive(108, { barEndX: 111, weightY: 92 })], 600);
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

  it.each([
    [840, 240, 1],
    [840, 170, 1],
    [1180, 200, 2],
    [640, 200, 1],
    [840, 200, 2],
  ])('reads each of 60 dives in %d by %d px at its own weight, text times %d', (width, height, textScale) => {
    expect(misread(fortnight(width, height), width, textScale)).toEqual([]);
  });

  it('writes every one of them on a screen of 1280 px, and every sign of care where text is large', () => {
    expect(placeLabels(fortnight(840, 240), page(840)).every((place) => place.showsSounding)).toBe(true);
    const large = fortnight(1180, 200);
    const places = placeLabels(large, page(1180, 2));
    expect(large.filter(({ hasCare }) => hasCare)).not.toEqual([]);
    expect(large.filter(({ hasCare }, i) => hasCare && !places[i]!.showsSounding)).toEqual([]);
  });

  it('stands at no other weight and on no other sounding, wherever dives lie', () => {
    const anywhere = fc.record({
      lineX: fc.double({ min: 0, max: 400, noNaN: true }),
      barPx: fc.double({ min: 0, max: 40, noNaN: true }),
      weightY: fc.double({ min: 5, max: 210, noNaN: true }),
      sounding: fc.constantFrom('7', '18', '18!', '36!!', '131', '131!!'),
      mix: fc.constantFrom('', '32 %', 'EAN32, 2 of 4'),
      isFirstChoice: fc.boolean(),
      hasCare: fc.boolean(),
    });
    fc.assert(
      fc.property(fc.array(anywhere, { maxLength: 30 }), fc.constantFrom(1, 1.5, 2), (drawn, textScale) => {
        const dives = drawn
          .toSorted((a, b) => a.lineX - b.lineX)
          .map(({ barPx, ...of }) => dive(of.lineX, { ...of, barEndX: of.lineX + barPx }));
        expect(misread(dives, 420, textScale)).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });

  it('writes neither a sounding nor a mix on the bar of its own dive where there is room beside it', () => {
    const anywhere = fc.record({
      lineX: fc.double({ min: 0, max: 70, noNaN: true }),
      barPx: fc.double({ min: 0, max: 60, noNaN: true }),
      weightY: fc.double({ min: 5, max: 210, noNaN: true }),
      sounding: fc.constantFrom('7', '18', '17.5!!', '131!!'),
      mix: fc.constantFrom('', 'EAN32', 'EAN32, 2 of 4'),
    });
    fc.assert(
      fc.property(fc.array(anywhere, { maxLength: 4 }), fc.constantFrom(1, 1.5, 2), (drawn, textScale) => {
        const dives = drawn
          .map(({ barPx, ...of }, i) => ({ ...of, barPx, lineX: of.lineX + 320 * i }))
          .map(({ barPx, ...of }) => dive(of.lineX, { ...of, barEndX: of.lineX + barPx }));
        expect(onTheirBars(dives, 1400, textScale)).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });

  it('leaves out the sounding that could only stand at another weight, the urgent one last', () => {
    const close = [100, 110, 120, 130].map((x) => dive(x, { barEndX: x + 2, sounding: '131!!' }));
    const shown = placeLabels(close.with(3, { ...close[3]!, hasCare: true }), page(300, 2));
    expect(shown[3]!.showsSounding).toBe(true);
    expect(shown.some(({ showsSounding }) => !showsSounding)).toBe(true);
    expect(shown.every(({ showsSounding, mix }) => showsSounding || mix === null)).toBe(true);
  });

  it('keeps clear of what else is written on the water', () => {
    const label = { left: 90, right: 300, top: 100, bottom: 130 };
    const [place] = placeLabels([dive(100)], { ...page(600), written: [label] });
    expect(
      place!.soundingY + DESCENDER_PX <= label.top || place!.soundingY - ASCENDER_PX >= label.bottom,
    ).toBe(true);
  });
});
