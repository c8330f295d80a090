import { describe, expect, it } from 'vitest';
import { assert } from '../../../../core/result';
import { SAFETY_LINE } from '../../../../core/words/safety-line';
import { fileWords } from '../../../../core/words/reader';
import { LABEL_SIZES } from '../../../../core/slate/labels';
import { readSlateOptions, usualPaper } from '../../../../core/slate/options';
import { PT_PER_MM } from '../../../../core/slate/paper';
import { slatePages } from '../../../../core/slate/pages';
import type { SlateRequest } from '../../../../core/slate/request';
import type { Trip } from '../../../../core/document/types';
import { AIR, aDive, aDiver, aTrip, RICH } from '../../../builders/trip';
import { aPaper, aRequest, faultsOf, layoutOf, textsOf, wordsOf } from '../../../support/slates';

const week = aTrip(
  [
    aDive({ id: 'a', startsAt: '2027-03-06T08:00', mix: 'rich' }),
    aDive({ id: 'b', startsAt: '2027-03-06T12:00', depthM: 18, mix: 'lean' }),
    aDive({ id: 'c', startsAt: '2027-03-07T08:00', divers: ['guest-2'] }),
  ],
  { party: [aDiver(), aDiver({ id: 'guest-2', name: 'Guest 2', gradient: { low: 0.4, high: 0.7 } })] },
);

function kindsOf(trip: Trip, change: Partial<SlateRequest>): readonly string[] {
  const laid = slatePages(aRequest(trip, change));
  return laid.ok ? [] : laid.troubles.map((trouble) => trouble.kind);
}

const names = (change: Partial<SlateRequest>) => layoutOf(week, change).pages.map((page) => page.name);

describe('choosing', () => {
  it('prints the whole party, diver by diver and day by day', () => {
    expect(names({ onePerPage: true })).toEqual([
      'Guest 1, Sat 6 Mar 2027, dive 1',
      'Guest 1, Sat 6 Mar 2027, dive 2',
      'Guest 2, Sat 6 Mar 2027, dive 1',
      'Guest 2, Sat 6 Mar 2027, dive 2',
      'Guest 2, Sun 7 Mar 2027, dive 1',
    ]);
  });

  it('prints the divers and days chosen', () => {
    expect(names({ diverIds: ['guest-2'], dates: ['2027-03-07'] })).toEqual([
      'Guest 2, Sun 7 Mar 2027, dive 1',
    ]);
  });

  it('numbers the divers whose names the font cannot print, so that no two look alike', () => {
    const party = [
      aDiver({ name: '山田' }),
      aDiver({ id: 'guest-2', name: '田中' }),
      aDiver({ id: 'g', name: 'Ώρα' }),
    ];
    const { pages, missingLetters } = layoutOf(
      aTrip([aDive({ id: 'a', startsAt: '2027-03-06T08:00' })], { party }),
    );
    expect(missingLetters).toEqual(['山', '田', '中']);
    expect(pages.map((page) => textsOf(page)[0]!.text)).toEqual([
      'Diver 1, \u25a1\u25a1',
      'Diver 2, \u25a1\u25a1',
      'Ώρα',
    ]);
  });

  it('puts several dives on a page that takes them, one on request', () => {
    const a4 = aPaper('A4');
    expect(names({ paper: a4, diverIds: ['guest-1'] })).toEqual(['Guest 1, Sat 6 Mar 2027, dives 1 to 2']);
    expect(names({ paper: a4, diverIds: ['guest-1'], onePerPage: true })).toHaveLength(2);
  });
});

