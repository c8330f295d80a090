import { describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { hadYouStayed } from '../../../../core/ledger/had-you-stayed';
import { ledger } from '../../../../core/ledger/ledger';
import { timelineOf } from '../../../../core/ledger/timeline';

const trip = demoTrip();
const of = ledger(trip);
const entries = of.divers.flatMap((each) => each.entries).filter((entry) => entry.isMade);

describe('had you stayed', () => {
  it('meets the limit at the very no-stop time, of every dive and diver', () => {
    let met = 0;
    for (const entry of entries) {
      const stayed = hadYouStayed(entry, trip, 600, 1);
      if (stayed === null || stayed.limitInMin === null) continue;
      met += 1;
      // Logarithm there, exponential back: a few ulp of a share.
      expect(stayed.points.at(-1)!.fractionOfLimit).toBeCloseTo(1, 12);
      expect(entry.bottomMin + stayed.limitInMin).toBeCloseTo(entry.noStopMin!, 9);
      expect(stayed.points.at(-1)!.atMin).toBeCloseTo(entry.startMin + entry.noStopMin!, 6);
    }
    expect(met).toBeGreaterThan(40);
  });

  it('goes on from the curve of the dive as planned', () => {
    for (const diver of of.divers) {
      const { points } = timelineOf(diver, trip, diver.entries.at(-1)!.surfacesMin, {
        waterMin: 1,
        surfaceMin: 30,
      });
      for (const entry of diver.entries) {
        const stayed = hadYouStayed(entry, trip, 10, 1);
        if (stayed === null) continue;
        const leavesMin = entry.startMin + entry.bottomMin;
        const leaving = points.find(({ atMin }) => Math.abs(atMin - leavesMin) < 1e-6)!;
        expect(stayed.points[0]!.fractionOfLimit).toBeCloseTo(leaving.fractionOfLimit, 9);
      }
    }
  });

  it('ends where it is asked to, without a limit', () => {
    const entry = entries.find(
      ({ noStopMin, bottomMin }) => noStopMin !== null && noStopMin > bottomMin + 6,
    )!;
    const stayed = hadYouStayed(entry, trip, 5, 1)!;
    expect(stayed.limitInMin).toBeNull();
    expect(stayed.points).toHaveLength(6);
    expect(stayed.points.at(-1)!.atMin).toBe(entry.startMin + entry.bottomMin + 5);
  });

  it('is none past the limit, and none of a dive that is left out', () => {
    expect(hadYouStayed({ ...entries[0]!, isPastLimit: true }, trip, 30, 1)).toBeNull();
    expect(hadYouStayed({ ...entries[0]!, isMade: false }, trip, 30, 1)).toBeNull();
  });
});
