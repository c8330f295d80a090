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

describe('briefing sheet', () => {
  it('shows each dive with its divers, marks the tightest, asks before entry', () => {
    const [first, second] = layoutOf(week, { kind: 'briefing', paper: aPaper('A4') }).pages.map(wordsOf);
    expect(first).toContain('Guest 2 (tightest)');
    expect(first).not.toContain('Guest 1 (tightest)');
    expect(first).toContain('EAN36');
    expect(first).toContain('Before entry, ask');
    expect(second).toContain('Guest 2');
    expect(second).not.toContain('tightest');
  });

  it('marks all of several divers who have equally little room', () => {
    const party = ['Guest 1', 'Guest 2', 'Guest 3'].map((name, i) =>
      aDiver({ id: `g${i}`, name, gradient: i === 1 ? { low: 0.5, high: 0.8 } : { low: 0.3, high: 0.6 } }),
    );
    const trip = aTrip([aDive({ id: 'x', startsAt: '2027-03-06T08:00', depthM: 26 })], { party });
    const [page] = layoutOf(trip, { kind: 'briefing', paper: aPaper('A4') }).pages.map(wordsOf);
    expect(page).toContain('Guest 1 (tightest)');
    expect(page).not.toContain('Guest 2 (tightest)');
    expect(page).toContain('Guest 3 (tightest)');
  });

  it('tells of dense gas on the days that have it', () => {
    const dives = [
      aDive({ id: 'a', startsAt: '2027-03-06T08:00', depthM: 34, bottomMin: 8 }),
      aDive({ id: 'b', startsAt: '2027-03-06T14:00', depthM: 32, bottomMin: 5 }),
      aDive({ id: 'c', startsAt: '2027-03-07T08:00', depthM: 33, bottomMin: 5 }),
      aDive({ id: 'd', startsAt: '2027-03-08T08:00', depthM: 14 }),
    ];
    const briefings = layoutOf(aTrip(dives), { kind: 'briefing', paper: aPaper('A4') }).pages.map(wordsOf);
    expect(briefings[0]).toContain(
      'Note. On 2 dives the gas is dense, up to 5.7 g/L at 34 m, above the 5.2 g/L',
    );
    expect(briefings[1]).toMatch(/Note. On one dive the gas has 5\.\d g\/L at 33 m, above the 5\.2 g\/L/);
    expect(briefings[2]).not.toContain('g/L');
  });

  it('tells several divers once what is the same, with days as on the rest of the page', () => {
    const party = ['Guest 1', 'Guest 2', 'Guest 3'].map((name, i) => aDiver({ id: `g${i}`, name }));
    const dives = ['05:00', '08:00', '11:00', '14:00', '17:00'].map((start, i) =>
      aDive({ id: `x${i}`, startsAt: `2027-03-06T${start}`, depthM: 12, bottomMin: 20 }),
    );
    const first = { ...dives[0]!, divers: ['g0', 'g2'] };
    const trip = aTrip([first, ...dives.slice(1)], { party });
    const [page] = layoutOf(trip, { kind: 'briefing', paper: aPaper('A4') }).pages.map(wordsOf);
    expect(page).toContain('Note. Guest 1 and Guest 3, dive 5: 5 dives on Sat 6 Mar 2027: watch for');
    expect(page).not.toContain('2027-03-06');
  });

  it('leaves out no figure on narrow paper, and continues a dive of many divers on the next page', () => {
    const party = Array.from({ length: 12 }, (_, i) => aDiver({ id: `g${i}`, name: `Guest ${i + 1}` }));
    const trip = aTrip([aDive({ id: 'x', startsAt: '2027-03-06T08:00', depthM: 24 })], { party });
    for (const paper of ['A6', '4x6in', '60x150mm']) {
      for (const units of ['metric', 'both'] as const) {
        const pages = layoutOf(trip, { kind: 'briefing', paper: aPaper(paper), units }).pages.map(wordsOf);
        const cards = pages.filter((page) => page.includes('Guest '));
        for (const card of cards) {
          for (const word of [/PO2/, /MOD/, /set by/, /fill/, /[Tt]urn/]) expect(card, paper).toMatch(word);
        }
        expect(cards.join('\n').match(/Guest \d+/g)).toHaveLength(12);
        const [first, ...others] = cards;
        expect(first).toContain('08:00');
        for (const page of others) expect(page).toContain('continued');
      }
    }
  });

  it('takes one page for twelve divers and four dives where cautions leave it', () => {
    const party = Array.from({ length: 12 }, (_, i) => aDiver({ id: `g${i}`, name: `Guest ${i}` }));
    const starts = ['07:30', '10:30', '14:00', '17:30'];
    const trip = aTrip(
      starts.map((start, i) => aDive({ id: `x${i}`, startsAt: `2027-03-06T${start}`, depthM: 14 - i })),
      { party },
    );
    expect(layoutOf(trip, { kind: 'briefing', paper: aPaper('A4') }).pages).toHaveLength(1);
    expect(layoutOf(trip, { kind: 'briefing', paper: aPaper('letter') }).pages).toHaveLength(1);
  });
});

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
