import { describe, expect, it } from 'vitest';
import type { SlateRequest } from '../../../../core/slate/request';
import { demoTrip } from '../../../../core/document/demo-trip';
import { fileWords } from '../../../../core/words/reader';
import type { Trip } from '../../../../core/document/types';
import { PT_PER_MM } from '../../../../core/slate/paper';
import { bigTrip } from '../../../bench/big-trip';
import { aDive, aDiver, aTrip } from '../../../builders/trip';
import { aPaper, faultsOf, layoutOf, textsOf, wordsOf } from '../../../support/slates';

/** The words of the sheet of each diver on A4, which it takes one page of. */
function sheets(trip: Trip, change: Partial<SlateRequest> = {}): readonly string[] {
  const { pages } = layoutOf(trip, { kind: 'trip', paper: aPaper('A4'), ...change });
  expect(pages).toHaveLength(trip.party.length);
  return pages.map((page) => wordsOf(page).replaceAll(/\s+/g, ' '));
}

describe('the sheet', () => {
  it('lies, and has the whole trip of a diver on one page of A4: both bands, every dive once in its day', () => {
    const { pages, count } = layoutOf(demoTrip(), { kind: 'trip', paper: aPaper('A4') });
    expect(pages.map(({ name }) => name)).toEqual([
      'Trip sheet, Guide',
      'Trip sheet, Guest 1',
      'Trip sheet, Guest 2',
      'Trip sheet, Guest 3',
    ]);
    expect(fileWords(count)).toBe('4 divers: 4 pages');
    for (const [i, page] of pages.entries()) {
      expect(page.widthPt).toBeCloseTo(297 * PT_PER_MM, 1);
      expect(page.widthPt).toBeGreaterThan(page.heightPt);
      const words = wordsOf(page);
      expect(words).toContain('Nitrogen');
      expect(words).toContain('Oxygen');
      const dives = demoTrip().dives.filter(
        ({ divers }) => divers?.includes(demoTrip().party[i]!.id) ?? true,
      );
      // Its hour over the water and in the table.
      expect(words.match(/^\d\d:\d\d$/gm)).toHaveLength(2 * dives.length);
    }
  });

  it('is set in one size, whatever the paper: hours of 10 points, depths of 13', () => {
    for (const paper of ['A6', 'A5', 'A4', 'letter']) {
      const { pages } = layoutOf(demoTrip(), { kind: 'trip', paper: aPaper(paper), diverIds: ['guide'] });
      const texts = pages.flatMap(textsOf);
      expect(
        new Set(texts.filter(({ text }) => /^\d\d:\d\d$/.test(text)).map(({ sizePt }) => sizePt)),
      ).toEqual(new Set([10]));
      expect(texts.some(({ text, sizePt }) => text === '15' && sizePt === 13)).toBe(true);
    }
  });

  it('has the table in the columns of the strip', () => {
    const [page] = layoutOf(demoTrip(), { kind: 'trip', paper: aPaper('A4'), diverIds: ['guide'] }).pages;
    const texts = textsOf(page!);
    const day = texts.find(({ text }) => text === 'Mon 15 March')!;
    const total = texts.filter(({ text }) => text === 'CNS 24 h')[1]!;
    expect(total.x).toBeCloseTo(day.x, 1);
    expect(total.y).toBeGreaterThan(day.y);
  });

  it('goes on with the table on small paper, under the date of its day again', () => {
    const starts = Array.from({ length: 8 }, (_, i) => `${String(6 + 2 * i).padStart(2, '0')}:00`);
    const dives = ['06', '07', '08'].flatMap((day) =>
      starts.map((start) =>
        aDive({ id: `${day}${start}`, startsAt: `2027-03-${day}T${start}`, depthM: 12, bottomMin: 20 }),
      ),
    );
    const pages = layoutOf(aTrip(dives), { kind: 'trip', paper: aPaper('A6') }).pages;
    expect(pages.length).toBeGreaterThan(2);
    const tables = pages.slice(1).map(wordsOf);
    expect(tables.join('\n').match(/^\d\d:00$/gm)!.length).toBeGreaterThanOrEqual(24);
    for (const page of tables) expect(page.split('\n')[1]).toMatch(/^(Sat|Sun|Mon) \d/);
    for (const page of pages) expect(faultsOf(page, 5 * PT_PER_MM)).toEqual([]);
  });

  it('takes a fortnight of four dives a day, in two strips where one would be too narrow', () => {
    const { pages } = layoutOf(bigTrip(60, 1), { kind: 'trip', paper: aPaper('A4') });
    expect(wordsOf(pages[0]!).match(/^Nitrogen$/gm)).toHaveLength(2);
    expect(
      pages
        .map(wordsOf)
        .join('\n')
        .match(/^CNS 24 h$/gm),
    ).toHaveLength(15);
    for (const page of pages) expect(faultsOf(page, 5 * PT_PER_MM)).toEqual([]);
  });

  it('gives depths of the table in both units, and of the strip in one', () => {
    const trip = aTrip([aDive({ depthM: 24 })]);
    const [page] = layoutOf(trip, { kind: 'trip', paper: aPaper('A4'), units: 'both' }).pages;
    const words = wordsOf(page!).split('\n');
    expect(words).toContain('24 m / 78 ft');
    expect(words).toContain('24');
  });
});

