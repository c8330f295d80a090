import { describe, expect, it } from 'vitest';
import { SAFETY_LINE } from '../../../../core/words/safety-line';
import { fileWords } from '../../../../core/words/reader';
import { LABEL_SIZES } from '../../../../core/slate/labels';
import { PT_PER_MM } from '../../../../core/slate/paper';
import type { SlateRequest } from '../../../../core/slate/request';
import type { Trip } from '../../../../core/document/types';
import { highTrip } from '../../../../core/document/high-trip';
import { AIR, aDive, aDiver, aTrip, RICH } from '../../../builders/trip';
import { aPaper, faultsOf, layoutOf, textsOf, wordsOf } from '../../../support/slates';

const week = aTrip(
  [
    aDive({ id: 'a', startsAt: '2027-03-06T08:00', mix: 'rich' }),
    aDive({ id: 'b', startsAt: '2027-03-06T12:00', depthM: 18, mix: 'lean' }),
    aDive({ id: 'c', startsAt: '2027-03-07T08:00', divers: ['guest-2'] }),
  ],
  { party: [aDiver(), aDiver({ id: 'guest-2', name: 'Guest 2', gradient: { low: 0.4, high: 0.7 } })] },
);

/** The mixed party with two mixes as bail-out of its loop. @param depthM of its last dive */
function looped(depthM?: number): Trip {
  const trip = highTrip();
  const rich = { id: 'ean50', o2: 0.5, costPerFill: 12 };
  const dives = trip.dives.map((dive, i) =>
    depthM !== undefined && i === trip.dives.length - 1 ? { ...dive, depthM, bottomMin: 10 } : dive,
  );
  const party = trip.party.map((diver) => {
    const { loop } = diver;
    if (loop === undefined) return diver;
    const { cylinder } = loop.bailOut[0]!;
    return { ...diver, loop: { ...loop, bailOut: [...loop.bailOut, { mix: 'ean50', cylinder }] } };
  });
  return { ...trip, mixes: [...trip.mixes, rich], party, dives };
}