describe('what cannot be printed', () => {
  it('an unknown diver, a day without dives, a margin too wide: all said together', () => {
    expect(kindsOf(week, { diverIds: ['nobody'], marginMm: 60 })).toEqual(['diver', 'margin']);
    expect(kindsOf(week, { dates: ['2027-03-09'], marginMm: Number.NaN })).toEqual(['date', 'margin']);
    expect(kindsOf(week, { diverIds: ['guest-1'], dates: ['2027-03-07'] })).toEqual(['date']);
    expect(kindsOf(week, { diverIds: [] })).toEqual(['nothing']);
    expect(kindsOf(aTrip([]), {})).toEqual(['nothing']);
  });

  it('a page too small for type that can be read', () => {
    expect(kindsOf(week, { paper: aPaper('40x60mm') })).toEqual(['paper']);
    expect(kindsOf(week, { paper: aPaper('25x200mm') })).toEqual(['paper']);
    expect(kindsOf(week, { kind: 'trip', paper: aPaper('60x60mm') })).toEqual(['paper']);
    expect(kindsOf(week, { kind: 'tags', paper: aPaper('A4'), label: aPaper('30x20mm') })).toEqual(['label']);
    expect(kindsOf(week, { sheet: aPaper('60x60mm') })).toEqual(['sheet']);
  });

  it.each(['wet', 'trip', 'tags'] as const)(
    'a margin too wide for what has to stand on a page of kind %s, with the widest that fits',
    (kind) => {
      const asked = (marginMm: number) => slatePages(aRequest(week, { kind, marginMm }));
      for (const marginMm of [25, 40]) {
        const laid = asked(marginMm);
        assert(!laid.ok, 'printed');
        expect(laid.troubles.map(({ where }) => where)).toEqual(['margin']);
        const atMostMm = Number(/at most (\d+) mm/.exec(laid.troubles[0].mend)![1]);
        expect(asked(atMostMm).ok).toBe(true);
        expect(asked(atMostMm + 1).ok).toBe(false);
      }
    },
  );

  it('a margin below nothing, without a word of the paper', () => {
    const laid = slatePages(aRequest(week, { marginMm: -3 }));
    assert(!laid.ok, 'printed');
    expect(laid.troubles).toMatchObject([{ where: 'margin', what: 'A margin cannot be -3 mm wide.' }]);
  });

  it('a paper too small with the usual margin is at fault itself, and a narrower margin a way out', () => {
    const mendOf = (paper: string): string => {
      const laid = slatePages(aRequest(week, { paper: aPaper(paper) }));
      assert(!laid.ok, 'printed');
      expect(laid.troubles.map(({ where }) => where)).toEqual(['paper']);
      return laid.troubles[0].mend;
    };
    expect(mendOf('40x60mm')).toContain('each of the named papers takes it with margins of 6 mm');
    expect(mendOf('68x110mm')).toMatch(/or (no margin|a margin of at most [1-5] mm)\./);
  });

  it('a trip sheet of dives on which no mix may go, though there are dives', () => {
    const laid = slatePages(aRequest(aTrip([aDive({ depthM: 95, mix: 'auto' })]), { kind: 'trip' }));
    assert(!laid.ok, 'printed');
    expect(laid.troubles).toMatchObject([
      { kind: 'nothing', what: 'There is nothing to print: no mix may go on any dive of those chosen.' },
    ]);
  });
});

