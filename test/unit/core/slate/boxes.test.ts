import { describe, expect, it } from 'vitest';
import { assert } from '../../../../core/result';
import { PAPERS, PT_PER_MM } from '../../../../core/slate/paper';
import { FOOT_PT } from '../../../../core/slate/page-frame';
import { SAFETY_LINE } from '../../../../core/words/safety-line';
import { fileWords } from '../../../../core/words/reader';
import { SLATE_KINDS, type SlateKind } from '../../../../core/slate/request';
import { usualMarginMm } from '../../../../core/slate/options';
import { slatePages } from '../../../../core/slate/pages';
import { planMark } from '../../../../core/slate/plan-mark';
import { EMERGENCY_KEYS } from '../../../../core/document/emergency';
import { demoTrip } from '../../../../core/document/demo-trip';
import { ledger } from '../../../../core/ledger/ledger';
import type { Trip } from '../../../../core/document/types';
import { bigTrip } from '../../../bench/big-trip';
import { aDive, aTrip, RICH } from '../../../builders/trip';
import { aPaper, aRequest, faultsOf, layoutOf, textsOf, wordsOf } from '../../../support/slates';

const MARGIN_MM = 5;

/** As long as a name may be: words of wide letters, and one word without a place to break. */
const LONG_WORDS = 'Wunderwasserwand am Mövenmeerbusen WWWWWW below the outermost lighthouse of Wiwa';
const LONG_WORD = 'W'.repeat(80);

/** Divers, two where not said, with every name as long as it may be and figures as large as they get. */
function longest(name: string, divers = 2): Trip {
  const trip = bigTrip(28, divers);
  return {
    ...trip,
    title: name.repeat(2).slice(0, 120),
    place: name,
    party: trip.party.map((diver, i) => ({
      ...diver,
      name: `${i}${name.slice(1)}`,
      group: { name: name.slice(0, 60), afterMin: 5 * i },
      cylinderNo: name.slice(0, 20),
      certification: name,
      // A large cylinder at high pressure: the longest pressures. Steep and flat gradients: the longest stops.
      cylinder: { waterL: 30, fillBar: 300, reserveBar: 100 },
      gradient: i % 2 === 0 ? { low: 0.2, high: 0.4 } : { low: 0.9, high: 0.95 },
    })),
    sites: trip.sites.map((site) => ({ ...site, name, briefing: name.repeat(5), planB: name.repeat(3) })),
    emergency: Object.fromEntries(EMERGENCY_KEYS.map((key) => [key, name.repeat(2).slice(0, 120)])),
    mixes: trip.mixes.map((mix) => ({ ...mix, analysedO2: mix.o2 - 0.0033 })),
  };
}

/** A trip on whose first and last day the one dive finds no mix that may be breathed there. */
function idleEnds(): Trip {
  const dives = [40, 20, 45].map((depthM, i) =>
    aDive({ id: `x${i}`, startsAt: `2027-03-0${6 + i}T08:00`, depthM, mix: 'auto' }),
  );
  return aTrip(dives, { mixes: [RICH] });
}

/** The demo for a party of so many, its divers over and over. */
function demoFor(count: number): Trip {
  const demo = demoTrip();
  const party = Array.from({ length: count }, (_, i) => {
    const diver = demo.party[i % demo.party.length]!;
    return i < demo.party.length ? diver : { ...diver, id: `also${i}`, name: `${diver.name}, ${i}` };
  });
  return { ...demo, party };
}

const twoDivers = (trip: Trip): Trip => ({ ...trip, party: trip.party.slice(0, 2) });

/** Ways to print: each unit, each punched side, each arrangement at least once. */
const WAYS = [
  { units: 'metric', holes: 'left', twoSided: true, isFolded: false },
  { units: 'imperial', holes: 'top', twoSided: false, isFolded: true },
  { units: 'both', holes: 'none', twoSided: false, isFolded: true },
] as const;

