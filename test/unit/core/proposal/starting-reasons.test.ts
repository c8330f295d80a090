import { describe, expect, it } from 'vitest';
import { cautionsOf } from '../../../../core/cautions/all';
import { ledger } from '../../../../core/ledger/ledger';
import type { StartingAnswers } from '../../../../core/proposal/starting-sheet';
import { aDiver } from '../../../builders/trip';
import { answers, laidOut } from '../../../support/starting-answers';

describe('the reasons', () => {
  const big = { waterL: 18, fillBar: 230, reserveBar: 50 };
  const small = { waterL: 7, fillBar: 200, reserveBar: 50 };
  const guest = (number: number, change: Parameters<typeof aDiver>[0] = {}) =>
    aDiver({ id: `g${number}`, name: `Guest ${number}`, cylinder: big, surfaceRateLpm: 14, ...change });
  const why = (change: Partial<StartingAnswers>): string => laidOut(change).explanations.join('\n');

  it('name the no-stop limit and whose it is', () => {
    const text = why({ party: [guest(1), guest(2, { gradient: { low: 0.3, high: 0.6 } }), guest(3)] });
    expect(text).toMatch(/limited by the no-stop limit of Guest 2\.$/m);
    expect(text).toContain('deeper, the no-stop limit of Guest 2 leaves less than 20 min.');
    expect(text).not.toMatch(/the gas|Gas limits/);
  });

  it('name the gas and whose it is, though it be one of twelve', () => {
    const party = Array.from({ length: 12 }, (_, at) => guest(at, at === 7 ? { cylinder: small } : {}));
    const text = why({ party });
    expect(text).toContain('All 16 dives are limited by the gas of Guest 7.');
    expect(text).toContain('Gas limits most of them: check cylinder, fill and RMV.');
    expect(text).toContain('deeper, the gas of Guest 7 leaves less than 20 min.');
  });

  it('name several who are held alike, count more than three, and nobody where it is everybody', () => {
    const party = (tight: number) =>
      Array.from({ length: 6 }, (_, at) => guest(at, at < tight ? { cylinder: small } : {}));
    expect(why({ party: party(2) })).toContain('limited by the gas of Guest 0 and Guest 1.');
    expect(why({ party: party(5) })).toContain(
      'limited by the gas of Guest 0, Guest 1, Guest 2 and two more.',
    );
    expect(why({ party: party(6) })).toContain('limited by the gas.');
  });

  it('name the oxygen where it binds', () => {
    const rich = { id: 'ean40', o2: 0.4, costPerFill: 0 };
    const text = why({
      times: ['06:00', '08:30', '11:00', '13:30', '16:00', '18:30'],
      longestMin: 120,
      mixes: [rich],
      sites: answers().sites.map((site) => ({ ...site, depthM: Math.min(site.depthM, 24) })),
      party: [guest(1, { surfaceRateLpm: 4, maxO2: 1, gradient: { low: 0.9, high: 0.95 } })],
    });
    expect(text).toMatch(/limited by the oxygen of 24 hours \(CNS\)/);
    expect(text).toMatch(
      /dives are left out, the first of them 2027-03-07T13:30: even at 8 m, the oxygen of 24 hours \(CNS\) leaves less than 20 min\./,
    );
  });

  it('say that sites outnumber dives, and which dives there are no hours for', () => {
    const one = why({ nights: 0, times: ['10:00'], flight: null });
    expect(one).toContain('There is one day for diving, 2027-03-06.');
    expect(one).toContain('Site a, Site c and Site d are not dived: there are more sites than dives.');
    expect(why({ flight: '2027-03-12T09:00' })).toMatch(
      /The last \d+ dives, from 2027-03-1\dT\d\d:00 on, are left out: less than 18 h would be left before the flight\./,
    );
  });

  it('name the wait by the table or the model where a flight keeps the published hours and not that', () => {
    const diver = guest(1, {
      gradient: { low: 0.85, high: 0.95 },
      cylinder: { waterL: 24, fillBar: 230, reserveBar: 50 },
    });
    const asked = { rising: true, longestMin: 60, times: ['07:00', '09:00', '11:00'], party: [diver] };
    const sites = [{ id: 'b', name: 'Site b', depthM: 30, notes: '' }];
    const { trip, cells } = laidOut({ ...asked, sites, flight: '2027-03-13T04:00' });
    const [whole] = ledger(trip).divers;
    expect(cautionsOf(ledger(trip)).filter(({ severity }) => severity !== 'know')).toEqual([]);
    expect(whole!.flight!.latest).toBe('table');
    const late = cells.find(({ startsAt }) => startsAt === '2027-03-12T07:00')!;
    expect(late).toMatchObject({ state: 'left out' });
    expect(late.why).toContain('the wait before the flight by the government table or the model');
  });

  it('say whom no mix on board suits', () => {
    const rich = { id: 'ean40', o2: 0.4, costPerFill: 0 };
    expect(why({ mixes: [rich], party: [guest(1, { maxO2: 0.36 }), guest(2)] })).toContain(
      'No dive can be drafted: no mix on board may be breathed by Guest 1.',
    );
  });
});
