import { describe, expect, it } from 'vitest';
import { aDive, aLedger, AIR, LEAN, RICH } from '../../../builders/trip';
import { codes, only, party } from '../../../support/cautions';

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
    expect(found.message).toContain('Air and EAN36');
    const analysed = aLedger([aDive({ mix: 'rich' })], { mixes: [{ ...RICH, analysedO2: 0.355 }] });
    expect(codes(analysed)).not.toContain('mix-not-analysed');
  });

  it('names the densest of several dives, and every site once', () => {
    const dives = [
      aDive({ depthM: 34, bottomMin: 8 }),
      aDive({ depthM: 32, bottomMin: 5, startsAt: '2027-03-06T12:00' }),
      aDive({ depthM: 33, bottomMin: 5, startsAt: '2027-03-06T16:00', siteId: 'arch' }),
    ];
    const sites = ['Wall', 'Arch'].map((name) => ({ id: name.toLowerCase(), name, depthM: 40, notes: '' }));
    // 1.293 g/L * 4.4132: 5.68 up.
    expect(only('gas-dense', aLedger(dives, { sites })).message).toContain(
      'On 3 dives at Wall and Arch the gas is dense, up to 5.7 g/L at 34 m',
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