/** Of cards also the other forms, the clock with a half of the day behind each time. */
const CARD_WAYS = [
  { card: 'short', units: 'metric', clock: '24h' },
  { card: 'short', units: 'imperial', clock: '12h', holes: 'left' },
  { card: 'short', units: 'both', clock: '12h' },
  { card: 'dive', units: 'metric', clock: '24h', holes: 'left' },
  { card: 'dive', units: 'imperial', clock: '12h' },
  { card: 'dive', units: 'both', clock: '24h' },
] as const;

/** What is set on faces: cards. */
const ON_FACES: readonly SlateKind[] = ['card', 'depth'];

/** Labels have no margins but an inset of their own; the foot of a card stands a millimetre lower. */
function marginPt(kind: SlateKind): number {
  return (kind === 'tags' ? 2 : ON_FACES.includes(kind) ? 4 : MARGIN_MM) * PT_PER_MM;
}

describe('every kind on every paper', () => {
  const trips = {
    words: longest(LONG_WORDS),
    word: longest(LONG_WORD),
    demo: twoDivers(demoTrip()),
    'idle ends': idleEnds(),
  };
  for (const kind of SLATE_KINDS) {
    for (const paper of PAPERS) {
      for (const [which, trip] of Object.entries(trips)) {
        it(`${kind} on ${paper.name}, ${which}: nothing overlaps, runs off or is too small`, () => {
          // A trip sheet shows the week at once; the others say the same of one day as of seven.
          const dates =
            kind === 'trip'
              ? null
              : [...new Set(trip.dives.map((dive) => dive.startsAt.slice(0, 10)))].slice(0, 2);
          for (const way of kind === 'card' ? [...WAYS, ...CARD_WAYS] : WAYS) {
            const laid = slatePages(aRequest(trip, { kind, paper, dates, ...way }));
            assert(laid.ok, laid.ok ? '' : laid.troubles[0].what);
            for (const page of laid.value.pages) {
              expect(faultsOf(page, marginPt(kind))).toEqual([]);
              const sizes = textsOf(page).map((mark) => mark.sizePt);
              expect(Math.min(...sizes)).toBeGreaterThanOrEqual(FOOT_PT);
            }
          }
        });
      }
    }
  }
});

describe('every kind on every paper for one and for twelve, as it is printed unasked', () => {
  const requests = {
    'the demo for one': aRequest(demoFor(1)),
    'the demo for twelve': aRequest(demoFor(12)),
    'the hardest trip for one': aRequest(longest(LONG_WORDS, 1)),
    'the hardest trip for twelve': aRequest(longest(LONG_WORDS, 12)),
  };
  for (const kind of SLATE_KINDS) {
    for (const [which, request] of Object.entries(requests)) {
      it(`${kind}, ${which}: each paper takes it in metres and in feet, and nothing overlaps or runs off`, () => {
        const lasting = kind === 'trip' || kind === 'guest';
        for (const paper of PAPERS) {
          for (const units of ['metric', 'imperial'] as const) {
            const marginMm = usualMarginMm(kind, paper);
            const laid = slatePages({
              ...request,
              kind,
              paper,
              units,
              marginMm,
              dates: null,
              // What is of the whole trip says the same of one diver as of twelve.
              diverIds: lasting ? request.ledger.trip.party.slice(0, 1).map(({ id }) => id) : null,
            });
            assert(laid.ok, laid.ok ? '' : laid.troubles[0].what);
            for (const page of laid.value.pages) expect(faultsOf(page, marginPt(kind))).toEqual([]);
          }
        }
      });
    }
  }
});

describe('figures', () => {
  const dives = [20, 42, 14].map((depthM, i) =>
    aDive({ id: `x${i}`, startsAt: `2027-03-0${6 + i}T08:00`, depthM, mix: 'rich' }),
  );
  const unknown = aTrip(dives);
  for (const kind of SLATE_KINDS) {
    it(`${kind}: are never cut short, on any paper with holes on the left`, () => {
      expect(ledger(unknown).divers[0]!.entries[1]!.cns.after).toBeNull();
      for (const paper of PAPERS) {
        for (const trip of [demoTrip(), unknown]) {
          const { pages } = layoutOf(trip, { kind, paper, holes: 'left', units: 'both' });
          const cut = pages.flatMap(textsOf).filter(({ text }) => /\d/.test(text) && text.includes('\u2026'));
          expect(cut.map(({ text }) => text)).toEqual([]);
        }
      }
    });
  }
});

