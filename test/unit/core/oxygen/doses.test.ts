import { describe, expect, it } from 'vitest';
import { cnsFraction } from '../../../../core/oxygen/cns';
import { dailyPieces } from '../../../../core/oxygen/cns-day';
import { oxygenDoses, sharedDoses, type KnownDoses } from '../../../../core/oxygen/doses';
import { esot } from '../../../../core/oxygen/esot';
import { otu } from '../../../../core/oxygen/otu';
import { legsOf, profileOf } from '../../../../core/profile';
import { waterColumn } from '../../../../core/water';

const AROUND = {
  column: waterColumn({ density: 'salt', altitudeM: 0 }),
  descentMPerMin: 18,
  ascentMPerMin: 9,
};
const legs = legsOf(profileOf({ depthM: 28, bottomMin: 40 }, AROUND));

describe('oxygenDoses', () => {
  it('are those of every clock by itself', () => {
    const pieces = dailyPieces(legs, 0.32, 500)!;
    expect(oxygenDoses(legs, 0.32, 500)).toEqual({
      cns: cnsFraction(legs, 0.32, 'single'),
      otu: otu(legs, 0.32),
      esot: esot(legs, 0.32),
      pieces,
      dailyShare: pieces.reduce((sum, { share }) => sum + share, 0),
    });
    expect(oxygenDoses(legs, 0.5, 500)).toMatchObject({ pieces: null, dailyShare: null });
  });
});

describe('sharedDoses', () => {
  it('are shared by all who ask the same, and by nobody who asks for another mix or another start', () => {
    const known: KnownDoses = new Map();
    const ask = (o2: number, startMin: number) => sharedDoses(known, legs, o2, startMin);
    const first = ask(0.32, 500);
    expect(ask(0.32, 500)).toBe(first);
    expect(ask(0.28, 500).otu).toBe(otu(legs, 0.28));
    expect(ask(0.32, 500)).toBe(first);
    expect(ask(0.32, 900)).toEqual(oxygenDoses(legs, 0.32, 900));
  });
});