describe('what to stop', () => {
  const party = [aDiver(), aDiver({ id: 'g2', name: 'Guest 2', maxDepthM: 18 })];
  const dives = [
    aDive({ id: 'a', startsAt: '2027-03-06T08:00', depthM: 20 }),
    aDive({ id: 'b', startsAt: '2027-03-06T14:00', depthM: 12 }),
  ];

  it('marks the dives of whom it concerns in words', () => {
    const [first, second] = sheets(aTrip(dives, { party }));
    expect(first).not.toContain('Past a limit');
    expect(second!.match(/Past a limit: see its cautions/g)).toHaveLength(1);
    expect(second).toMatch(/room past ?, own depth limit/);
  });

  it('says what is about no one dive in full', () => {
    const before = [
      { id: 'e', startsAt: '2027-03-05T08:00', depthM: 20, bottomMin: 30, mix: 'air' },
    ] as const;
    const climber = aDiver({ id: 'g2', name: 'Guest 2', before, arrivedAt: '2027-03-05T12:00' });
    const water = { density: 'fresh', altitudeM: 1200 } as const;
    const [first, second] = sheets(aTrip(dives, { party: [aDiver(), climber], water }));
    expect(first).not.toContain('Past a limit:');
    expect(second).toContain('Past a limit: The climb to');
  });

  it('says whether the flight waits for flying to be clear', () => {
    const flying = (at: string | null) => sheets(aTrip(dives, { flight: at === null ? null : { at } }))[0]!;
    expect(flying(null)).toMatch(/No flying before Sun 7, \d\d:\d\d \. Bar/);
    expect(flying('2027-03-07T06:30')).toMatch(
      /No flying before Sun 7, \d\d:\d\d \. Flight Sun 7, 06:30 , too soon \. /,
    );
    const late = flying('2027-03-08T06:30');
    expect(late).toMatch(/Flight Mon 8, 06:30 \. Bar/);
    expect(`${late}${flying('2027-03-07T06:30')}`).not.toContain('Past a limit:');
  });

  it('leaves the demo trip a page a diver with all dives marked', () => {
    const shallow = demoTrip().party.map((diver) => ({ ...diver, maxDepthM: 10 }));
    for (const sheet of sheets({ ...demoTrip(), party: shallow })) {
      expect(sheet.match(/Past a limit: see its cautions/g)!.length).toBeGreaterThan(15);
    }
  });
});

describe('what is not known, and what is counted', () => {
  it('says of a clock that is not known that it is not, in place of a figure', () => {
    const dives = [12, 42, 14, 15].map((depthM, i) =>
      aDive({ id: `x${i}`, startsAt: `2027-03-0${6 + i}T08:00`, depthM, mix: 'rich' }),
    );
    const [whole] = sheets(aTrip(dives));
    expect(whole!.match(/CNS 24 h not known: PO2/g)!.length).toBeGreaterThanOrEqual(1);
    expect(sheets(aTrip(dives.slice(0, 1)))[0]).not.toContain('not known');
  });

  it('counts dives in the singular and the plural, and names a dive that is not made', () => {
    const one = aDive({ id: 'a', startsAt: '2027-03-06T08:00', mix: 'rich', depthM: 18 });
    const none = aDive({ id: 'b', startsAt: '2027-03-07T08:00', mix: 'auto', depthM: 45 });
    const rich = { mixes: [{ id: 'rich', o2: 0.36, costPerFill: 0 }] };
    const [words] = sheets(aTrip([one, none], rich));
    expect(words).toContain('1 dive, 20 min');
    expect(words).toContain('no dives');
    expect(words).toContain('not to be dived');
    expect(words).not.toMatch(/\b[01] dives/);
    const two = { ...one, id: 'c', startsAt: '2027-03-06T14:00' };
    expect(sheets(aTrip([one, two]))[0]).toContain('2 dives, 40 min');
  });
});

describe('the table', () => {
  it('has the sums of a day below its last dive, never alone at the head of a column', () => {
    for (const paper of ['A6', 'A5', '4x6in', 'half-letter']) {
      for (const units of ['metric', 'imperial'] as const) {
        const { pages } = layoutOf(demoTrip(), { kind: 'trip', paper: aPaper(paper), units });
        const words = pages.map((page) => wordsOf(page)).join('\n');
        expect(words).toContain('CNS 24 h');
        // Head of a day, and at once its sums.
        expect(words).not.toMatch(/^[A-Z][a-z]{2} \d+(?: [A-Z][a-z]+)?\nCNS 24 h/m);
      }
    }
  });
});
