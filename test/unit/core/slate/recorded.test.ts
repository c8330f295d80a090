import { describe, expect, it } from 'vitest';
import type { SlateRequest } from '../../../../core/slate/request';
import { ledger } from '../../../../core/ledger/ledger';
import { aDive, aTrip } from '../../../builders/trip';
import { aPaper, layoutOf, textsOf } from '../../../support/slates';

/** Ten minutes at 30 m, and the rest of 40 on the way up along a slope: no other stay. */
const recorded = (upMin: number) =>
  aDive({
    depthM: 24,
    bottomMin: 30,
    asDived: [
      {
        samples: [
          [0, 0],
          [3, 30],
          [10, 30],
          [14, 12],
          [40, 10],
          [upMin, 0],
        ],
      },
    ],
  });
const trip = aTrip([recorded(43)]);

const textOf = (change: Partial<SlateRequest>): string =>
  layoutOf(trip, change)
    .pages.flatMap(textsOf)
    .map(({ text }) => text.trim())
    .join(' ');

/** Depths that are bold on a card, but for the MOD. */
function boldDepths(card: SlateRequest['card']): readonly string[] {
  return layoutOf(trip, { card, isFolded: false })
    .pages.flatMap(textsOf)
    .filter(({ font, text }) => font === 'boldSlant' && /^\d+$/.test(text) && text !== '56')
    .map(({ text }) => text);
}

describe('a recorded dive', () => {
  it('has one depth on every card, its deepest stay, and the way up is no level', () => {
    for (const card of ['full', 'short', 'dive'] as const) {
      expect(boldDepths(card), card).toEqual(['30']);
      expect(textOf({ card })).toContain('Left the depth at');
      expect(textOf({ card })).not.toContain('Leave each level at');
    }
  });

  it('tells the whole time beside it, on a card of its own and on the briefing', () => {
    expect(textOf({})).toMatch(/As recorded, up 08:43 leave 40, up 43 min/);
    expect(textOf({ kind: 'briefing', paper: aPaper('A4') })).toMatch(/30 to 10 , 40 in all/);
  });

  it('has a card too where nothing tells its way up from its bottom time', () => {
    const slow = aTrip([recorded(60)]);
    expect(ledger(slow).divers[0]!.entries[0]!.bottomMin).toBe(60);
    const [page] = layoutOf(slow, { isFolded: false }).pages;
    expect(textsOf(page!).map(({ text }) => text.trim())).toEqual(
      expect.arrayContaining(['65 min in all', '70 min in all']),
    );
  });

  it('has one depth in the table of a trip sheet', () => {
    const text = textOf({ kind: 'trip', paper: aPaper('A4') });
    expect(text).toMatch(/30 m/);
    expect(text).toContain('40 min');
    expect(text).not.toMatch(/30 m, \d+/);
  });
});
