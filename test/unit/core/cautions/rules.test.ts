import { describe, expect, it } from 'vitest';
import { cautionsOf, RULES } from '../../../../core/cautions/all';
import type { Caution, Ledger } from '../../../../core/trip/ledger-types';
import type { Dive, Diver, Trip } from '../../../../core/trip/types';
import { aDive, aDiver, aLedger, AIR, LEAN, RICH } from '../../../builders/trip';

function of(code: string, ledger: Ledger): readonly Caution[] {
  return cautionsOf(ledger).filter((caution) => caution.code === code);
}

function only(code: string, ledger: Ledger): Caution {
  const found = of(code, ledger);
  expect(found.map((caution) => caution.message)).toHaveLength(1);
  return found[0]!;
}

function codes(ledger: Ledger): readonly string[] {
  return cautionsOf(ledger).map((caution) => caution.code);
}

function secondDive(depthM: number, startsAt = '2027-03-06T12:00'): Dive {
  return aDive({ depthM, bottomMin: 5, startsAt });
}

/** Nine days with a shallow dive each, but for one. */
function nineDaysBut(skip: number): readonly Dive[] {
  return Array.from({ length: 9 }, (_, i) => i)
    .filter((i) => i !== skip)
    .map((i) => aDive({ depthM: 9, startsAt: `2027-03-0${i + 1}T09:00` }));
}

function party(change: Partial<Diver>): Partial<Trip> {
  return { party: [aDiver(change)] };
}

/** MOD of 36 % in gauge water: (1.4 / 0.36 - 1.01325) * 10 = 28.756 m. */
const RICH_MOD_M = (1.4 / 0.36 - 1.01325) / ((1019.7 * 9.80665) / 1e5);