describe('the foot of each page', () => {
  for (const kind of SLATE_KINDS.filter((each) => !ON_FACES.includes(each))) {
    it(`${kind}: carries the cautions, the trip, the day, the version and the page`, () => {
      const { pages } = layoutOf(demoTrip(), { kind, paper: aPaper('A4') });
      const version = `file version 3-${planMark(demoTrip())}`;
      for (const [i, page] of pages.entries()) {
        const words = wordsOf(page).replaceAll('\n', ' ');
        expect(words).toContain(fileWords(SAFETY_LINE));
        expect(words).toContain(demoTrip().title);
        expect(words).toContain(`Mon 1 Mar 2027, ${version}, page ${i + 1}/${pages.length}`);
      }
    });
  }
});

describe('several pages on a sheet', () => {
  it('lays two folded A6 on A4, inside the sheet, with a line to cut along', () => {
    const single = layoutOf(demoTrip());
    const sheets = layoutOf(demoTrip(), { sheet: aPaper('A4') });
    expect(sheets.pages.length).toBe(Math.ceil(single.pages.length / 2));
    for (const page of sheets.pages) expect(faultsOf(page, 4 * PT_PER_MM)).toEqual([]);
    const words = (pages: typeof single.pages) => pages.map(wordsOf).join('\n');
    expect(words(sheets.pages)).toBe(words(single.pages));
    expect(
      sheets.pages[0]!.marks.filter((mark) => mark.kind === 'line' && mark.dashPt?.[0] === 3),
    ).toHaveLength(1);
  });

  it('puts the back of a card where its front is once the sheet is turned', () => {
    const [front, back] = layoutOf(demoTrip(), {
      sheet: aPaper('A4'),
      isFolded: false,
      twoSided: true,
      dates: ['2027-03-17'],
    }).pages;
    const halfPt = front!.widthPt / 2;
    const isLeft = (page: typeof front, name: string, words: string): boolean => {
      const texts = textsOf(page!);
      const at = texts.findIndex((mark) => mark.text === name);
      const turned = texts.findIndex((mark, i) => i > at && mark.text === words);
      return texts[at]!.x < halfPt && texts[turned]!.x < halfPt;
    };
    // The guide's card lies on the left of the front, and so on the right of the back.
    expect(isLeft(front, 'Guide', 'overleaf 3, 4')).toBe(true);
    expect(isLeft(back, 'Guide', 'overleaf 1, 2')).toBe(false);
    expect(isLeft(front, 'Guest 1', 'overleaf 3, 4')).toBe(false);
    expect(isLeft(back, 'Guest 1', 'overleaf 1, 2')).toBe(true);
  });
});

const leftmost = (page: Parameters<typeof textsOf>[0]) => Math.min(...textsOf(page).map((mark) => mark.x));

describe('the punched side', () => {
  it('changes sides on the back of a page', () => {
    const { pages } = layoutOf(demoTrip(), { holes: 'left', twoSided: true, isFolded: false });
    expect(leftmost(pages[0]!)).toBeCloseTo((MARGIN_MM + 12) * PT_PER_MM, 1);
    expect(leftmost(pages[1]!)).toBeCloseTo(MARGIN_MM * PT_PER_MM, 1);
  });

  it('stays where it is on single sides', () => {
    const { pages } = layoutOf(demoTrip(), { kind: 'briefing', paper: aPaper('A4'), holes: 'left' });
    for (const page of pages) expect(leftmost(page)).toBeCloseTo((MARGIN_MM + 12) * PT_PER_MM, 1);
  });
});
