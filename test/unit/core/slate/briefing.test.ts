import { describe, expect, it } from 'vitest';
import { EMERGENCY_FIELDS, EMERGENCY_KEYS } from '../../../../core/document/emergency';
import { demoTrip } from '../../../../core/document/demo-trip';
import type { Trip } from '../../../../core/document/types';
import type { SlateRequest } from '../../../../core/slate/request';
import type { Point } from '../../../../core/slate/layout';
import { fileWords } from '../../../../core/words/reader';
import { aDive, aDiver, aTrip } from '../../../builders/trip';
import { loopTrip } from '../../../support/loop-trip';
import { aPaper, layoutOf, textsOf, wordsOf } from '../../../support/slates';

const START = '2027-03-06T08:00';

function briefing(trip: Trip, change: Partial<SlateRequest> = {}): string {
  const { pages } = layoutOf(trip, { kind: 'briefing', paper: aPaper('A4'), ...change });
  return pages
    .map(wordsOf)
    .join('\n')
    .replaceAll(/\s*\n\s*/g, ' ')
    .replaceAll(/ ([,.:;])/g, '$1')
    .replaceAll(/ +/g, ' ');
}

describe('the day', () => {
  it('begins with what it comes to, and its tightest dive', () => {
    const [day] = layoutOf(demoTrip(), {
      kind: 'briefing',
      paper: aPaper('A4'),
      dates: ['2027-03-18'],
    }).pages;
    const words = wordsOf(day!).replaceAll(/\s*\n\s*/g, ' ');
    expect(words).toContain('Four dives on two mixes for a party of four.');
    expect(words).toMatch(/Tightest: dive 3, 6 min to gas for Guide/);
    const one = briefing(aTrip([aDive({ startsAt: START })]));
    expect(one).toContain('One dive on one mix for one diver.');
  });

  it('takes one page on A4 and letter for six divers and four dives', () => {
    const party = Array.from({ length: 6 }, (_, i) => aDiver({ id: `g${i}`, name: `Guest ${i}` }));
    const trip = aTrip(
      ['07:30', '10:30', '14:00', '17:30'].map((start, i) =>
        aDive({ id: `x${i}`, startsAt: `2027-03-06T${start}`, depthM: 18 - i }),
      ),
      { party },
    );
    for (const paper of ['A4', 'letter']) {
      for (const units of ['metric', 'imperial'] as const) {
        const { pages } = layoutOf(trip, { kind: 'briefing', paper: aPaper(paper), units, marginMm: 10 });
        expect(pages, `${paper} ${units}`).toHaveLength(1);
      }
    }
  });

  it('has the same sizes on every paper, 11 points for data and 9 for captions at least', () => {
    for (const paper of ['A4', 'A5', 'A6', '4x6in']) {
      const { pages } = layoutOf(demoTrip(), { kind: 'briefing', paper: aPaper(paper) });
      const sizes = new Set(pages.flatMap(textsOf).map(({ sizePt }) => sizePt));
      for (const size of sizes) expect([7, 9, 11, 12, 13, 15, 20]).toContain(size);
      for (const text of pages.flatMap(textsOf).filter(({ sizePt }) => sizePt === 7)) {
        expect(text.y).toBeGreaterThan(pages[0]!.heightPt * 0.7);
      }
    }
  });

  it('says of a site its note for the briefing, and where to go instead', () => {
    const trip = aTrip([aDive({ startsAt: START })]);
    const sites = trip.sites.map((site) => ({
      ...site,
      notes: 'Found in 1990.',
      briefing: 'Out at the arch.',
      planB: 'the bay.',
    }));
    const words = briefing({ ...trip, sites });
    expect(words).toContain('Out at the arch. Plan B: the bay.');
    expect(words).not.toContain('Found in 1990.');
    const noted = trip.sites.map((site) => ({ ...site, notes: 'Found in 1990.' }));
    expect(briefing({ ...trip, sites: noted })).toContain('Found in 1990.');
  });
});

