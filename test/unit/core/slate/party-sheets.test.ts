import { describe, expect, it } from 'vitest';
import { PT_PER_MM } from '../../../../core/slate/paper';
import { aDive, aDiver, aTrip } from '../../../builders/trip';
import { aPaper, faultsOf, layoutOf, wordsOf } from '../../../support/slates';

const week = aTrip(
  [
    aDive({ id: 'a', startsAt: '2027-03-06T08:00', mix: 'rich' }),
    aDive({ id: 'b', startsAt: '2027-03-06T12:00', depthM: 18, mix: 'lean' }),
    aDive({ id: 'c', startsAt: '2027-03-07T08:00', divers: ['guest-2'] }),
  ],
  { party: [aDiver(), aDiver({ id: 'guest-2', name: 'Guest 2', gradient: { low: 0.4, high: 0.7 } })] },
);

describe('trip sheet', () => {
  it('takes one page a diver with both bands and every dive', () => {
    const pages = layoutOf(week, { kind: 'trip', paper: aPaper('A4') }).pages;
    expect(pages.map((page) => page.name)).toEqual(['Trip sheet, Guest 1', 'Trip sheet, Guest 2']);
    const words = wordsOf(pages[1]!);
    expect(words).toContain('Nitrogen on surfacing');
    expect(words).toContain('Oxygen carried');
    expect(words.match(/Wall/g)).toHaveLength(3);
    expect(pages[1]!.marks.filter((mark) => mark.kind === 'area')).toHaveLength(1);
  });

  it('goes on with the list on small paper, under the date of its day again', () => {
    const starts = Array.from({ length: 8 }, (_, i) => `${String(6 + 2 * i).padStart(2, '0')}:00`);
    const dives = ['06', '07', '08'].flatMap((day) =>
      starts.map((start) =>
        aDive({ id: `${day}${start}`, startsAt: `2027-03-${day}T${start}`, depthM: 12, bottomMin: 20 }),
      ),
    );
    const pages = layoutOf(aTrip(dives), { kind: 'trip', paper: aPaper('A6') }).pages.map(wordsOf);
    expect(pages.length).toBeGreaterThan(1);
    expect(pages.join('\n').match(/^\d\d:00$/gm)).toHaveLength(24);
    for (const page of pages.slice(1)) {
      const list = page.split('\n').slice(page.split('\n').indexOf('CNS') + 1);
      expect(list[0]).toMatch(/^(Sat|Sun|Mon) \d Mar 2027: CNS/);
    }
  });

  it('puts the figures under the site where the paper is too narrow for a row', () => {
    const trip = aTrip([aDive({ id: 'x', startsAt: '2027-03-06T08:00', depthM: 24 })]);
    const [page] = layoutOf(trip, { kind: 'trip', paper: aPaper('85x150mm'), units: 'both' }).pages;
    expect(wordsOf(page!)).toMatch(/08:00 Wall\n24 m \/ 78 ft\n/);
    expect(faultsOf(page!, 5 * PT_PER_MM)).toEqual([]);
  });
});
