import { describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { ledger } from '../../../../core/ledger/ledger';
import { timelineOf } from '../../../../core/ledger/timeline';
import type { Trip } from '../../../../core/document/types';

/** Two deep dives on air, the second begun while stops of the first are still owed. */
function overlapping(): Trip {
  const trip = demoTrip();
  const [first, second] = trip.dives;
  return {
    ...trip,
    party: [{ ...trip.party[0]!, maxDepthM: 45 }],
    mixes: trip.mixes.filter((mix) => mix.o2 === 0.21),
    dives: [
      {
        id: 'a',
        siteId: first!.siteId,
        startsAt: '2027-03-14T09:00',
        depthM: 42,
        bottomMin: 35,
        mix: 'auto',
      },
      {
        id: 'b',
        siteId: second!.siteId,
        startsAt: '2027-03-14T09:50',
        depthM: 12,
        bottomMin: 20,
        mix: 'auto',
      },
    ],
    flight: null,
  };
}

describe('timelineOf', () => {
  it('draws a dive whose stops run into the next until that begins, and never runs back', () => {
    const trip = overlapping();
    const own = ledger(trip).divers[0]!;
    const [first, second] = own.entries;
    expect(first!.surfacesMin).toBeGreaterThan(second!.startMin);
    const { points } = timelineOf(own, trip, second!.surfacesMin + 60, { waterMin: 2, surfaceMin: 5 });
    points.forEach((point, i) => {
      if (i > 0) expect(point.atMin).toBeGreaterThanOrEqual(points[i - 1]!.atMin);
    });
    const begun = points.find((point) => point.atMin === second!.startMin && point.depthM === 0);
    expect(begun?.surfacingTensions).toEqual(second!.tensionsBefore);
  });
});
