/** A dive has one number a day on every face: its place among the trip's dives, whoever makes them. */
import { describe, expect, it } from 'vitest';
import { aDive, aDiver, aTrip } from '../../../builders/trip';
import { aPaper, layoutOf, wordsOf } from '../../../support/slates';

describe('the number of a dive', () => {
  const party = [aDiver({ name: 'Ann' }), aDiver({ id: 'bob', name: 'Bob' })];
  const dives = [
    aDive({ id: 'z', startsAt: '2027-03-05T08:00' }),
    aDive({ id: 'a', startsAt: '2027-03-06T08:00', divers: ['guest-1'] }),
    // Dived before the one planned before it: its number stays.
    aDive({ id: 'b', startsAt: '2027-03-06T12:00', asDived: [{ by: 'bob', startsAt: '2027-03-06T07:30' }] }),
    aDive({ id: 'c', startsAt: '2027-03-06T16:00', divers: ['guest-1'] }),
    aDive({ id: 'd', startsAt: '2027-03-06T19:00', divers: ['bob'] }),
  ];
  const boat = aTrip(dives, { party });
  it('is the same on each kind of slate', () => {
    const dates = ['2027-03-06'];
    const words = (change: Parameters<typeof layoutOf>[1]) =>
      layoutOf(boat, { dates, paper: aPaper('A4'), ...change }).pages.map((page) => ({
        name: page.name,
        text: wordsOf(page).replaceAll('\n', ' '),
      }));
    const [card] = words({ kind: 'card', paper: aPaper('A6'), diverIds: ['bob'] });
    expect(card!.name).toBe('Bob, Sat 6 March, dives 2, 4; Bob, Sat 6 March');
    expect(card!.text).toContain('2 Wall in 07:30');
    const [tags] = words({ kind: 'tags', diverIds: ['bob'] });
    expect(tags!.text).toContain('dive 2,');
    expect(tags!.text).toContain('dive 4,');
    expect(tags!.text).not.toMatch(/dive [13],/);
    const [briefing] = words({ kind: 'briefing', diverIds: null });
    expect(briefing!.text).toContain('2 07:30 or 12:00');
    expect(briefing!.text).toContain('4 19:00');
    expect(words({ kind: 'briefing', diverIds: ['bob'] })[0]!.text).toContain('2 07:30');
  });
});
