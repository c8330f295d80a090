import { describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { SLATE_KINDS } from '../../../../core/slate/request';
import { aPaper, layoutOf, textsOf, wordsOf } from '../../../support/slates';

const demo = demoTrip();
/** Dives of the whole party, each diver's own. */
function divesOf({ dives, party }: typeof demo): number {
  return dives.reduce((sum, dive) => sum + (dive.divers ?? party).length, 0);
}

/** The sizes that dives of a page are set in, by a word that each has. */
function sizesPt(page: ReturnType<typeof layoutOf>['pages'][number]): readonly number[] {
  return textsOf(page).flatMap(({ sizePt, text }) => (text === 'Turn' ? [sizePt] : []));
}

describe('a booklet of wet-notes slates', () => {
  it.each(['A6', 'A5', 'A4', 'letter', 'half-letter'])('is set in one size of type on %s', (paper) => {
    const { pages } = layoutOf(demo, { paper: aPaper(paper) });
    expect(new Set(pages.flatMap(sizesPt)).size).toBe(1);
  });

  it('has larger type on A6 too where it is asked for, the table of a dive then on its back', () => {
    const usual = layoutOf(demo).pages;
    const larger = layoutOf(demo, { onePerPage: true }).pages;
    expect(sizesPt(larger[0]!)[0]).toBeGreaterThan(sizesPt(usual[0]!)[0]!);
    expect(larger.length).toBeLessThanOrEqual(2 * divesOf(demo));
    expect(larger.some((page) => wordsOf(page).includes('continued'))).toBe(true);
  });

  it('keeps a dive of one level in one piece on A6 where metres and feet are both asked for', () => {
    const square = { ...demo, dives: demo.dives.filter(({ legs }) => legs === undefined) };
    const { pages } = layoutOf(square, { units: 'both' });
    expect(pages.filter((page) => wordsOf(page).includes('continued')).map(({ name }) => name)).toEqual([]);
    expect(pages).toHaveLength(divesOf(square));
  });
});

describe('the clock of whoever holds a page', () => {
  it.each(SLATE_KINDS)('is kept throughout: %s', (kind) => {
    const paper = aPaper(kind === 'wet' ? 'A6' : 'A4');
    const texts = layoutOf(demo, { kind, paper, clock: '12h' }).pages.map(wordsOf).join(' ');
    if (kind !== 'tags') expect(texts).toMatch(/\b9:30 am\b/);
    expect(texts).not.toMatch(/\b(?:0\d|1[3-9]|2[0-3]):\d\d\b/);
  });
});
