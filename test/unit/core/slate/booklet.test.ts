import { describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { usualPaper } from '../../../../core/slate/options';
import { PAPERS, PT_PER_MM } from '../../../../core/slate/paper';
import { SLATE_KINDS, type SlateKind, type SlateRequest } from '../../../../core/slate/request';
import { SAFETY_LINE } from '../../../../core/words/safety-line';
import { fileWords } from '../../../../core/words/reader';
import { aDive, aDiver, aTrip } from '../../../builders/trip';
import { aPaper, faultsOf, layoutOf, textsOf, wordsOf } from '../../../support/slates';

const demo = demoTrip();

type Sheet = ReturnType<typeof layoutOf>['pages'][number];

/** The size of a figure, by its text. */
function sizesPt(pages: readonly Sheet[], text: RegExp): readonly number[] {
  const sizes = pages.flatMap((page) =>
    textsOf(page).flatMap((mark) => (text.test(mark.text) && mark.sizePt > 16 ? [mark.sizePt] : [])),
  );
  return [...new Set(sizes.map((size) => Math.round(size * 10) / 10))];
}

describe('a booklet of day cards', () => {
  it('of the whole demo takes 24 pages to fold, and of one day four', () => {
    const whole = layoutOf(demo);
    expect(whole.pages).toHaveLength(24);
    expect(fileWords(whole.count)).toBe('24 cards, to fold: 24 pages');
    const day = layoutOf(demo, { dates: ['2027-03-17'] });
    expect(day.pages).toHaveLength(4);
    expect(fileWords(day.count)).toBe('4 cards, to fold: 4 pages');
    // A5, lying.
    expect(day.pages[0]!.widthPt).toBeCloseTo(210 * PT_PER_MM, 1);
    expect(day.pages[0]!.heightPt).toBeCloseTo(148 * PT_PER_MM, 1);
  });

  it('is set in one size on every face, larger on larger paper and never smaller than on A6', () => {
    const size = (paper: string) =>
      sizesPt(layoutOf(demo, { paper: aPaper(paper) }).pages, /^(144|139|133)$/);
    expect(size('A6')).toEqual([22]);
    expect(size('4x6in')).toEqual([22]);
    expect(size('A4')).toEqual([22]);
    expect(size('A5')).toEqual([30.8]);
    expect(size('half-letter')).toEqual([28.6]);
    expect(size('letter')).toEqual([28.6]);
  });

  it('has figures of at least 11 points, captions of 9, and one line of caution of 7', () => {
    for (const page of layoutOf(demo).pages) {
      const small = textsOf(page).filter(({ sizePt }) => sizePt < 9);
      expect(new Set(small.map(({ sizePt }) => sizePt))).toEqual(new Set([7]));
      for (const { text } of small) expect(text).toMatch(/[a-z]{3}/);
    }
  });

  it('counts cards and sheets where several are cut from one', () => {
    const count = (change: Parameters<typeof layoutOf>[1]) =>
      fileWords(layoutOf(demo, { dates: ['2027-03-17'], ...change }).count);
    expect(count({ sheet: aPaper('A4') })).toBe('4 cards: 2 sheets of A4');
    expect(count({ paper: aPaper('A4') })).toBe('4 cards: 2 sheets of A4');
    expect(count({ paper: aPaper('letter') })).toBe('4 cards: 4 sheets of letter');
    expect(count({ isFolded: false })).toBe('4 cards: 8 pages');
    const onA4 = (kind: SlateKind, change: Partial<SlateRequest> = {}) =>
      count({ kind, paper: aPaper('A4'), ...change });
    expect(onA4('tags')).toBe('16 tags and their log: 3 pages');
    expect(onA4('trip')).toBe('4 divers: 4 pages');
    expect(onA4('trip', { diverIds: ['guide'] })).toBe('1 diver: 1 page');
    expect(onA4('guest', { dates: 'all' })).toBe('4 guests: 4 pages');
    expect(onA4('briefing', { dates: 'all' })).toMatch(/^6 days: \d+ pages$/);
    expect(count({ kind: 'depth', paper: aPaper('A6') })).toBe('3 cards: 3 pages');
    const a5 = { paper: aPaper('A5'), sheet: aPaper('A4') };
    expect(onA4('guest', { ...a5, dates: 'all' })).toBe('4 guests: 2 sheets of A4');
    expect(onA4('guest', { ...a5, dates: 'all', twoSided: true })).toBe(
      '4 guests: 1 sheet of A4, printed on both sides',
    );
    expect(count({ isFolded: false, sheet: aPaper('A4'), twoSided: true })).toBe(
      '4 cards: 1 sheet of A4, printed on both sides',
    );
  });

  it('says what to do on the front and what no model prevents on the back, and the whole once', () => {
    const [first, ...others] = layoutOf(demo).pages.map((page) => wordsOf(page).replaceAll('\n', ' '));
    const whole = fileWords(SAFETY_LINE);
    const all = [first!, ...others].filter((text) => text.includes(whole));
    expect(all).toHaveLength(1);
    for (const text of [first!, ...others]) {
      expect(text.includes('Stay within your training.') || text.includes(whole)).toBe(true);
      expect(text).toMatch(/do not prevent|No model or table prevents decompression sickness/);
    }
    const single = layoutOf(aTrip([aDive()]), { isFolded: false }).pages.map(wordsOf);
    expect(single).toHaveLength(1);
    expect(single[0]!.replaceAll('\n', ' ')).toContain(whole);
  });

  it('has on a single face both lines of caution', () => {
    const trip = aTrip([
      aDive({ id: 'a', startsAt: '2027-03-06T08:00' }),
      aDive({ id: 'b', startsAt: '2027-03-07T08:00' }),
    ]);
    const second = wordsOf(layoutOf(trip, { isFolded: false }).pages[1]!);
    expect(second).toContain('Stay within your training.');
    expect(second).toContain('No model or table prevents');
  });
});

describe('divers whose card is the same word for word', () => {
  const party = [
    aDiver({ id: 'a', name: 'Ann' }),
    aDiver({ id: 'b', name: 'Bob' }),
    aDiver({ id: 'c', name: 'Cid', surfaceRateLpm: 25 }),
  ];
  const trip = aTrip([aDive({ id: 'x', startsAt: '2027-03-06T08:00' })], { party });

  it('share one with all their names', () => {
    const { pages, count } = layoutOf(trip);
    expect(pages.map(({ name }) => name)).toEqual([
      'Ann, Bob, Sat 6 March, dive 1; Ann, Bob, Sat 6 March',
      'Cid, Sat 6 March, dive 1; Cid, Sat 6 March',
    ]);
    expect(fileWords(count)).toBe('2 cards, to fold: 2 pages');
  });

  it('have their names in full on as many lines as they need, in one size', () => {
    const names = ['Ilka Brandvoort-Castellane', 'Maximiliana Overstrand-Quillfeather', 'Odo Pellam'];
    const many = aTrip([aDive()], { party: names.map((name, i) => aDiver({ id: `g${i}`, name })) });
    const [page] = layoutOf(many).pages;
    expect(faultsOf(page!, 4 * PT_PER_MM)).toEqual([]);
    const heads = textsOf(page!).filter(({ font, sizePt }) => font === 'name' && sizePt === 12.5);
    const text = heads.map((mark) => mark.text).join(' ');
    for (const name of names) expect(text).toContain(name);
    expect(text).not.toContain('\u2026');
  });
});

describe('the clock of whoever holds a page', () => {
  it.each(SLATE_KINDS)('is kept throughout: %s', (kind) => {
    const paper = aPaper(usualPaper(kind));
    const texts = layoutOf(demo, { kind, paper, clock: '12h' }).pages.map(wordsOf).join(' ');
    if (kind !== 'tags' && kind !== 'depth') expect(texts).toMatch(/\b9:30 am\b/);
    expect(texts).not.toMatch(/\b(?:0\d|1[3-9]|2[0-3]):\d\d\b/);
  });

  it('and the decimal sign are those of the window', () => {
    const trip = aTrip([aDive({ depthM: 10.5, bottomMin: 30.5 })]);
    const words = wordsOf(layoutOf(trip, { decimal: ',' }).pages[0]!);
    expect(words).toContain('10,5');
    expect(words).toContain('30,5');
    expect(words).not.toMatch(/\d\.\d/);
  });

  it('has every paper in a size that is held', () => {
    for (const paper of PAPERS)
      expect(layoutOf(demo, { paper, dates: ['2027-03-18'] }).pages.length).toBeGreaterThan(0);
  });
});
