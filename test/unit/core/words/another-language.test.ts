import { describe, expect, it } from 'vitest';
import { cautionsOf } from '../../../../core/cautions/all';
import type { Trip } from '../../../../core/document/types';
import { ledger } from '../../../../core/ledger/ledger';
import { compareMixes, compareSites } from '../../../../core/mixes/compare';
import { pageReader, wordsOf, type Language } from '../../../../core/words/reader';
import { mendings } from '../../../../core/proposal/mend/proposals';
import { USUAL_REQUEST } from '../../../../core/proposal/mend/request';
import { mendTable } from '../../../../electron/terminal/mend-table';
import { mixesTable } from '../../../../electron/terminal/mixes-table';
import { planTable } from '../../../../electron/terminal/plan-table';
import { assert } from '../../../../core/result';
import { slatePages } from '../../../../core/slate/pages';
import { SLATE_KINDS, type SlateRequest } from '../../../../core/slate/request';
import { aDive, aDiver, aTrip } from '../../../builders/trip';
import { aPaper, aRequest, layoutOf, wordsOf as wordsOfPage } from '../../../support/slates';

/** A language nobody speaks, in letters that English has none of. */
const greek: Language = (text) =>
  text.replaceAll(/\{\d+\}|[A-Za-z]/g, (sign) =>
    sign.startsWith('{') ? sign : String.fromCodePoint(0x3b1 + (((sign.codePointAt(0)! | 32) - 97) % 25)),
  );

/** What stands in every language: units, and names and titles of the trip. */
const SIGNS = ['m', 'ft', 'bar', 'psi', 'min', 'L', 'cu', 'g', 'h'];

function english(text: string, trip: Trip): readonly string[] {
  const names = [
    trip.title,
    trip.place,
    ...trip.sites.map(({ name }) => name),
    ...trip.party.map(({ name }) => name),
  ];
  const own = new Set([...SIGNS, ...names.flatMap((name) => name.split(/\W+/))]);
  return (text.match(/[A-Za-z]+/g) ?? []).filter((word) => !own.has(word));
}

/** What a trouble names as it was asked for: ids, papers, sizes. */
const IDS = new Set(['nobody', 'guest', 'A', 'x', 'mm']);

/** The other forms of a card. */
const SMALL = [
  ['card', 'short'],
  ['card', 'dive'],
] as const;

/** A dive of two levels past its limits, on several mixes, with little gas: what raises most cautions. */
const trip = aTrip(
  [
    aDive({ depthM: 45, bottomMin: 40, mix: 'rich' }),
    aDive({ id: 'second', startsAt: '2027-03-06T10:40', depthM: 36, bottomMin: 60 }),
  ],
  { party: [aDiver({ maxDepthM: 20 })], flight: { at: '2027-03-06T20:00' } },
);

describe('another language', () => {
  const reader = pageReader('both', greek);

  it('is a reader: no English is left in a caution, nor in its source', () => {
    const cautions = cautionsOf(ledger(trip));
    expect(cautions.length).toBeGreaterThan(8);
    for (const { says, source } of cautions) {
      for (const sentence of [says, source]) {
        const text = wordsOf(reader)(sentence);
        expect(text).toMatch(/[α-ω]/);
        expect(english(text, trip)).toEqual([]);
      }
    }
  });

  it('leaves none in the tables of the commands', () => {
    const whole = ledger(trip);
    const plan = planTable(whole, cautionsOf(whole), reader);
    expect(english(plan, trip)).toEqual([]);
    const rows = compareSites(whole, compareMixes(trip, []), null);
    const told = { trip, whose: 'Guest', rows, fills: null, answer: null, stocked: null, backBar: 50 };
    expect(english(mixesTable(told, reader), trip).filter((word) => word !== 'Guest')).toEqual([]);
  });

  it('leaves none in what mending proposes, nor in why it does not', () => {
    const late = aTrip(
      [
        aDive({ startsAt: '2027-03-06T23:00', depthM: 9, bottomMin: 12 }),
        aDive({ startsAt: '2027-03-06T23:30', depthM: 9, bottomMin: 12 }),
      ],
      { party: [aDiver(), aDiver({ id: 'guest-2', name: 'Guest 2' })], flight: { at: '2027-03-07T18:00' } },
    );
    const mending = mendings(late, USUAL_REQUEST);
    expect([mending.proposals.length, mending.none.length]).toEqual([3, 1]);
    expect(english(mendTable(late, mending, 1, reader), late)).toEqual([]);
  });

  /** Words of the pages, their names in the outline, the count and the title of the document. */
  function pagesOf(told: Trip, asked: Partial<SlateRequest>): string {
    const { pages, count, title } = layoutOf(told, asked);
    const named = pages.map(({ name }) => name).join('\n');
    // The mark of the plan is a number.
    return [...pages.map(wordsOfPage), named, title, wordsOf(reader)(count)]
      .join('\n')
      .replaceAll(/[-\s][0-9a-f]{4}\b/g, '');
  }

  it('leaves none on a card, a trip sheet, tags and their log, a depth card, a briefing, a guest sheet', () => {
    const told = { ...trip, emergency: { radio: '16' } };
    const since = { trip: { ...told, dives: trip.dives.slice(1) }, at: '2027-03-05T18:00' };
    for (const [kind, card] of [...SLATE_KINDS.map((each) => [each, 'full'] as const), ...SMALL]) {
      for (const paper of ['A4', 'A6']) {
        const asked = { kind, card, paper: aPaper(paper), since, clock: '12h', units: 'both' } as const;
        const text = (language?: Language): string => pagesOf(told, { ...asked, language });
        expect(text(greek)).toMatch(/[α-ω]/);
        expect(english(text(greek), told), `${kind}, ${card}, ${paper}`).toEqual([]);
        expect(english(text(), told).length).toBeGreaterThan(50);
      }
    }
  });

  it('leaves none in why nothing can be printed', () => {
    const asks: readonly Partial<SlateRequest>[] = [
      { diverIds: ['nobody'] },
      { dates: ['2027-03-09'] },
      { diverIds: [] },
      { marginMm: -1 },
      { marginMm: 60 },
      { kind: 'trip', paper: aPaper('30x30mm') },
      { kind: 'tags', label: aPaper('30x30mm') },
      { sheet: aPaper('30x30mm') },
    ];
    for (const asked of asks) {
      const laid = slatePages(aRequest(trip, { language: greek, ...asked }));
      assert(!laid.ok, 'something was printed');
      for (const { what, mend } of laid.troubles) {
        expect(what).toMatch(/[α-ω]/);
        expect(english(`${what} ${mend}`, trip).filter((word) => !IDS.has(word))).toEqual([]);
      }
    }
  });

  it('would be found out: in English the same tables have many words', () => {
    const whole = ledger(trip);
    expect(english(planTable(whole, cautionsOf(whole), pageReader('both')), trip).length).toBeGreaterThan(
      100,
    );
  });
});