describe('a dive on a mix', () => {
  it('stops below the MOD of the label, and says which mix would do', () => {
    const deep = aLedger([aDive({ depthM: 30, bottomMin: 10, mix: 'rich' })]);
    const found = only('below-mod', deep);
    expect(found).toMatchObject({ severity: 'stop', diverId: 'guest-1' });
    // 1.4 / 4.0132 = 0.3488: 34 % is the richest whole percent.
    expect(found.message).toBe(
      '30 m is below the MOD of 28 m for the 36 % oxygen on the label at a PO2 of 1.4 bar: stay above it, or take a mix of 34 % or less.',
    );
  });

  it('is silent at the MOD itself', () => {
    const at = aLedger([aDive({ depthM: RICH_MOD_M, bottomMin: 10, mix: 'rich' })]);
    expect(codes(at)).not.toContain('below-mod');
    expect(codes(at)).not.toContain('po2-above-working');
  });

  it('stops below the MOD of what was analysed, in the mix or in the cylinder', () => {
    const mixes = [AIR, LEAN, { ...RICH, o2: 0.32, analysedO2: 0.365 }];
    const byMix = aLedger([aDive({ depthM: 28.5, bottomMin: 10, mix: 'rich' })], { mixes });
    const byDive = aLedger([aDive({ depthM: 28.5, bottomMin: 10, mix: 'lean', asDived: [{ o2: 0.365 }] })]);
    for (const ledger of [byMix, byDive]) {
      expect(only('below-mod-analysed', ledger).message).toContain(
        'MOD of 28 m for the 36.5 % oxygen analysed',
      );
      expect(codes(ledger)).not.toContain('below-mod');
    }
  });

  it('changes above the working PO2 and says for how long', () => {
    const found = only('po2-above-working', aLedger([aDive({ depthM: 30, bottomMin: 20, mix: 'rich' })]));
    // 0.36 * 4.01325 = 1.4448, up. Above 28.76 m: 20 min less 28.76/18 of descent, and 1.24/9 on the way up.
    expect(found.severity).toBe('change');
    expect(found.message).toContain('PO2 reaches 1.45 bar and stays above the working 1.4 bar for 19 min');
  });

  it('stops above the contingency and above 1.6, each instead of the milder one', () => {
    const strict = aLedger(
      [aDive({ depthM: 34, mix: 'rich' })],
      party({ po2: { working: 1.4, contingency: 1.5 } }),
    );
    expect(only('po2-above-contingency', strict)).toMatchObject({ severity: 'stop' });
    expect(codes(strict)).not.toContain('po2-above-working');
    const wild = aLedger([aDive({ depthM: 36, mix: 'rich' }), aDive({ startsAt: '2027-03-06T12:00' })]);
    expect(only('po2-without-limit', wild).message).toContain('PO2 reaches 1.67 bar, above 1.6 bar');
    expect(codes(wild)).not.toContain('po2-above-contingency');
    expect(only('cns-unknown', wild)).toMatchObject({ severity: 'know', diveId: wild.trip.dives[1]!.id });
  });

  it('stops on a mix richer than the diver may breathe', () => {
    const found = only('richer-than-diver', aLedger([aDive({ mix: 'rich' })], party({ maxO2: 0.32 })));
    expect(found.message).toContain('36 % oxygen is richer than the 32 %');
    expect(codes(aLedger([aDive({ mix: 'rich' })], party({ maxO2: 0.36 })))).not.toContain(
      'richer-than-diver',
    );
  });

  it('stops where no mix reaches, and says what to bring and how deep one may go', () => {
    const none = aLedger([aDive({ depthM: 38, mix: 'auto' })], { mixes: [RICH, { ...LEAN, o2: 0.3 }] });
    // 1.4 / 4.8132 = 0.2908; MOD of 30 %: 36.53 m.
    expect(only('no-mix', none).message).toContain(
      'bring a mix of 29 % or less, or plan it no deeper than 36 m',
    );
    expect(none.divers[0]!.entries[0]!.isMade).toBe(false);
    const someMix = aLedger([aDive({ depthM: 36.5, mix: 'auto' })], { mixes: [RICH, { ...LEAN, o2: 0.3 }] });
    expect(codes(someMix)).not.toContain('no-mix');
  });

  it('knows sites that no mix reaches, all in one', () => {
    const sites = [
      { id: 'wall', name: 'Wall', depthM: 30, notes: '' },
      { id: 'deep', name: 'Pinnacle', depthM: 38, notes: '' },
      { id: 'deeper', name: 'Trench', depthM: 52, notes: '' },
    ];
    const mixes = [RICH, { ...LEAN, o2: 0.3 }];
    const found = only('site-beyond-mixes', aLedger([], { sites, mixes }));
    expect(found.message).toContain('Pinnacle (38 m) and Trench (52 m) go deeper than the 36 m that any mix');
    expect(codes(aLedger([], { sites, mixes: [AIR] }))).not.toContain('site-beyond-mixes');
  });

  it('tells of the mixes on board that day', () => {
    const dive = aDive({ depthM: 35, mix: 'auto', onBoard: ['rich'] });
    expect(only('no-mix', aLedger([dive])).message).toContain('no deeper than 28 m');
  });

  it('leaves room for the analysis of a mix that is not analysed yet', () => {
    const settings = {
      descentMPerMin: 18,
      ascentMPerMin: 9,
      gasLaw: 'ideal' as const,
      analysisTolerance: 0.01,
    };
    const dive = aDive({ depthM: 38, mix: 'auto' });
    const label = aLedger([dive], { mixes: [{ ...LEAN, o2: 0.3 }], settings });
    // 1.4 / 0.31 = 4.516: 35.03 m; and 0.2908 - 0.01 is 28 %.
    expect(only('no-mix', label).message).toContain(
      'bring a mix of 28 % or less, or plan it no deeper than 35 m',
    );
    const analysed = aLedger([dive], { mixes: [{ ...LEAN, o2: 0.3, analysedO2: 0.3 }], settings });
    expect(only('no-mix', analysed).message).toContain('no deeper than 36 m');
  });

  it('knows what rests on a label, once for the trip', () => {
    const found = only(
      'mix-not-analysed',
      aLedger([aDive({ mix: 'rich' }), aDive({ startsAt: '2027-03-06T12:00' })]),
    );
    expect(found).toMatchObject({ severity: 'know', diverId: null, diveId: null });
    expect(found.message).toContain('21 % and 36 %');
    const analysed = aLedger([aDive({ mix: 'rich' })], { mixes: [{ ...RICH, analysedO2: 0.355 }] });
    expect(codes(analysed)).not.toContain('mix-not-analysed');
  });

  it('names the densest of several dives', () => {
    const dives = [
      aDive({ depthM: 34, bottomMin: 8 }),
      aDive({ depthM: 32, bottomMin: 5, startsAt: '2027-03-06T12:00' }),
    ];
    // 1.293 g/L * 4.4132: 5.68 up.
    expect(only('gas-dense', aLedger(dives)).message).toContain(
      'On 2 dives the gas is dense, up to 5.7 g/L at 34 m',
    );
  });

  it('weighs the density of the gas: known above 5.2 g/L, changed above 6.2', () => {
    expect(only('gas-dense', aLedger([aDive({ depthM: 31, bottomMin: 10 })]))).toMatchObject({
      severity: 'know',
    });
    expect(codes(aLedger([aDive({ depthM: 30, bottomMin: 10 })]))).not.toContain('gas-dense');
    const deep = aLedger([aDive({ depthM: 39, bottomMin: 5 })]);
    expect(only('gas-too-dense', deep)).toMatchObject({ severity: 'change' });
    expect(codes(deep)).not.toContain('gas-dense');
  });
});

