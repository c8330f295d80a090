import { describe, expect, it } from 'vitest';
import { assert } from '../../../../core/result';
import { fileWords } from '../../../../core/words/reader';
import { readSlateOptions, usualPaper } from '../../../../core/slate/options';
import { PT_PER_MM } from '../../../../core/slate/paper';
import { slatePages } from '../../../../core/slate/pages';
import { ledger } from '../../../../core/ledger/ledger';
import type { SlateRequest } from '../../../../core/slate/request';
import type { Trip } from '../../../../core/document/types';
import { demoTrip } from '../../../../core/document/demo-trip';
import { aDive, aDiver, aTrip } from '../../../builders/trip';
import { aPaper, aRequest, layoutOf, textsOf, wordsOf } from '../../../support/slates';

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
  it('prints the whole party, day by day and diver by diver', () => {
    expect(names({ isFolded: false })).toEqual([
      'Guest 1, Sat 6 March, dives 1, 2',
      'Guest 2, Sat 6 March, dives 1, 2',
      'Guest 2, Sun 7 March, dive 1',
    ]);
  });

  it('prints the divers and days chosen', () => {
    expect(names({ diverIds: ['guest-2'], dates: ['2027-03-07'], isFolded: false })).toEqual([
      'Guest 2, Sun 7 March, dive 1',
    ]);
  });

  it('prints the next diving day where none is named, and of the trip sheet all', () => {
    const of = (change: Partial<SlateRequest>) =>
      names({ dates: null, isFolded: false, diverIds: ['guest-2'], ...change });
    expect(of({})).toEqual(['Guest 2, Sat 6 March, dives 1, 2']);
    expect(of({ doneDates: ['2027-03-06'] })).toEqual(['Guest 2, Sun 7 March, dive 1']);
    expect(of({ printedOn: '2027-03-07' })).toEqual(['Guest 2, Sun 7 March, dive 1']);
    // All lies behind: the first day of which nobody has said that it is over.
    expect(of({ printedOn: '2027-03-09' })).toEqual(['Guest 2, Sat 6 March, dives 1, 2']);
    expect(of({ printedOn: '2027-03-09', doneDates: ['2027-03-06', '2027-03-07'] })).toEqual([
      'Guest 2, Sun 7 March, dive 1',
    ]);
    const trip = layoutOf(week, { kind: 'trip', paper: aPaper('A4'), dates: null, diverIds: ['guest-2'] });
    expect(wordsOf(trip.pages[0]!).match(/Wall/g)).toHaveLength(3);
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
    expect(textsOf(pages[0]!)[0]!.text).toBe('Diver 1, \u25ca\u25ca, Diver 2, \u25ca\u25ca, Ώρα');
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

  it.each(['card', 'trip', 'tags'] as const)(
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
    expect(mendOf('40x60mm')).toContain('each of the named papers takes it with the usual margins');
    expect(mendOf('82x148mm')).toMatch(/or (no margin|a margin of at most [1-4] mm)\./);
  });

  it('a trip sheet of dives on which no mix may go, though there are dives', () => {
    const laid = slatePages(aRequest(aTrip([aDive({ depthM: 95, mix: 'auto' })]), { kind: 'trip' }));
    assert(!laid.ok, 'printed');
    expect(laid.troubles).toMatchObject([
      { kind: 'nothing', what: 'There is nothing to print: no mix can be used on any of the dives chosen.' },
    ]);
  });
});

