import { describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { ledger } from '../../../../core/ledger/ledger';
import type { Trip } from '../../../../core/document/types';
import { secondOpinions } from '../../../../core/ledger/second-opinion';
import { opinionAsideSaid, opinionSaid } from '../../../../core/ledger/second-opinion-said';
import { pageReader, wordsOf } from '../../../../core/words/reader';
import { said } from '../../../../core/words/said';

/** Value and aside of a trip's first dive for its first diver. */
function first(trip: Trip, units: 'metric' | 'imperial' = 'metric'): string {
  const [own] = ledger(trip).divers;
  const [opinion] = secondOpinions(own!, trip);
  const aside = opinionAsideSaid(opinion!, own!.entries[0]!.isMade);
  return wordsOf(pageReader(units))(said`${opinionSaid(opinion!)}, ${aside}`);
}

describe('what the air table says', () => {
  const trip = demoTrip();
  const atM = (altitudeM: number): Trip => ({ ...trip, water: { ...trip.water, altitudeM } });

  it('is a figure, and whether the dive is within it', () => {
    expect(first(trip)).toMatch(/^\d+ of \d+ min, (within|past its limit)$/);
  });

  it('is nothing at altitude, where the aside says why', () => {
    expect(first(atM(1500))).toBe('–, holds up to 300 m above the sea');
    expect(first(atM(1500), 'imperial')).toBe('–, holds up to 984 ft above the sea');
  });

  it('is nothing where it is too deep for the table or nobody has a mix', () => {
    const only = (mix: string): Trip => ({
      ...trip,
      dives: [{ ...trip.dives[0]!, depthM: 90, mix }],
    });
    expect(first(only('air'))).toBe('–, deeper than it goes');
    expect(first(only('auto'))).toBe('–, no mix to look it up for');
  });
});