describe('who with whom', () => {
  const dive = aDive({ startsAt: START });
  const [a, b, c] = ['Guest 1', 'Guest 2', 'Guest 3'].map((name, i) => aDiver({ id: `g${i}`, name }));

  it('has groups in order of entry, those of nobody among the others', () => {
    const late = { ...a!, group: { name: 'Late boat', afterMin: 20 } };
    const early = { ...b!, group: { name: 'Early boat', afterMin: 5 } };
    const words = briefing(aTrip([dive], { party: [late, early, c!] }));
    const places = [
      'First in: the others, at the start Guest 3',
      'Second in: Early boat, 5 min after the start Guest 2',
      'Third in: Late boat, 20 min after the start Guest 1',
    ].map((each) => words.indexOf(each));
    expect(places.every((place) => place > 0)).toBe(true);
    expect(places).toEqual(places.toSorted((x, y) => x - y));
    expect(briefing(aTrip([dive], { party: [a!, b!] }))).not.toMatch(/others|First in/);
  });

  it('has one table where the dives fit beside each other, also where one of them is wider', () => {
    for (const units of ['metric', 'imperial'] as const) {
      const words = briefing(demoTrip(), { dates: ['2027-03-16'], units });
      expect(words).toContain('stays up');
      const [table = ''] = /Who with whom.*?Cautions/.exec(words) ?? [];
      expect(table.match(/cylinder/g)).toHaveLength(1);
      expect(table).toContain('cylinder 1 turn min. 2 turn min. 3 turn min.');
    }
  });

  it('says who stays up, in the table and on the roll', () => {
    const trip = aTrip([dive, aDive({ id: 'x', startsAt: '2027-03-06T12:00', divers: ['g0'] })], {
      party: [a!, b!],
    });
    expect(briefing(trip).match(/stays up/g)).toHaveLength(2);
  });

  it('tells the MOD of each where their limits of PO2 differ', () => {
    const careful = { ...b!, po2: { working: 1.2, contingency: 1.4 } };
    const words = briefing(
      aTrip([aDive({ startsAt: START, depthM: 12, mix: 'rich' })], { party: [a!, careful] }),
    );
    expect(words).toMatch(/EAN36 MOD 28 m for Guest 1 MOD 23 m for Guest 2/);
  });

  it('tells the MOD of most of a large party as that of the others, after those who are named', () => {
    const party = Array.from({ length: 6 }, (_, i) =>
      aDiver({
        id: `g${i}`,
        name: `Guest ${i}`,
        ...(i === 1 ? { po2: { working: 1.2, contingency: 1.6 } } : {}),
      }),
    );
    const words = briefing(aTrip([aDive({ startsAt: START, depthM: 20, mix: 'rich' })], { party }));
    expect(words).toMatch(/EAN36 MOD 23 m for Guest 1 MOD 28 m for the others/);
  });

  it('names each mix where they differ', () => {
    const rich = aDive({ startsAt: START, depthM: 20, mix: 'auto' });
    const ceiling = { ...b!, maxO2: 0.21 };
    expect(briefing(aTrip([rich], { party: [a!, ceiling] }))).toMatch(/Guest 1 [^|]*EAN\d+ \d+ \d+ Guest 2/);
  });
});

describe('what is not there is said', () => {
  it('why there is no pressure to turn at, once for all whom it concerns', () => {
    const low = aDiver({ cylinder: { waterL: 7, fillBar: 90, reserveBar: 50 } });
    const dive = aDive({ startsAt: START, depthM: 30, bottomMin: 8 });
    const party = [low, { ...low, id: 'g2', name: 'Guest 2' }, aDiver({ id: 'g3', name: 'Guest 3' })];
    const words = briefing(aTrip([dive], { party }));
    const why = 'Dive 1, Guest 1 and Guest 2: no turn, the fill is below the minimum.';
    expect(words.split(why)).toHaveLength(2);
    expect(briefing(aTrip([dive]))).not.toContain('no turn');
  });

  it('of a dive that nobody makes, and of room whose clock is not known', () => {
    const mixes = [{ id: 'rich', o2: 0.36, costPerFill: 0 }];
    const deep = aTrip([aDive({ startsAt: START, depthM: 40, mix: 'auto' })], { mixes });
    const words = briefing(deep);
    expect(words).toContain('Guest 1: no mix on board may be breathed there, not to be dived.');
    expect(words).not.toMatch(/\bup \d\d:\d\d|\bstop\b \d/);
    const dives = [
      aDive({ id: 'a', startsAt: START, depthM: 42, bottomMin: 5, mix: 'rich' }),
      aDive({ id: 'b', startsAt: '2027-03-06T12:00', depthM: 12, bottomMin: 10 }),
    ];
    expect(briefing(aTrip(dives))).toContain('not known: PO2');
  });

  it('and of a day without cautions that it has none of its own', () => {
    expect(briefing(aTrip([aDive({ startsAt: START })]))).toContain('Cautions – None of this day’s own.');
  });
});