describe('a dive and its time', () => {
  it('stops past the no-stop limit, with the stops it would cost', () => {
    const ledger = aLedger([aDive({ depthM: 30, bottomMin: 40 })]);
    const { noStopMin, stops } = ledger.divers[0]!.entries[0]!;
    const found = only('past-no-stop', ledger);
    expect(found.severity).toBe('stop');
    expect(found.message).toContain(`no-stop limit of ${Math.floor(noStopMin!)} min`);
    for (const { depthM, min } of stops!) expect(found.message).toContain(`${min} min at ${depthM} m`);
    expect(found.message).toContain('training decides');
  });

  it('is silent at the limit itself', () => {
    const past = aLedger([aDive({ depthM: 30, bottomMin: 40 })]);
    const bottomMin = past.divers[0]!.entries[0]!.noStopMin!;
    expect(codes(aLedger([aDive({ depthM: 30, bottomMin })]))).not.toContain('past-no-stop');
  });

  it('stops where an earlier level is past its own limit', () => {
    const legs = [
      { depthM: 36, min: 25 },
      { depthM: 6, min: 40 },
    ];
    const ledger = aLedger([aDive({ depthM: 36, bottomMin: 65, legs })]);
    expect(only('level-past-no-stop', ledger).message).toContain('the level at 36 m');
    const kept = [
      { depthM: 36, min: 8 },
      { depthM: 6, min: 40 },
    ];
    expect(codes(aLedger([aDive({ depthM: 36, bottomMin: 48, legs: kept })]))).not.toContain(
      'level-past-no-stop',
    );
  });

  it('stops where the stops run into the next dive', () => {
    const ledger = aLedger([aDive({ depthM: 40, bottomMin: 60 }), aDive({ startsAt: '2027-03-06T09:10' })]);
    expect(only('stops-into-next-dive', ledger)).toMatchObject({
      severity: 'stop',
      diveId: ledger.trip.dives[1]!.id,
    });
    expect(codes(ledger)).not.toContain('short-interval');
  });

  it('stops deeper than the diver may go, also where no mix reaches', () => {
    expect(only('deeper-than-diver', aLedger([aDive()], party({ maxDepthM: 18 }))).message).toContain(
      'limit of 18 m',
    );
    expect(codes(aLedger([aDive({ depthM: 18 })], party({ maxDepthM: 18 })))).not.toContain(
      'deeper-than-diver',
    );
  });
});

function withReserve(reserveBar: number): Ledger {
  const cylinder = { waterL: 12, fillBar: 200, reserveBar };
  return aLedger([aDive({ depthM: 15, bottomMin: 30 })], party({ cylinder }));
}