describe('day card', () => {
  const text = (trip: Trip, change: Partial<SlateRequest> = {}): string =>
    layoutOf(trip, change).pages.map(wordsOf).join('\n').replaceAll('\n', ' ');

  it('says loudly what must not be dived as planned', () => {
    const words = text(aTrip([aDive({ depthM: 39, bottomMin: 20, mix: 'rich' })]));
    expect(words).toMatch(/Past a limit: /);
    expect(words).toContain('past the MOD of 28 m');
  });

  it('goes on with the grid overleaf, under the line of its dive, where a block does not fit on a face', () => {
    const trip = aTrip([aDive({ depthM: 44, bottomMin: 30, mix: 'lean' })]);
    const pages = layoutOf(trip, { holes: 'left', units: 'both', isFolded: false }).pages.map(wordsOf);
    expect(pages.length).toBeGreaterThan(1);
    for (const page of pages) expect(page).toContain('Wall');
    expect(pages[0]).toMatch(/Past a limit: /);
    expect(pages.filter((page) => page.includes('If deeper or longer'))).toHaveLength(1);
  });

  it('has depth, run time, turn, minimum and MOD in one large size', () => {
    const trip = aTrip([aDive({ id: 'x', startsAt: '2027-03-06T08:00', depthM: 12.5, bottomMin: 35 })]);
    for (const holes of ['none', 'left', 'top'] as const) {
      const [page] = layoutOf(trip, { holes, units: 'both' }).pages;
      const large = textsOf(page!).filter(({ sizePt }) => sizePt === 22);
      expect(large.map((mark) => mark.text)).toHaveLength(5);
      expect(large.map((mark) => mark.text).slice(0, 2)).toEqual(['12.5', '35']);
      // What is a depth is slanted, and nothing else is.
      expect(large.map(({ font }) => font)).toEqual(['boldSlant', 'bold', 'bold', 'bold', 'boldSlant']);
    }
  });

  it('names required stops with their minutes, in place of the safety stop', () => {
    const words = text(aTrip([aDive({ depthM: 36, bottomMin: 25 })]));
    expect(words).toMatch(/Required stops:\s+\d+ m\s+\d+ min/);
    expect(words).not.toMatch(/Stop\s+5 m/);
  });

  it('says where no mix may be breathed', () => {
    const trip = aTrip([aDive({ depthM: 40, mix: 'auto' })], {
      mixes: [{ id: 'rich', o2: 0.36, costPerFill: 0 }],
    });
    expect(text(trip)).toContain('not to be dived');
    expect(text(trip)).not.toContain('No-stop limit');
  });

  it('marks less than five minutes of room, and no more', () => {
    const dotted = (bottomMin: number): boolean => {
      const trip = aTrip([aDive({ depthM: 30, bottomMin, mix: 'lean' })]);
      return layoutOf(trip).pages[0]!.marks.some((mark) => mark.kind === 'line' && mark.dashPt?.[1] === 1.8);
    };
    const { noStopMin } = ledger(aTrip([aDive({ depthM: 30, bottomMin: 5, mix: 'lean' })])).divers[0]!
      .entries[0]!;
    expect(dotted(Math.floor(noStopMin!) - 2)).toBe(true);
    expect(dotted(5)).toBe(false);
  });

  it('gives the hour before which not to fly on the last day only', () => {
    const pages = layoutOf(week, { diverIds: ['guest-2'] }).pages.map(wordsOf);
    expect(pages.map((words) => words.includes('no flying before'))).toEqual([false, true]);
  });

  it('leaves a level at a minute that is not later than planned', () => {
    expect(text(aTrip([aDive({ startsAt: '2027-03-06T08:00', bottomMin: 20.9 })]))).toContain('20.9 08:20');
  });
});