describe('cautions', () => {
  it('are told once to several divers, and dense gas on the days that have it', () => {
    const party = ['Guest 1', 'Guest 2'].map((name, i) => aDiver({ id: `g${i}`, name }));
    const dives = [aDive({ startsAt: START, depthM: 36, bottomMin: 25 })];
    const words = briefing(aTrip(dives, { party }));
    expect(words).toMatch(/Past a limit, dive 1\. 25 min of bottom time passes/);
    expect(words).toMatch(/Guest 1 and Guest 2: required stops \d+ m \d+ min/);
    expect(words).toMatch(/Note\. On one dive at Wall the gas is dense, \d\.\d g\/L at 36 m/);
    expect(briefing(aTrip([aDive({ startsAt: START, depthM: 14 })]))).not.toContain('g/L');
  });
});

describe('what changed', () => {
  const was = demoTrip();
  const [first, ...others] = was.dives;
  const date = first!.startsAt.slice(0, 10);
  const is: Trip = { ...was, dives: [{ ...first!, depthM: first!.depthM - 2 }, ...others] };
  const since = (trip: Trip) => ({ dates: [date], since: { trip, at: '2027-03-13T18:40' } });

  it('is said beside the cautions, with the time it is compared with', () => {
    const words = briefing(is, since(was));
    expect(words).toContain('Changed since Sat 13, 18:40');
    expect(words).toContain(`${first!.depthM - 2} m, not ${first!.depthM} m.`);
  });

  it('is of this day alone', () => {
    expect(briefing(is, { ...since(was), dates: ['2027-03-18'] })).toContain('Nothing of this day.');
  });

  it('is left out where nothing is known to compare with', () => {
    expect(briefing(is, { dates: [date] })).not.toContain('Changed');
  });
});

describe('emergency box', () => {
  it('has every line, filled where the trip says it, on every paper', () => {
    const trip = { ...demoTrip(), emergency: { radio: 'channel 16', oxygen: 'port locker' } };
    for (const paper of ['A4', 'letter', 'A5', 'half-letter', 'A6', '4x6in']) {
      const words = briefing(trip, { paper: aPaper(paper), dates: ['2027-03-18'] });
      for (const key of EMERGENCY_KEYS) expect(words).toContain(fileWords(EMERGENCY_FIELDS[key]));
      expect(words).toContain('Radio channel 16');
      expect(words).toContain('Oxygen kit port locker');
    }
  });
});

describe('roll call', () => {
  it('has each diver once a table of dives, with boxes for in, out and pressure', () => {
    for (const [paper, tables] of [
      ['A4', 1],
      ['A6', 2],
    ] as const) {
      const words = briefing(demoTrip(), { paper: aPaper(paper), dates: ['2027-03-18'] });
      const roll = words.slice(words.indexOf('Roll call'));
      expect(roll.match(/Guest 3/g)).toHaveLength(tables);
      expect(roll.match(/\bin out bar\b/g)).toHaveLength(4);
    }
  });

  it('is called for who dives on a loop as for everybody', () => {
    const words = briefing(loopTrip(), { dates: ['2027-03-18'] });
    expect(words).toContain('mixes and a loop for a party of four.');
    const [before, roll] = words.split('Roll call');
    expect(before).toContain('loop 1.2');
    // In place of a cylinder that stays in its box.
    const { bailOut } = loopTrip().party.find(({ loop }) => loop !== undefined)!.loop!;
    const { waterL, fillBar } = bailOut[0]!.cylinder;
    expect(before).toContain(`bail-out ${waterL} L, ${fillBar} bar`);
    // What stands there would stand in place of the boxes.
    expect(roll).not.toContain('loop');
    // A row of four dives has three boxes each, and an edge: as many upright lines whoever dives on a loop.
    const uprights = (trip: Trip): number => {
      const { pages } = layoutOf(trip, { kind: 'briefing', paper: aPaper('A4'), dates: ['2027-03-18'] });
      const page = pages.find((each) => textsOf(each).some(({ text }) => text.startsWith('Roll')))!;
      const top = textsOf(page).find(({ text }) => text.startsWith('Roll'))!.y;
      return page.marks.filter((mark) => {
        if (mark.kind !== 'line' || mark.points.length !== 2) return false;
        const [from, to] = mark.points as readonly [Point, Point];
        return from.x === to.x && from.y > top;
      }).length;
    };
    expect(uprights(loopTrip())).toBeGreaterThan(50);
    expect(uprights(loopTrip())).toBe(uprights(demoTrip()));
  });
});
