import { describe, expect, it } from 'vitest';
import { mixesDocument, type StockListDocument } from '../../../../core/mixes/mixes-document';
import { PLAIN_REQUEST } from '../../../../core/mixes/shares';
import { searchStock } from '../../../../core/mixes/stock';
import type { Dive } from '../../../../core/document/types';
import { aDive, aDiver, aTrip } from '../../../builders/trip';

function listsOf(dives: readonly Dive[]): readonly StockListDocument[] {
  const trip = aTrip(dives, { party: [aDiver()] });
  const answer = searchStock(trip, {
    ...PLAIN_REQUEST,
    count: 1,
    fixedPercents: [28],
  });
  if (!answer.ok) throw new Error(JSON.stringify(answer.troubles));
  return mixesDocument(trip, [], answer.value, null).stock;
}

describe('the smallest room of a list in the document', () => {
  it('is minutes where every dive has some', () => {
    const [list] = listsOf([aDive({ depthM: 20, bottomMin: 20 })]);
    expect(list!.smallestRoomMin).toBeGreaterThan(0);
    expect(list!.roomUnlimited).toBe(false);
  });

  it('is null where a dive is past a limit that no shorter stay would keep', () => {
    const soon = aDive({ startsAt: '2027-03-06T09:00', depthM: 40, bottomMin: 6, mix: 'auto' });
    const deep = aDive({ depthM: 40, bottomMin: 30, mix: 'auto' });
    for (const list of listsOf([deep, soon])) {
      expect([list.smallestRoomMin, list.roomUnlimited, list.divesWithin]).toEqual([null, false, 0]);
    }
  });

  it('is null, and said to have no end, where no dive is made', () => {
    const [list] = listsOf([aDive({ depthM: 90, bottomMin: 6, mix: 'auto' })]);
    expect([list!.smallestRoomMin, list!.roomUnlimited, list!.divesWithin]).toEqual([null, true, 0]);
  });
});