describe('wet-notes slate', () => {
  it('says loudly what must not be dived as planned', () => {
    const trip = aTrip([aDive({ depthM: 39, bottomMin: 20, mix: 'rich' })]);
    const words = wordsOf(layoutOf(trip, { paper: aPaper('A5') }).pages[0]!);
    expect(words).toMatch(/^Stop: /m);
    expect(words).toContain('past the MOD of 28 m');
  });

  it('goes on with a page of the same name where a dive does not fit on one', () => {
    const trip = aTrip([aDive({ depthM: 36, bottomMin: 25 })]);
    expect(layoutOf(trip).pages.map((page) => page.name)).toEqual([
      'Guest 1, Sat 6 Mar 2027, dive 1',
      'Guest 1, Sat 6 Mar 2027, dive 1, continued',
    ]);
  });

  it('says on every page of a dive torn over several which dive it is', () => {
    // Past MOD, own depth and no-stop limit: the cautions alone are more than a page takes beside the rest.
    const trip = aTrip([aDive({ depthM: 44, bottomMin: 30, mix: 'lean' })]);
    const pages = layoutOf(trip, { holes: 'left', units: 'both' }).pages.map(wordsOf);
    expect(pages.length).toBeGreaterThan(2);
    for (const [i, page] of pages.entries()) {
      expect(page).toContain('1 Wall');
      expect(page.includes('continued')).toBe(i > 0);
    }
  });

  it('sets depth, time, no-stop time and room large also where four in a row find no room', () => {
    const trip = aTrip([aDive({ id: 'x', startsAt: '2027-03-06T08:00', depthM: 12.5, bottomMin: 35 })]);
    for (const holes of ['none', 'left', 'top'] as const) {
      const [page] = layoutOf(trip, { paper: aPaper('A6'), holes, units: 'both' }).pages;
      const labels = ['Depth', 'Time', 'No-stop', 'Room'];
      const texts = textsOf(page!);
      for (const label of labels) {
        const at = texts.findIndex(({ text }) => text.startsWith(label));
        expect(texts[at + 1]!.text).toMatch(/^\d+(\.\d)? (m|min)$/);
        expect(texts[at + 1]!.sizePt).toBeGreaterThanOrEqual(texts[at]!.sizePt * 1.25);
      }
    }
  });

  it('prints required stops in place of the safety stop', () => {
    const trip = aTrip([aDive({ depthM: 36, bottomMin: 25 })]);
    const words = wordsOf(layoutOf(trip, { paper: aPaper('A5') }).pages[0]!);
    expect(words).toMatch(/STOPS\n\d+ m \d+ min/);
    expect(words).not.toContain('Safety stop');
  });

  it('says where no mix may be breathed', () => {
    const trip = aTrip([aDive({ depthM: 40, mix: 'auto' })], {
      mixes: [{ id: 'rich', o2: 0.36, costPerFill: 0 }],
    });
    const words = wordsOf(layoutOf(trip).pages[0]!);
    expect(words).toContain('not to be dived');
    expect(words).not.toContain('No-stop');
  });

  it('gives the hour before which not to fly on the last day only', () => {
    const pages = layoutOf(week, { diverIds: ['guest-2'], onePerPage: true }).pages.map(wordsOf);
    expect(pages.map((words) => words.includes('No flying before'))).toEqual([false, false, true]);
  });
});

describe('cylinder tags', () => {
  const paper = aPaper('A4');

  it('leave the share blank until it is analysed, and say for what the depths hold', () => {
    const words = wordsOf(
      layoutOf(week, { kind: 'tags', paper, diverIds: ['guest-1'], dates: ['2027-03-06'] }).pages[0]!,
    );
    expect(words).toContain('Holds for 36 % or less:');
    expect(words).toContain('MOD 28 m / 94 ft at 1.4');
    expect(words).toContain('MOD 34 m / 112 ft at 1.6');
    expect(words).not.toContain('O2 36 %');
  });

  it('print the share as analysed, and its depths', () => {
    const trip = {
      ...week,
      mixes: week.mixes.map((mix) => (mix.id === 'rich' ? { ...mix, analysedO2: 0.374 } : mix)),
    };
    const words = wordsOf(layoutOf(trip, { kind: 'tags', paper }).pages[0]!);
    expect(words).toContain('O2 37.4 %');
    expect(words).toContain('MOD 27 m / 89 ft at 1.4');
    expect(words).not.toContain('Holds for 36 %');
  });

  it.each(LABEL_SIZES)('take all that has to stand on them at %s, on the stock there is for it', (label) => {
    const stock = aPaper(label.endsWith('in') ? 'letter' : 'A4');
    const [page] = layoutOf(week, { kind: 'tags', paper: stock, label: aPaper(label) }).pages;
    expect(wordsOf(page!).match(/Initials/g)).toHaveLength(5);
    // Label stock is cut already: no lines to cut along.
    expect(page!.marks.some((mark) => mark.kind === 'line' && mark.dashPt)).toBe(false);
    expect(faultsOf(page!, 2 * PT_PER_MM)).toEqual([]);
  });

  it('give the cautions the bottom two rows where one row of a small paper does not take them', () => {
    const [page] = layoutOf(week, { kind: 'tags', paper: aPaper('A6') }).pages;
    expect(wordsOf(page!).match(/Initials/g)).toHaveLength(2);
    expect(wordsOf(page!).replaceAll('\n', ' ')).toContain(fileWords(SAFETY_LINE));
    expect(faultsOf(page!, 2 * PT_PER_MM)).toEqual([]);
  });

  it('end with a log to sign', () => {
    const pages = layoutOf(week, { kind: 'tags', paper }).pages;
    expect(pages.at(-1)!.name).toBe('Cylinder analysis log');
    expect(wordsOf(pages.at(-1)!)).toContain('32 %: 33 m / 110 ft');
  });

  describe('have a table of depths in their log', () => {
    const [alone, another] = [aDiver(), aDiver({ id: 'guest-2', maxO2: 0.505 })];
    const sharesOn = (name: string, change: Partial<Trip>, asked: Partial<SlateRequest> = {}) => {
      const trip = aTrip([aDive({ id: 'x' })], change);
      const log = layoutOf(trip, { kind: 'tags', paper: aPaper(name), ...asked }).pages.at(-1)!;
      expect(faultsOf(log, 6 * PT_PER_MM)).toEqual([]);
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
      expect(percents.slice(0, 3)).toEqual([21, 25, 30]);
      expect(percents.at(-1)).toBe(100);
      // Gauge water: 10 m to the bar under 1.01325 bar of air.
      for (const [percent, m] of shares) expect(m).toBe(Math.floor((140 / percent - 1.01325) * 10));
      expect(sharesOn('A6', {})).toHaveLength(20);
    });
  });
});