describe('cylinder tags', () => {
  const paper = aPaper('A4');

  const first: Partial<SlateRequest> = { kind: 'tags', paper, diverIds: ['guest-1'], dates: ['2027-03-06'] };
  const tagOf = (trip: Trip, change: Partial<SlateRequest> = {}) =>
    layoutOf(trip, { ...first, ...change }).pages[0]!;

  it('have a ladder of readings with their MOD until one is made, the label in a frame', () => {
    const words = wordsOf(tagOf(week)).split('\n');
    expect(words.slice(0, 2)).toEqual(['EAN36', 'Sat 6 March']);
    const at = words.indexOf('34');
    expect(words.slice(at, at + 10)).toEqual(['34', '31', '35', '29', '36', '28', '37', '27', '38', '26']);
    expect(words).toContain('analysed');
  });

  it('give the MOD in the units of the reader', () => {
    expect(wordsOf(tagOf(week, { units: 'imperial' })).split('\n')).toContain('94');
    const both = wordsOf(tagOf(week, { units: 'both' })).split('\n');
    expect(both).toContain('28');
    expect(both).toContain('94');
  });

  it('put readings in dots that are too rich for the dive', () => {
    const deep = aTrip([aDive({ depthM: 28, mix: 'rich' })]);
    const words = wordsOf(layoutOf(deep, { kind: 'tags', paper }).pages[0]!);
    expect(words.replaceAll('\n', ' ')).toContain('In dots: too rich for this dive.');
    expect(wordsOf(tagOf(week))).not.toContain('In dots');
  });

  it('print the share as analysed, and its depths, large', () => {
    const trip = {
      ...week,
      mixes: week.mixes.map((mix) => (mix.id === 'rich' ? { ...mix, analysedO2: 0.374 } : mix)),
    };
    const large = textsOf(tagOf(trip)).filter(({ sizePt }) => sizePt === 30);
    expect(large.map(({ text }) => text).slice(0, 3)).toEqual(['EAN37.4', '37.4', '27']);
    // The other dive of the day is on a mix that nobody has read yet.
    expect(wordsOf(tagOf(trip)).match(/^I read, %$/gm)).toHaveLength(1);
  });

  it('have the number of the cylinder, or a line to write it on', () => {
    const party = week.party.map((diver) => ({ ...diver, cylinderNo: '17' }));
    expect(wordsOf(tagOf({ ...week, party })).split('\n')).toContain('17');
    expect(wordsOf(tagOf(week)).split('\n')).not.toContain('17');
  });

  it('have a name whole or not at all: it stands in the log too', () => {
    const name = 'Maximiliana Overstrand-Quillfeather of the Outermost Lighthouse below the Point';
    const party = [aDiver({ name }), ...week.party.slice(1)];
    const { pages } = layoutOf({ ...week, party }, { ...first, label: aPaper('63.5x38.1mm') });
    expect(wordsOf(pages[0]!)).not.toContain('Maximiliana');
    expect(wordsOf(pages.at(-1)!).replaceAll('\n', ' ')).toContain(name);
  });

  it.each(LABEL_SIZES)('take all that has to stand on them at %s, on the stock there is for it', (label) => {
    const stock = aPaper(label.endsWith('in') ? 'letter' : 'A4');
    for (const units of ['metric', 'imperial', 'both'] as const) {
      const [page] = layoutOf(week, { kind: 'tags', paper: stock, label: aPaper(label), units }).pages;
      expect(wordsOf(page!).match(/^I read, %$/gm)).toHaveLength(5);
      // Label stock is cut already: no lines to cut along.
      const dashes = page!.marks.filter((mark) => mark.kind === 'line' && mark.dashPt?.[0] === 2);
      expect(dashes).toHaveLength(0);
      expect(faultsOf(page!, 2 * PT_PER_MM)).toEqual([]);
    }
  });

  it.each(LABEL_SIZES)('take as much once they are analysed, and of a loop, at %s', (label) => {
    const stock = aPaper(label.endsWith('in') ? 'letter' : 'A4');
    const read = { ...week, mixes: week.mixes.map((mix) => ({ ...mix, analysedO2: mix.o2 + 0.004 })) };
    for (const trip of [read, highTrip(), looped()]) {
      for (const units of ['metric', 'imperial', 'both'] as const) {
        const [page] = layoutOf(trip, { kind: 'tags', paper: stock, label: aPaper(label), units }).pages;
        expect(faultsOf(page!, 2 * PT_PER_MM)).toEqual([]);
      }
    }
  });

  describe('of a loop', () => {
    const ofLoop = (trip: Trip, change: Partial<SlateRequest> = {}) =>
      layoutOf(trip, { kind: 'tags', paper, diverIds: ['guest3'], ...change }).pages;
    const heads = (trip: Trip, change: Partial<SlateRequest> = {}) =>
      ofLoop(trip, change)
        .slice(0, -1)
        .flatMap((page) =>
          textsOf(page)
            .filter(({ sizePt, font }) => sizePt === 30 && font === 'bold')
            .map(({ text }) => text),
        );

    it('are its oxygen and diluent for each dive, and its bail-out for the first', () => {
      expect(heads(highTrip(), { dates: ['2027-05-08'] })).toEqual([
        'OXYGEN',
        'Air',
        'EAN32',
        'OXYGEN',
        'Air',
      ]);
      expect(heads(highTrip(), { dates: ['2027-05-09'] })).toEqual(['OXYGEN', 'Air', 'OXYGEN', 'Air']);
    });

    it('say what each is for, and have a row of the log each', () => {
      const pages = ofLoop(highTrip(), { dates: ['2027-05-08'] });
      const tags = wordsOf(pages[0]!).split('\n');
      for (const use of ['the loop only', 'diluent, dive 1', 'bail-out', 'diluent, dive 2'])
        expect(tags).toContain(use);
      const rows = wordsOf(pages.at(-1)!).split('\n');
      expect(rows.filter((row) => row.startsWith('Guest 3'))).toEqual([
        'Guest 3, oxygen of the loop',
        'Guest 3, Air as diluent',
        'Guest 3, EAN32 as bail-out',
        'Guest 3, oxygen of the loop',
        'Guest 3, Air as diluent',
      ]);
    });

    it('keep oxygen off open circuit below its MOD at the contingency PO2', () => {
      const [page] = ofLoop(highTrip(), { dates: ['2027-05-08'] });
      const words = wordsOf(page!).split('\n');
      const at = words.indexOf('the loop only');
      expect(words.slice(at - 1, at + 3)).toEqual(['MOD at 1.6 bar', 'the loop only', '5', ' m']);
      expect(words.join(' ')).toContain('on open circuit it is not breathed below that MOD');
    });

    it('have the MOD of bail-out large, the least of all waters it is taken to', () => {
      // Both at 1.4 bar: 33.6 m in the sea, 35.8 m in the tarn that is dived first.
      const high = highTrip();
      const tarn = high.dives.find(({ siteId }) => high.sites.find(({ id }) => id === siteId)!.water)!;
      const upFirst = { ...high, dives: [{ ...tarn, id: 'x', startsAt: '2027-05-07T10:00' }, ...high.dives] };
      const large = (trip: Trip) =>
        textsOf(ofLoop(trip)[0]!).filter(({ sizePt, font }) => sizePt === 30 && font === 'boldSlant');
      expect(large(high).map(({ text }) => text)).toContain('33');
      expect(large(upFirst).map(({ text }) => text)).toContain('33');
      expect(wordsOf(ofLoop(upFirst)[0]!)).not.toContain('\n35\n m');
    });

    it('put in dots what is too rich for the deepest dive, of the leanest bail-out alone', () => {
      expect(wordsOf(ofLoop(looped())[0]!)).not.toContain('In dots');
      const deep = looped(34);
      const page = wordsOf(ofLoop(deep)[0]!).replaceAll('\n', ' ');
      // The leanest bail-out and, on that dive, nothing of the air that is its diluent.
      expect(page.match(/In dots: too rich for this dive\./g)).toHaveLength(1);
    });
  });

  it('stand ten on A4 where there is nothing else to say, and the cautions in the white under them', () => {
    const dives = Array.from({ length: 6 }, (_, i) =>
      aDive({
        id: `x${i}`,
        startsAt: `2027-03-06T${String(6 + 2 * i).padStart(2, '0')}:00`,
        depthM: 12,
        mix: 'rich',
      }),
    );
    const two = { ...aTrip(dives), party: [aDiver(), aDiver({ id: 'g2', name: 'Guest 2' })] };
    const [page] = layoutOf(two, { kind: 'tags', paper }).pages;
    expect(wordsOf(page!).match(/^I read, %$/gm)).toHaveLength(10);
    expect(wordsOf(page!).replaceAll('\n', ' ')).toContain(fileWords(SAFETY_LINE));
  });

  it('end with a log to sign, a row for each tag', () => {
    const pages = layoutOf(week, { kind: 'tags', paper }).pages;
    expect(pages.at(-1)!.name).toBe('Cylinder analysis log');
    const words = wordsOf(pages.at(-1)!);
    expect(words).toContain('32 %: 33 m');
    for (const row of ['Guest 1, EAN36', 'Guest 2, EAN36', 'Sat 6, 1', 'Sun 7, 1'])
      expect(words).toContain(row);
  });

  describe('have a table of depths in their log', () => {
    const [alone, another] = [aDiver(), aDiver({ id: 'guest-2', maxO2: 0.505 })];
    const sharesOn = (name: string, change: Partial<Trip>, asked: Partial<SlateRequest> = {}) => {
      const trip = aTrip([aDive({ id: 'x' })], change);
      const log = layoutOf(trip, { kind: 'tags', paper: aPaper(name), ...asked }).pages.at(-1)!;
      expect(faultsOf(log, 5 * PT_PER_MM)).toEqual([]);
      const cells = [...wordsOf(log).matchAll(/^(\d+) %: (\d+) m/gm)];
      return cells
        .map(([, percent, m]) => [Number(percent), Number(m)] as const)
        .toSorted(([a], [b]) => a - b);
    };
    const richest = (...asked: Parameters<typeof sharesOn>) => sharesOn(...asked).at(-1)![0];

    it('that goes on to the richest mix, as ordered or as analysed, and to the highest ceiling of those chosen', () => {
      expect(richest('A4', {})).toBe(40);
      expect(richest('A4', { mixes: [AIR, { ...RICH, o2: 0.5 }] })).toBe(50);
      expect(richest('A4', { mixes: [AIR, { ...RICH, analysedO2: 0.452 }] })).toBe(46);
      expect(richest('A4', { party: [alone, another] })).toBe(51);
      expect(richest('A4', { party: [alone, another] }, { diverIds: ['guest-1'] })).toBe(40);
      expect(sharesOn('A4', { party: [another] })).toHaveLength(31);
    });

    it('in wider steps where the page has no room for every percent, each with its own depth rounded down', () => {
      const shares = sharesOn('A6', { party: [aDiver({ maxO2: 0.97 })] });
      const percents = shares.map(([percent]) => percent);
      expect(percents.slice(0, 3)).toEqual([21, 22, 24]);
      expect(percents.at(-1)).toBe(98);
      // Gauge water: 10 m to the bar under 1.01325 bar of air.
      for (const [percent, m] of shares) expect(m).toBe(Math.floor((140 / percent - 1.01325) * 10));
      expect(sharesOn('A6', {})).toHaveLength(20);
    });
  });
});
