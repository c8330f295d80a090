import { describe, expect, it } from 'vitest';
import type { Trip } from '../../../../core/document/types';
import { aDive, aDiver, aTrip } from '../../../builders/trip';
import { aPaper, layoutOf, wordsOf } from '../../../support/slates';

function briefing(trip: Trip, paper = 'A4'): string {
  const { pages } = layoutOf(trip, { kind: 'briefing', paper: aPaper(paper) });
  return pages.map(wordsOf).join('\n').replaceAll('\n', ' ');
}

const START = '2027-03-06T08:00';

describe('the way up', () => {
  it('is left out of a dive that nobody makes', () => {
    const mixes = [{ id: 'rich', o2: 0.36, costPerFill: 0 }];
    const words = briefing(aTrip([aDive({ startsAt: START, depthM: 40, mix: 'auto' })], { mixes }));
    expect(words).toContain('40 m, 20 min mix');
    expect(words).not.toMatch(/all up|safety stop/);
    // The fill is there all the same, and so is its unit.
    expect(words).toMatch(/ bar Guest 1 no mix .* 230 /);
    expect(words).toContain('no mix: none on board may be breathed there, not to be dived.');
  });

  it('is the safety stop, or the required stops where they take its place for all', () => {
    const inside = aDive({ startsAt: START, depthM: 18, bottomMin: 20 });
    expect(briefing(aTrip([inside]))).toMatch(/18 m, 20 min; safety stop 3 min at 5 m; all up \d\d:\d\d /);
    const past = aDive({ startsAt: START, depthM: 36, bottomMin: 25 });
    const alike = [aDiver(), aDiver({ id: 'g2', name: 'Guest 2' })];
    const words = briefing(aTrip([past], { party: alike }));
    const [, stops] = /36 m, 25 min; STOPS ([^;]+); all up/.exec(words)!;
    expect(words).toContain(`Guest 2: past the limit, stops ${stops}`);
    expect(words).not.toContain('safety stop');
  });

  it('leaves stops that differ to the line of each diver', () => {
    const party = [aDiver(), aDiver({ id: 'g2', name: 'Guest 2', gradient: { low: 0.2, high: 0.4 } })];
    const both = briefing(aTrip([aDive({ startsAt: START, depthM: 36, bottomMin: 25 })], { party }));
    expect(both).toMatch(/36 m, 25 min; all up/);
    const some = briefing(aTrip([aDive({ startsAt: START, depthM: 24, bottomMin: 20 })], { party }));
    expect(some).toContain('; safety stop 3 min at 5 m, for some the stops below; all up');
    expect(some).toMatch(/Guest 2: past the limit, stops \d/);
  });
});

describe('the tightest of a dive', () => {
  const named = (trip: Trip) => /(Guest \d) \(tightest\)/.exec(briefing(trip))?.[1] ?? null;
  const little = aDiver({ cylinder: { waterL: 12, fillBar: 200, reserveBar: 50 } });

  it('is the diver past a limit without a figure, not the one with fewer minutes', () => {
    // Too long for the gas of the first; past its limit on arrival for the second, who dived before.
    const before = aDive({ startsAt: '2027-03-06T07:30', depthM: 40, bottomMin: 30, divers: ['g2'] });
    const dive = aDive({ startsAt: '2027-03-06T08:55', depthM: 40, bottomMin: 25 });
    const trip = aTrip([before, dive], { party: [little, aDiver({ id: 'g2', name: 'Guest 2' })] });
    expect(named(trip)).toBe('Guest 2');
    expect(briefing(trip)).toMatch(/Guest 1 .* \u2212\d+ .* Guest 2 \(tightest\) .* past limit no-stop /);
  });

  it('is the diver whose own depth limit the dive passes, and the reason is said', () => {
    const shallow = aDiver({ id: 'g2', name: 'Guest 2', maxDepthM: 20 });
    const trip = aTrip([aDive({ startsAt: START, depthM: 30, bottomMin: 10 })], { party: [little, shallow] });
    expect(named(trip)).toBe('Guest 2');
    expect(briefing(trip)).toContain(
      'room \u2013: past the diver’s depth limit, and no shorter stay would keep it',
    );
  });
});

describe('a figure that is not there', () => {
  // A fill below the minimum gas of the dive: there is no pressure to turn at.
  const low = aDiver({ cylinder: { waterL: 7, fillBar: 90, reserveBar: 50 } });
  const party = [low, aDiver({ id: 'g2', name: 'Guest 2' })];
  const dive = aDive({ startsAt: START, depthM: 30, bottomMin: 8 });

  it('leaves the unit of its column to the divers who have it, and says why', () => {
    const words = briefing(aTrip([dive], { party }));
    expect(words).toContain('m bar min min bar bar bar Guest');
    expect(words.match(/turn \u2013: none, fill below minimum\./g)).toHaveLength(1);
    expect(briefing(aTrip([dive]))).not.toContain('turn \u2013');
  });

  it('says so of room where the oxygen clock is not known', () => {
    const rich = aDive({ startsAt: START, depthM: 42, bottomMin: 5, mix: 'rich' });
    for (const paper of ['A4', 'A6']) {
      const words = briefing(aTrip([rich], { party: [party[1]!] }), paper);
      const meaning = /room \u2013: oxygen clock not known, PO2 above 1\.6 bar here or on a dive before\./g;
      expect(words.match(meaning)).toHaveLength(1);
    }
  });
});

it('says of a day without cautions that it has none of its own', () => {
  expect(briefing(aTrip([aDive({ startsAt: START })]))).toContain('Cautions None of this day\u2019s own.');
});
