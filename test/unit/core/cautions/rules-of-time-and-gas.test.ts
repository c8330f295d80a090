import { describe, expect, it } from 'vitest';
import type { Ledger } from '../../../../core/ledger/ledger-types';
import { aDive, aDiver, aLedger } from '../../../builders/trip';
import { said } from '../../../../core/words/said';
import { codes, only, party } from '../../../support/cautions';

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

  it('has a safety stop adjusted that is so near the bottom that the dive surfaces past the limit it keeps', () => {
    const careful = {
      ...party({ gradient: { low: 0.3, high: 0.3 } }),
      water: { density: 'gauge' as const, altitudeM: 2000 },
    };
    const stop = { depthM: 6, min: 10 };
    const at = (bottomMin: number, safetyStop: typeof stop | null) =>
      aLedger([aDive({ depthM: 6.1, bottomMin, safetyStop })], careful);
    const bottomMin = at(10, null).divers[0]!.entries[0]!.noStopMin!;
    const ledger = at(bottomMin, stop);
    const { isPastLimit, leading } = ledger.divers[0]!.entries[0]!;
    expect(isPastLimit).toBe(false);
    expect(leading.fractionOfLimit).toBeGreaterThan(1.02);
    const found = only('stop-takes-up', ledger);
    expect(found.severity).toBe('change');
    expect(found.message).toContain(`surfaces at ${Math.ceil(leading.fractionOfLimit * 100)} % of the limit`);
    expect(codes(at(bottomMin, null))).not.toContain('stop-takes-up');
    expect(codes(at(bottomMin, { depthM: 3, min: 3 }))).not.toContain('stop-takes-up');
    // Past the limit other cautions speak, also where no way up was found and the dive surfaces far beyond it.
    expect(codes(at(bottomMin + 30, stop))).not.toContain('stop-takes-up');
    const steep = aLedger(
      [
        aDive({
          depthM: 25,
          bottomMin: 37,
          legs: [
            { depthM: 25, min: 32 },
            { depthM: 4, min: 5 },
          ],
        }),
      ],
      party({ gradient: { low: 0.2, high: 0.36 } }),
    );
    expect(steep.divers[0]!.entries[0]!.leading.fractionOfLimit).toBeGreaterThan(1);
    expect(codes(steep)).not.toContain('stop-takes-up');
  });

  it('stops where an earlier level is past its own limit', () => {
    const legs = [
      { depthM: 36, min: 25 },
      { depthM: 6, min: 40 },
    ];
    const ledger = aLedger([aDive({ depthM: 36, bottomMin: 65, legs })]);
    const mostMin = Math.floor(ledger.divers[0]!.entries[0]!.levels[0]!.noStopMin!);
    expect(only('level-past-no-stop', ledger).message).toContain(
      `25 min at 36 m (at most ${mostMin} min) pass the no-stop limit of that level`,
    );
    const kept = [
      { depthM: 36, min: 8 },
      { depthM: 6, min: 40 },
    ];
    expect(codes(aLedger([aDive({ depthM: 36, bottomMin: 48, legs: kept })]))).not.toContain(
      'level-past-no-stop',
    );
  });

  it('measures the last of several levels by its own limit, and says where its arrival is past it', () => {
    const legs = (lastM: number) => [
      { depthM: 30, min: 14 },
      { depthM: lastM, min: 60 },
    ];
    const onLast = aLedger([aDive({ depthM: 30, bottomMin: 74, legs: legs(20) })]);
    const { levels, levelsPastLimitM } = onLast.divers[0]!.entries[0]!;
    expect(levelsPastLimitM).toEqual([]);
    const mostMin = Math.floor(levels[1]!.noStopMin!);
    expect(mostMin).toBeGreaterThan(1);
    expect(only('past-no-stop', onLast).message).toContain(
      `60 min on the last level, at 20 m, passes its no-stop limit of ${mostMin} min: shorten it to that`,
    );
    const over = [{ depthM: 36, min: 30 }, ...legs(20).slice(1)];
    expect(
      only('past-no-stop', aLedger([aDive({ depthM: 36, bottomMin: 90, legs: over })])).message,
    ).toContain('The no-stop limit is passed on arrival at the last level, at 20 m, already: stay shallower');
  });

  it('stops where the stops run into the next dive', () => {
    const ledger = aLedger([aDive({ depthM: 40, bottomMin: 60 }), aDive({ startsAt: '2027-03-06T09:10' })]);
    expect(only('stops-into-next-dive', ledger)).toMatchObject({
      severity: 'stop',
      diveId: ledger.trip.dives[1]!.id,
    });
    expect(codes(ledger)).not.toContain('short-interval');
  });

  it('changes deeper than the site goes, for everybody at once, also where no mix reaches', () => {
    const sites = [{ id: 'wall', name: 'Wall', depthM: 12, notes: '' }];
    const two = [aDiver(), aDiver({ id: 'guest-2', name: 'Guest 2' })];
    const deep = aLedger([aDive({ depthM: 36, bottomMin: 8 })], { sites, party: two });
    expect(only('deeper-than-site', deep)).toMatchObject({
      severity: 'change',
      diverId: null,
      source: said`common practice`,
      message:
        '36 m is deeper than Wall, which goes down to 12 m: plan the dive no deeper, choose the site that was meant, or mend the depth of this one.',
    });
    expect(codes(aLedger([aDive({ depthM: 12 })], { sites }))).not.toContain('deeper-than-site');
    const dived = aLedger([aDive({ depthM: 12, asDived: [{ depthM: 12.04 }] })], { sites });
    expect(only('deeper-than-site', dived).message).toBe(
      '12.1 m is deeper than Wall, which goes down to 12 m. It was dived so: if the site is as deep as that, mend its depth.',
    );
    const unmade = aLedger([aDive({ depthM: 80, mix: 'auto' })], { sites });
    expect(codes(unmade)).toEqual(expect.arrayContaining(['no-mix', 'deeper-than-site']));
  });

  it('changes a site that is not for a diver, by depth limit or by training', () => {
    const wall = { id: 'wall', name: 'Wall', depthM: 40, notes: '' };
    const at = (notFor: object, change: object) =>
      aLedger([aDive({ depthM: 18 })], { sites: [{ ...wall, notFor }], ...party(change) });
    const deep = at({ depthLimitUnderM: 30 }, { maxDepthM: 18 });
    expect(only('site-not-for-diver', deep)).toMatchObject({ severity: 'change' });
    expect(only('site-not-for-diver', deep).message).toBe(
      'Wall is for divers with a depth limit of 30 m or more; this diver’s is 18 m: leave the diver out, or choose another site.',
    );
    const trained = at({ certifications: ['Open water', 'junior'] }, { certification: 'open water, nitrox' });
    expect(only('site-not-for-diver', trained).message).toContain('Wall is not for open water, nitrox');
    for (const may of [
      at({ depthLimitUnderM: 30 }, { maxDepthM: 30 }),
      at({ certifications: ['open water'] }, { certification: 'advanced open water' }),
      at({ certifications: ['open water'] }, {}),
    ]) {
      expect(codes(may)).not.toContain('site-not-for-diver');
    }
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