describe('gas', () => {
  const small = { waterL: 10, fillBar: 200, reserveBar: 50 };

  it('changes below the minimum gas, naming the pressure and the minutes it lasts', () => {
    const ledger = aLedger(
      [aDive({ depthM: 30, bottomMin: 20 })],
      party({ cylinder: small, surfaceRateLpm: 18 }),
    );
    const entry = ledger.divers[0]!.entries[0]!;
    const found = only('below-minimum-gas', ledger);
    expect(found.severity).toBe('change');
    // By hand: 30/18 min at mean 2.5132 bar, then 4.0132 bar a minute, until (200 - minimum) * 10 L are gone.
    const spareL = (200 - entry.gas.minimumBar!) * 10;
    const descentMin = 30 / 18;
    const deepBar = entry.legs[0]!.toBar;
    const lastsMin = descentMin + (spareL / 18 - (descentMin * (deepBar + 1.01325)) / 2) / deepBar;
    expect(found.message).toContain(
      `of ${Math.ceil(entry.gas.minimumBar!)} bar is reached after ${Math.floor(lastsMin)} min`,
    );
  });

  it('says so where the fill itself is below the minimum gas', () => {
    const cylinder = { waterL: 10, fillBar: 80, reserveBar: 20 };
    const ledger = aLedger([aDive({ depthM: 30, bottomMin: 3 })], party({ cylinder, surfaceRateLpm: 18 }));
    expect(only('below-minimum-gas', ledger).message).toContain(
      'A fill of 80 bar is less than the minimum gas',
    );
  });

  it('changes below the reserve', () => {
    const cylinder = { waterL: 12, fillBar: 200, reserveBar: 120 };
    const ledger = aLedger([aDive({ depthM: 15, bottomMin: 30 })], party({ cylinder, surfaceRateLpm: 15 }));
    const { endBar } = ledger.divers[0]!.entries[0]!.gas;
    expect(only('below-reserve', ledger).message).toContain(
      `${Math.floor(endBar!)} bar is left at the surface, less than the reserve of 120 bar`,
    );
  });

  it('is silent about a reserve that is just kept', () => {
    const { endBar } = withReserve(50).divers[0]!.entries[0]!.gas;
    expect(codes(withReserve(endBar!))).not.toContain('below-reserve');
    expect(codes(withReserve(endBar! + 0.01))).toContain('below-reserve');
  });

  it('stops where it runs out, and says more where stops are required', () => {
    const out = aLedger(
      [aDive({ depthM: 15, bottomMin: 40 })],
      party({ cylinder: small, surfaceRateLpm: 25 }),
    );
    expect(only('gas-runs-out', out)).toMatchObject({ severity: 'stop' });
    expect(out.divers[0]!.entries[0]!.gas.endBar).toBeNull();
    const stops = aLedger(
      [aDive({ depthM: 30, bottomMin: 45 })],
      party({ cylinder: { ...small, waterL: 15 }, surfaceRateLpm: 18 }),
    );
    expect(only('gas-not-for-stops', stops)).toMatchObject({ severity: 'stop' });
    expect(codes(stops)).not.toContain('gas-runs-out');
  });
});

describe('oxygen', () => {
  const long = { depthM: 28, mix: 'rich' as const };

  it('changes above 80 % of the single-exposure clock and stops above 100 %', () => {
    expect(only('cns-over-80', aLedger([aDive({ ...long, bottomMin: 135 })]))).toMatchObject({
      severity: 'change',
    });
    const over = aLedger([aDive({ ...long, bottomMin: 165 })]);
    expect(only('cns-over-100', over)).toMatchObject({ severity: 'stop' });
    expect(codes(over)).not.toContain('cns-over-80');
    expect(codes(aLedger([aDive({ ...long, bottomMin: 110 })]))).not.toContain('cns-over-80');
  });

  it('stops above the limit of any 24 hours, on the dive that passes it', () => {
    const dives = ['08:00', '12:00', '16:00'].map((time) =>
      aDive({ ...long, bottomMin: 70, startsAt: `2027-03-06T${time}` }),
    );
    const ledger = aLedger(dives);
    expect(only('cns-day-over-100', ledger).diveId).toBe(dives[2]!.id);
  });

  it('counts OTU against the day and ESOT against the advice, once a day', () => {
    const times = ['06:00', '10:00', '14:00', '18:00'];
    const days = ['06', '07', '08', '09'];
    const dives = days.flatMap((day) =>
      times.map((time) => aDive({ ...long, bottomMin: 90, startsAt: `2027-03-${day}T${time}` })),
    );
    const ledger = aLedger(dives);
    const over = of('otu-over-day', ledger);
    expect(over.map((caution) => caution.diveId?.slice(0, 5))).toEqual(over.map(() => 'dive-'));
    const { days: lines, entries } = ledger.divers[0]!;
    const expected = lines.flatMap((line) => {
      const first = entries.find(
        (entry) => entry.dive.startsAt.startsWith(line.date) && entry.otu.day > line.otuAllowed,
      );
      return first ? [first.dive.id] : [];
    });
    expect(expected.length).toBeGreaterThan(0);
    expect(over.map((caution) => caution.diveId)).toEqual(expected);
    const esot = of('esot-over-day', ledger);
    expect(esot.length).toBe(4);
    expect(esot[0]).toMatchObject({ severity: 'know' });
    // Four diving days: K 70, 60 sqrt(70) = 501.99.
    expect(esot[0]!.message).toContain('more than the 501 min advised a day on a trip with 4 diving days');
  });
});

