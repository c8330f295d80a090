import { describe, expect, it } from 'vitest';
import { highTrip } from '../../../../core/document/high-trip';
import { ledger } from '../../../../core/ledger/ledger';
import { fillsMade, USUAL_BOTTLES } from '../../../../core/mixes/blending';
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

describe('fills in the document', () => {
  it('name the oxygen of loops by no mix, and tell what is topped up as diluent from where', () => {
    const high = highTrip();
    const party = high.party.map((diver) =>
      diver.loop === undefined ? diver : { ...diver, loop: { ...diver.loop, diluent: 'ean32' } },
    );
    const request = { method: 'partial-pressure', law: 'ideal', startBar: 50, startO2: null } as const;
    const made = fillsMade(ledger({ ...high, party }), request, USUAL_BOTTLES.metric);
    const answer = searchStock(high, { ...PLAIN_REQUEST, count: 1 });
    if (!made.ok || !answer.ok) throw new Error('no answer');
    const { fills } = mixesDocument(high, [], answer.value, made.value);
    const known = [null, ...high.mixes.map(({ id }) => id)];
    for (const { mixId, o2 } of fills!.lines) {
      expect(known).toContain(mixId);
      expect(o2 === 1).toBe(mixId === null);
    }
    const oxygen = fills!.lines.filter(({ mixId }) => mixId === null);
    expect(oxygen.reduce((sum, line) => sum + line.fills, 0)).toBe(7);
    expect(fills!.loopOxygenL).toBeGreaterThan(oxygen.reduce((sum, { oxygenL }) => sum + oxygenL, 0));
    const diluents = fills!.steps.filter(({ diluent }) => diluent);
    expect(diluents.reduce((sum, step) => sum + step.fills, 0)).toBe(7);
    for (const step of diluents) expect(step.startBar).toBeGreaterThan(150);
    for (const step of fills!.steps) if (!step.diluent) expect(step.startBar).toBe(50);
  });
});