describe('readSlateOptions', () => {
  it('fills in the usual, paper by kind', () => {
    const read = readSlateOptions({});
    assert(read.ok, 'refused');
    expect(read.value).toMatchObject({
      kind: 'wet',
      paper: aPaper('A6'),
      holes: 'none',
      marginMm: 6,
      units: 'metric',
    });
    expect(usualPaper('briefing')).toBe('A4');
  });

  it('says everything that is wrong at once', () => {
    const read = readSlateOptions({
      kind: 'wall',
      paper: 'A9',
      units: 'fathoms',
      holes: 'middle',
      margin: 'wide',
      sheet: 'x',
    });
    assert(!read.ok, 'taken');
    expect(read.troubles.map((trouble) => trouble.where)).toEqual([
      '--kind',
      '--paper',
      '--sheet',
      '--margin',
      '--units',
      '--holes',
    ]);
  });

  it.each(['', ' ', '6 mm', '0x10', 'Infinity', 'NaN', '1e999'])(
    'takes a margin of "%s" for no number',
    (margin) => {
      const read = readSlateOptions({ margin });
      assert(!read.ok, 'taken');
      expect(read.troubles).toMatchObject([{ where: '--margin' }]);
    },
  );

  it.each([
    ['6', 6],
    [' 4.5 ', 4.5],
    ['0', 0],
    ['-3', -3],
    ['1e-7', 1e-7],
  ])('takes a margin of "%s" as it is', (margin, mm) => {
    const read = readSlateOptions({ margin });
    expect(read.ok && read.value.marginMm).toBe(mm);
  });

  it.each([
    ['briefing', { onePerPage: true }, '--one-per-page', '--kind wet'],
    ['trip', { onePerPage: true }, '--one-per-page', '--kind wet'],
    ['tags', { onePerPage: true }, '--one-per-page', '--kind wet'],
    ['wet', { label: '70x37mm' }, '--label', '--kind tags'],
    ['trip', { label: '4x2in' }, '--label', '--kind tags'],
    ['Briefing', { label: '4x2in' }, '--label', '--kind tags'],
  ])('refuses with kind %s what it would pass over: %j', (kind, options, where, other) => {
    const read = readSlateOptions({ kind, ...options });
    assert(!read.ok, 'taken');
    expect(read.troubles.map((trouble) => trouble.where)).toEqual([where]);
    expect(read.troubles[0].what).toContain(kind.toLowerCase());
    expect(read.troubles[0].mend).toContain(other);
  });

  it('takes each of them with its own kind, and says of an unknown kind no more than that', () => {
    expect(readSlateOptions({ onePerPage: true }).ok).toBe(true);
    expect(readSlateOptions({ kind: 'tags', label: '4x2in' }).ok).toBe(true);
    const read = readSlateOptions({ kind: 'wall', label: '4x2in', onePerPage: true });
    expect(read.ok ? [] : read.troubles.map((trouble) => trouble.where)).toEqual(['--kind']);
  });
});