describe('ESOT and the days that count', () => {
  it('counts only days on which a dive is made', () => {
    // 140 min at 1.4 bar is an ESOT of 302: two such dives are past 502, short of 657.
    const long = { depthM: 28.7, mix: 'auto' as const, bottomMin: 140 };
    const dives = ['06', '07'].flatMap((day) =>
      ['06:00', '14:00'].map((time) => aDive({ ...long, startsAt: `2027-03-${day}T${time}` })),
    );
    const none = aDive({ depthM: 39, mix: 'auto', startsAt: '2027-03-08T08:00' });
    const ledger = aLedger([...dives, none], { mixes: [RICH] });
    expect(ledger.divers[0]!.entries[4]!.isMade).toBe(false);
    expect(ledger.divers[0]!.days).toHaveLength(3);
    expect(ledger.divers[0]!.days[0]!.esot).toBeGreaterThan(502);
    expect(ledger.divers[0]!.days[0]!.esot).toBeLessThan(657);
    expect(codes(ledger)).not.toContain('esot-over-day');
    const made = aDive({ depthM: 9, mix: 'auto', bottomMin: 20, startsAt: '2027-03-08T08:00' });
    expect(codes(aLedger([...dives, made], { mixes: [RICH] }))).toContain('esot-over-day');
  });
});

describe('the order of dives', () => {
  it('changes an interval under an hour', () => {
    const ledger = aLedger([aDive({ depthM: 9, bottomMin: 29 }), aDive({ startsAt: '2027-03-06T09:29' })]);
    expect(only('short-interval', ledger).message).toContain('Only 59 min');
    expect(
      codes(aLedger([aDive({ depthM: 9, bottomMin: 29 }), aDive({ startsAt: '2027-03-06T09:30' })])),
    ).not.toContain('short-interval');
  });

  it('changes a dive more than 12 m deeper than the one before, on the same day', () => {
    const shallow = aDive({ depthM: 12 });
    expect(only('deeper-than-the-one-before', aLedger([shallow, secondDive(24.1)])).message).toContain(
      '24.1 m follows one to 12 m',
    );
    expect(codes(aLedger([shallow, secondDive(24)]))).not.toContain('deeper-than-the-one-before');
    expect(codes(aLedger([shallow, secondDive(30, '2027-03-07T08:00')]))).not.toContain(
      'deeper-than-the-one-before',
    );
  });

  it('changes a dive beyond 40 m after a shallower one', () => {
    const dives = [
      aDive({ depthM: 36, bottomMin: 5 }),
      aDive({ depthM: 42, bottomMin: 5, startsAt: '2027-03-06T12:00' }),
    ];
    expect(only('deeper-than-the-one-before', aLedger(dives)).message).toContain('beyond 40 m');
  });

  it('counts a dive made before the trip', () => {
    const before = [{ id: 'b', startsAt: '2027-03-06T05:00', depthM: 8, bottomMin: 20, mix: 'air' as const }];
    expect(codes(aLedger([aDive({ depthM: 25 })], party({ before })))).toContain(
      'deeper-than-the-one-before',
    );
  });

  it('knows the fifth dive of a day and the seventh day in a row', () => {
    const five = ['06:00', '09:00', '12:00', '15:00', '18:00'].map((time) =>
      aDive({ depthM: 9, startsAt: `2027-03-06T${time}` }),
    );
    expect(only('many-dives', aLedger(five))).toMatchObject({ severity: 'know', diveId: five[4]!.id });
    expect(codes(aLedger(five.slice(1)))).not.toContain('many-dives');
    expect(only('no-rest', aLedger(nineDaysBut(8))).message).toContain(
      '2027-03-07 is the 7th diving day in a row',
    );
    expect(codes(aLedger(nineDaysBut(4)))).not.toContain('no-rest');
  });
});

