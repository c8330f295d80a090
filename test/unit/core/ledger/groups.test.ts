import { describe, expect, it } from 'vitest';
import { cautionsOf } from '../../../../core/cautions/all';
import { checkTrip } from '../../../../core/document/check-trip';
import { keptOut } from '../../../../core/document/may-dive';
import { ledger } from '../../../../core/ledger/ledger';
import { wallText } from '../../../../core/words/calendar';
import { aDive, aDiver, aTrip } from '../../../builders/trip';

const LATE = { name: 'Second boat', afterMin: 15 };
const party = [aDiver(), aDiver({ id: 'late', name: 'Guest 2', group: LATE })];

describe('groups', () => {
  it('enter so many minutes after the start, each dive alike, and are out as much later', () => {
    const trip = aTrip([aDive(), aDive({ startsAt: '2027-03-06T11:00' })], { party });
    const [first, late] = ledger(trip).divers;
    expect(late!.entries.map(({ startMin }) => wallText(startMin))).toEqual([
      '2027-03-06T08:15',
      '2027-03-06T11:15',
    ]);
    first!.entries.forEach((entry, at) => {
      expect(late!.entries[at]!.surfacesMin - entry.surfacesMin).toBe(15);
      expect(late!.entries[at]!.intervalMin).toBe(entry.intervalMin);
    });
    expect(late!.flyAfterMin! - first!.flyAfterMin!).toBe(15);
  });

  it('count toward the hours before flying by when they are out', () => {
    const dives = [aDive({ depthM: 18, bottomMin: 20 }), aDive({ startsAt: '2027-03-06T11:00', depthM: 12 })];
    const surfaces = ledger(aTrip(dives)).divers[0]!.entries[1]!.surfacesMin;
    const trip = aTrip(dives, { party, flight: { at: wallText(Math.ceil(surfaces) + 18 * 60) } });
    expect(checkTrip(trip)).toEqual([]);
    const soon = cautionsOf(ledger(trip)).filter(({ code }) => code === 'flight-too-soon');
    expect(soon.map(({ diverId }) => diverId)).toEqual(['late']);
  });

  it('start when it was written down that they started', () => {
    const dive = aDive({ asDived: [{ by: 'late', startsAt: '2027-03-06T08:04' }] });
    const [, late] = ledger(aTrip([dive], { party })).divers;
    expect(wallText(late!.entries[0]!.startMin)).toBe('2027-03-06T08:04');
  });

  it('are told where the next dive would begin before they are out', () => {
    const dives = [aDive({ bottomMin: 20 }), aDive({ id: 'next', startsAt: '2027-03-06T08:30' })];
    expect(checkTrip(aTrip(dives, { party: [aDiver()] }))).toEqual([]);
    const logged = [dives[0]!, { ...dives[1]!, asDived: [{ by: 'late', startsAt: '2027-03-06T08:31' }] }];
    expect(checkTrip(aTrip(logged, { party })).map(({ what }) => what)).toEqual([
      expect.stringContaining('while Guest 2 surfaces from'),
    ]);
  });
});

describe('keptOut', () => {
  it('knows nothing against anybody where the site says nothing', () => {
    expect(keptOut({}, aDiver({ maxDepthM: 1 }))).toBeNull();
    expect(keptOut({ notFor: {} }, aDiver({ certification: 'any' }))).toBeNull();
  });

  it('compares feet through their rounding', () => {
    const typed = 60 * 0.3048;
    expect(keptOut({ notFor: { depthLimitUnderM: typed + 1e-12 } }, aDiver({ maxDepthM: typed }))).toBeNull();
  });
});
