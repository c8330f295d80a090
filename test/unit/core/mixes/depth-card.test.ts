import { describe, expect, it } from 'vitest';
import type { Diver, Trip } from '../../../../core/document/types';
import { ledger } from '../../../../core/ledger/ledger';
import { depthCard } from '../../../../core/mixes/depth-card';
import { cardNotesSaid } from '../../../../core/mixes/depth-card-words';
import { usableModM } from '../../../../core/mixes/richest';
import { fileWords } from '../../../../core/words/reader';
import { surroundingsOf } from '../../../../core/profile';
import { aDive, aDiver, aTrip } from '../../../builders/trip';

const EAN32 = { id: 'm', o2: 0.32, costPerFill: 0 };
const tripOf = (party: readonly Diver[], change: Partial<Trip> = {}): Trip => ({
  ...aTrip([]),
  party,
  mixes: [EAN32],
  ...change,
});

describe('depthCard', () => {
  it('has for each depth what a first dive there has in the ledger', () => {
    const party = [aDiver()];
    const { rows } = depthCard(tripOf(party), EAN32, party, 'metric');
    expect(rows.map(({ depthM }) => depthM)).toEqual([12, 15, 18, 21, 24, 27, 30, 33, 36, 39]);
    for (const row of rows) {
      const trip = {
        ...aTrip([aDive({ depthM: row.depthM, bottomMin: 6, mix: 'm' })]),
        party,
        mixes: [EAN32],
      };
      const entry = ledger(trip).divers[0]!.entries[0]!;
      expect(row.po2Bar).toBeCloseTo(entry.po2Bar!, 12);
      expect(row.eadM).toBeCloseTo(entry.eadM!, 12);
      expect(row.densityGL).toBeCloseTo(entry.gasDensityGL!, 12);
      expect(row.noStopMin).toBeCloseTo(entry.noStopMin!, 9);
      expect(row.isPastMod).toBe(row.depthM > entry.modM!);
    }
  });

  it('is for the most careful of the divers, limit by limit', () => {
    const party = [
      aDiver({ id: 'a', gradient: { low: 0.4, high: 0.7 }, po2: { working: 1.4, contingency: 1.5 } }),
      aDiver({ id: 'b', gradient: { low: 0.5, high: 0.9 }, po2: { working: 1.3, contingency: 1.6 } }),
    ];
    const trip = tripOf(party);
    const both = depthCard(trip, EAN32, party, 'metric');
    expect(both.strictest.id).toBe('a');
    expect(both.workingBar).toBe(1.3);
    expect(both.modM).toBe(usableModM(EAN32, party[1]!, trip, surroundingsOf(trip)));
    const alone = party.map((diver) => depthCard(trip, EAN32, [diver], 'metric'));
    for (const [i, { noStopMin }] of both.rows.entries()) {
      expect(noStopMin).toBe(Math.min(...alone.map(({ rows }) => rows[i]?.noStopMin ?? Infinity)));
    }
    expect(both.contingencyM).toBe(alone[0]!.contingencyM);
  });

  it('counts the tolerance as more oxygen until the mix is analysed', () => {
    const party = [aDiver()];
    const settings = { ...aTrip([]).settings, analysisTolerance: 0.01 };
    const trip = tripOf(party, { settings });
    const open = depthCard(trip, EAN32, party, 'metric');
    const read = depthCard(trip, { ...EAN32, analysedO2: 0.32 }, party, 'metric');
    expect(open.modM).toBeLessThan(read.modM);
    expect(open.rows[0]!.po2Bar / read.rows[0]!.po2Bar).toBeCloseTo(0.33 / 0.32, 12);
    expect(open.rows[0]!.eadM).toBe(read.rows[0]!.eadM);
  });

  it('names who may not breathe it, and leaves their limits out of it', () => {
    const party = [
      aDiver({ id: 'a' }),
      aDiver({ id: 'b', maxO2: 0.21, gradient: { low: 0.2, high: 0.4 }, maxDepthM: 12 }),
    ];
    const card = depthCard(tripOf(party), EAN32, party, 'metric');
    expect(card.notFor.map(({ id }) => id)).toEqual(['b']);
    expect(card.strictest.id).toBe('a');
    const nobody = depthCard(tripOf(party), EAN32, [party[1]!], 'metric');
    expect(nobody.notFor).toHaveLength(1);
    expect(nobody.rows.length).toBeGreaterThan(0);
  });

  it('ends where nobody goes, above the MOD, and there has no row below it', () => {
    const party = [aDiver({ maxDepthM: 25 })];
    const card = depthCard(tripOf(party), EAN32, party, 'metric');
    expect(card.ownDepthM).toBe(25);
    expect(card.rows.at(-1)!.depthM).toBe(24);
  });

  it('says whose water its figures are for, where a site has another', () => {
    const party = [aDiver()];
    const told = (trip: Trip) =>
      fileWords(
        cardNotesSaid(depthCard(trip, EAN32, party, 'metric'), trip, true, {
          depth: (depth) => depth,
          name: (text) => `<${text}>`,
        }),
      );
    const one = tripOf(party);
    const [site] = one.sites;
    const tarn = { ...site!, id: 'tarn', name: 'Tarn', water: { altitudeM: 640 } };
    expect(told({ ...one, sites: [...one.sites, tarn] })).toContain(
      'For water as gauges are calibrated at 0 m, not for <Tarn>.',
    );
    expect(told(one)).not.toContain('not for');
  });
});
