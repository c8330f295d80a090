import { describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../../../core/document/demo-trip';
import { ledger } from '../../../../../../core/ledger/ledger';
import { wallMin } from '../../../../../../core/words/calendar';
import {
  bandPoints,
  bandsEndMin,
  bandTop,
  compartmentShares,
  shareMarks,
  stepsOf,
  timelineFor,
} from '../../../../../../renderer/places/days/strip/band-data';
import { placeOf, spanOf, timeScale } from '../../../../../../renderer/places/days/strip/time-scale';

const trip = demoTrip();
const [mine] = ledger(trip).divers;
const wet = mine!.entries.map(({ startMin, surfacesMin }) => ({ startMin, endMin: surfacesMin }));
const flightMin = wallMin(trip.flight!.at);
const span = spanOf(wet, [flightMin], 0);
const pageEndMin = (span.firstDay + span.dayCount) * 1440;

describe('bandsEndMin', () => {
  it('runs to the flight home', () => {
    expect(bandsEndMin(trip, mine!, pageEndMin)).toBe(flightMin);
  });

  it('runs until flying is clear where the flight is beyond the page, and never past its end', () => {
    expect(bandsEndMin(trip, mine!, flightMin - 60)).toBe(mine!.flyAfterMin);
    expect(bandsEndMin(trip, mine!, mine!.flyAfterMin! - 60)).toBe(mine!.flyAfterMin! - 60);
  });

  it('runs until flying is clear where no flight is known', () => {
    expect(bandsEndMin({ ...trip, flight: null }, mine!, pageEndMin)).toBe(mine!.flyAfterMin);
  });
});

describe('bandPoints', () => {
  const time = timeScale(span, wet, 840);
  const timeline = timelineFor(trip, mine!, pageEndMin, stepsOf(time));
  const points = bandPoints(timeline, time);

  it('are unbroken from the first dive to the flight, from left to right', () => {
    expect(points[0]!.atMin).toBe(mine!.entries[0]!.startMin);
    expect(points.at(-1)!.atMin).toBe(flightMin);
    expect(points.every((point, i) => i === 0 || points[i - 1]!.x <= point.x + 1e-9)).toBe(true);
    // Through nights too: never more than half a day without a point.
    expect(points.every((point, i) => i === 0 || point.atMin - points[i - 1]!.atMin <= 720)).toBe(true);
  });

  it('agree with the ledger on surfacing', () => {
    for (const entry of mine!.entries) {
      const up = points.find((point) => Math.abs(point.atMin - entry.surfacesMin) < 1e-6)!;
      expect(up.share).toBeCloseTo(entry.leading.fractionOfLimit, 9);
      expect(up.cns).toBeCloseTo(entry.cns.after!, 9);
    }
  });

  it('lead with the compartment whose share is the largest', () => {
    const shares = compartmentShares(timeline);
    timeline.forEach((point, i) => {
      const all = shares[i]!;
      expect(all).toHaveLength(16);
      expect(Math.max(...all)).toBeCloseTo(point.fractionOfLimit, 12);
      expect(all[point.compartment - 1]).toBeCloseTo(point.fractionOfLimit, 12);
    });
  });
});

describe('stepsOf', () => {
  it('asks for points no further apart than a pixel, whatever the zoom', () => {
    for (const widthPx of [840, 3_000, 9_000]) {
      const time = timeScale(span, wet, widthPx);
      const steps = stepsOf(time);
      const { startMin } = mine!.entries[0]!;
      const px = placeOf(time, startMin + steps.waterMin) - placeOf(time, startMin);
      expect(px).toBeLessThanOrEqual(1);
      expect(px).toBeGreaterThan(0.3);
    }
  });
});

describe('bandTop', () => {
  it('leaves air above the highest and moves in whole steps', () => {
    expect(bandTop(0.3, 1.1)).toBe(1.1);
    expect(bandTop(1.2, 1.1)).toBeCloseTo(1.3, 12);
    expect(bandTop(0.12, 0.2)).toBe(0.2);
    expect(bandTop(0.47, 0.2)).toBeCloseTo(0.5, 12);
  });
});

describe('shareMarks', () => {
  it('writes round shares as densely as they can be read', () => {
    expect(shareMarks(0.5, 60, 18)).toEqual([0, 0.25, 0.5]);
    expect(shareMarks(0.2, 60, 18)).toEqual([0, 0.1, 0.2]);
    expect(shareMarks(1.1, 72, 18)).toEqual([0, 0.5, 1]);
    expect(shareMarks(14, 72, 18)).toEqual([0, 5, 10]);
  });
});

describe('spanOf', () => {
  const day = 20_884;
  const dive = { startMin: day * 1440 + 600, endMin: day * 1440 + 660 };

  it('reaches to a flight that is near, and not to one that is weeks away', () => {
    expect(spanOf([dive], [(day + 2) * 1440 + 60], 0)).toEqual({ firstDay: day, dayCount: 3 });
    expect(spanOf([dive], [(day + 20) * 1440], 0)).toEqual({ firstDay: day, dayCount: 1 });
  });

  it('shows a single day where there are no dives', () => {
    expect(spanOf([], [null], day)).toEqual({ firstDay: day, dayCount: 1 });
  });
});