describe('readSlateOptions', () => {
  it('fills in the usual, paper by kind', () => {
    const read = readSlateOptions({});
    assert(read.ok, 'refused');
    expect(read.value).toMatchObject({
      kind: 'card',
      paper: aPaper('A6'),
      holes: 'none',
      marginMm: 5,
      isFolded: true,
      dates: null,
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
    ['briefing', { singleFaces: true }, '--single-faces', '--kind card'],
    ['trip', { singleFaces: true }, '--single-faces', '--kind card'],
    ['tags', { singleFaces: true }, '--single-faces', '--kind card'],
    ['card', { label: '70x37mm' }, '--label', '--kind tags'],
    ['guest', { since: 'before.json' }, '--since', '--kind briefing'],
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
    expect(readSlateOptions({ singleFaces: true }).ok).toBe(true);
    expect(readSlateOptions({ kind: 'tags', label: '4x2in' }).ok).toBe(true);
    const read = readSlateOptions({ kind: 'wall', label: '4x2in', singleFaces: true });
    expect(read.ok ? [] : read.troubles.map((trouble) => trouble.where)).toEqual(['--kind']);
  });
});

describe('a dive of more levels than a face takes', () => {
  it('goes on overleaf with its levels, each once and none smaller', () => {
    const legs = Array.from({ length: 14 }, (_, i) => ({ depthM: 30 - 2 * i, min: 5 }));
    const trip = aTrip([aDive({ depthM: 30, bottomMin: 70, legs })]);
    const pages = layoutOf(trip, { isFolded: false, paper: aPaper('4x6in') }).pages;
    const large = pages.flatMap(textsOf).filter(({ font, sizePt }) => font === 'boldSlant' && sizePt === 22);
    for (const { depthM } of legs) {
      expect(large.filter((mark) => mark.text === `${depthM}`).length).toBeGreaterThanOrEqual(1);
    }
    for (const page of pages) expect(wordsOf(page)).toContain('Wall');
  });
});

describe('other forms of the card', () => {
  const demo = demoTrip();
  const dates = ['2027-03-18'];
  const of = (change: Partial<SlateRequest>) => layoutOf(demo, { dates, diverIds: ['guide'], ...change });

  it('short: has the four dives of a day on one face, all at the size of the full card, without grid', () => {
    const { pages } = of({ card: 'short' });
    expect(pages).toHaveLength(1);
    const large = textsOf(pages[0]!).filter(({ sizePt }) => sizePt === 22);
    // Depth and run time of seven levels; turn, minimum and MOD of four dives.
    expect(large).toHaveLength(2 * 7 + 3 * 4);
    const words = wordsOf(pages[0]!).replaceAll('\n', ' ');
    expect(words).not.toContain('If deeper or longer');
    expect(words).toMatch(/No-stop\s+34 m\s+9 of\s+16\s+Room to gas\s+8\s+Stop\s+5 m\s+3 min, up 40\s+08:25/);
    expect(words).toMatch(/no-stop here\s+16 of\s+48/);
    expect(words).toMatch(/No-stop limit\s+44 of\s+81/);
    expect(words).toContain('do not prevent');
  });

  it('one dive a page: has its figures about twice as large, and each stop of a passed limit', () => {
    const { pages } = of({ card: 'dive' });
    expect(pages.map(({ name }) => name)).toEqual(
      [1, 2, 3, 4].map((number) => `Guide, Thu 18 March, dive ${number}`),
    );
    const sizes = (page: (typeof pages)[number]) => new Set(textsOf(page).map(({ sizePt }) => sizePt));
    expect(sizes(pages[2]!)).toContain(54);
    expect(sizes(pages[0]!)).toContain(36);
    for (const page of pages) {
      expect(sizes(page)).toContain(40);
      expect(wordsOf(page).replaceAll('\n', ' ')).toContain('If deeper or longer');
    }
  });

  it('are counted, and are not folded', () => {
    expect(fileWords(of({ card: 'short' }).count)).toBe('1 card: 1 page');
    expect(fileWords(of({ card: 'dive' }).count)).toBe('1 card: 4 pages');
    expect(of({ card: 'dive' }).pages[0]!.widthPt).toBeCloseTo(105 * PT_PER_MM, 1);
  });

  it('are refused with another kind, and by another name', () => {
    const where = (options: Parameters<typeof readSlateOptions>[0]) => {
      const read = readSlateOptions(options);
      return read.ok ? [] : read.troubles.map((trouble) => trouble.where);
    };
    expect(where({ kind: 'briefing', card: 'short' })).toEqual(['--card']);
    expect(where({ card: 'long' })).toEqual(['--card']);
    expect(where({ card: 'dive' })).toEqual([]);
  });
});