describe('before and after the trip', () => {
  it('stops a flight too soon and says until when one may dive', () => {
    const dives = [aDive(), aDive({ startsAt: '2027-03-06T12:00' })];
    const { flyAfterMin, entries } = aLedger(dives).divers[0]!;
    const soon = aLedger(dives, { flight: { at: '2027-03-07T06:20' } });
    expect(flyAfterMin).toBe(entries[1]!.surfacesMin + 18 * 60);
    expect(only('flight-too-soon', soon).message).toContain('be out of the water by 2027-03-06 at 12:20');
    const later = aLedger(dives, { flight: { at: '2027-03-07T06:26' } });
    expect(codes(later)).not.toContain('flight-too-soon');
    expect(only('flight-hours', later).message).toContain('even after 24 h');
  });

  it('takes 12 h after a single dive and 24 h after required stops', () => {
    const flight = { at: '2027-03-06T20:00' };
    expect(only('flight-too-soon', aLedger([aDive()], { flight })).message).toContain(
      '12 h after one no-stop dive',
    );
    const stops = aLedger([aDive({ depthM: 30, bottomMin: 45 })], { flight });
    expect(only('flight-too-soon', stops).message).toContain('24 h after a dive with required stops');
  });

  it('stops a climb to altitude soon after earlier dives', () => {
    const before = [
      { id: 'b', startsAt: '2027-03-05T10:00', depthM: 20, bottomMin: 30, mix: 'air' as const },
    ];
    const water = { density: 'fresh' as const, altitudeM: 1200 };
    const climb = (arrivedAt: string) => aLedger([aDive()], { water, ...party({ before, arrivedAt }) });
    expect(only('altitude-too-soon', climb('2027-03-05T15:00')).message).toContain('leave 12 h between them');
    expect(codes(climb('2027-03-05T23:00'))).not.toContain('altitude-too-soon');
  });

  it('counts the climb from the last of several earlier dives, 18 h', () => {
    const dive = { depthM: 20, bottomMin: 30, mix: 'air' as const };
    const before = [
      { ...dive, id: 'b1', startsAt: '2027-03-05T06:00' },
      { ...dive, id: 'b2', startsAt: '2027-03-05T11:00' },
    ];
    const water = { density: 'fresh' as const, altitudeM: 1200 };
    const later = aDive({ startsAt: '2027-03-07T08:00' });
    const climb = (arrivedAt: string) => aLedger([later], { water, ...party({ before, arrivedAt }) });
    expect(only('altitude-too-soon', climb('2027-03-06T05:00')).message).toContain('leave 18 h between them');
    expect(codes(climb('2027-03-06T05:40'))).not.toContain('altitude-too-soon');
  });

  it('stops where an earlier dive cannot be counted', () => {
    const before = [
      { id: 'b', startsAt: '2027-03-05T10:00', depthM: 39, bottomMin: 5, mix: 'auto' as const },
    ];
    const ledger = aLedger([aDive({ mix: 'rich' })], { mixes: [RICH], ...party({ before }) });
    const found = only('earlier-dive-without-mix', ledger);
    expect(found).toMatchObject({ severity: 'stop', diveId: null });
    expect(found.message).toContain('the dive to 39 m on 2027-03-05 at 10:00');
    expect(codes(aLedger([aDive()], party({ before })))).not.toContain('earlier-dive-without-mix');
  });
});

it('has a test that fires each rule', async () => {
  const { readFileSync } = await import('node:fs');
  const text = readFileSync(new URL(import.meta.url), 'utf8');
  const named = new Set(
    [...text.matchAll(/(?:only|of)\('([a-z0-9-]+)'|toContain\('([a-z0-9-]+)'\)/g)].flatMap((m) => [
      m[1],
      m[2],
    ]),
  );
  expect(RULES.map((rule) => rule.code).filter((code) => !named.has(code))).toEqual([]);
});
