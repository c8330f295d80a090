import { describe, expect, it } from 'vitest';
import { compareMixes, compareSites, shareCurve } from '../../../../core/mixes/compare';
import { mixChoices } from '../../../../core/mixes/choice';
import { fileWords } from '../../../../core/words/reader';
import { richestMix, whyNot, whyNotSaid } from '../../../../core/mixes/richest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { ledger } from '../../../../core/ledger/ledger';
import type { Entry } from '../../../../core/ledger/ledger-types';
import { deepestLevel } from '../../../../core/ledger/level-limits';
import { roomMinutes } from '../../../../core/ledger/room';
import { surroundingsOf } from '../../../../core/profile';
import { aDive, aTrip } from '../../../builders/trip';

const trip = demoTrip();
const whole = ledger(trip);
const around = surroundingsOf(trip);

describe('compareMixes', () => {
  it('has air, what is on board and what is typed in, leanest first and each once', () => {
    const columns = compareMixes(trip, [30.5, 32]).map((mix) => mix.o2);
    expect(columns).toEqual(columns.toSorted((a, b) => a - b));
    expect(columns).toContain(0.21);
    expect(columns).toContain(0.305);
    expect(new Set(columns).size).toBe(columns.length);
  });
  it('adds air where it is not on board', () => {
    const noAir = { ...trip, mixes: trip.mixes.filter((mix) => mix.o2 !== 0.21) };
    expect(compareMixes(noAir)[0]!.o2).toBe(0.21);
  });
});

/** The no-stop time of a dive at its deepest level. */
function limitOf({ levels }: Entry): number {
  return deepestLevel(levels).noStopMin ?? Infinity;
}

describe('compareSites', () => {
  const rows = compareSites(whole, compareMixes(trip, [40]));

  it('refuses a mix below its MOD and says for whom', () => {
    const deepest = rows.toSorted((a, b) => b.site.depthM - a.site.depthM)[0]!;
    const rich = deepest.cells.find((cell) => cell.o2 === 0.4)!;
    expect(rich.allowed).toBe(false);
    expect(fileWords(whyNotSaid(rich.whyNot!))).toMatch(/ceiling|MOD/);
    expect(rich.alone).toBeNull();
  });

  it('has in the trip the least of the entries on that mix', () => {
    for (const row of rows) {
      for (const cell of row.cells.filter((each) => typeof each.inTrip?.min === 'number')) {
        const entries = whole.divers.flatMap((each) => each.entries);
        const onIt = entries.filter((entry) => entry.dive.siteId === row.site.id && entry.o2 === cell.o2);
        for (const entry of onIt) expect(limitOf(entry)).toBeGreaterThanOrEqual(cell.inTrip!.min! - 1e-9);
        if (onIt.length === 0) continue;
        const all = entries.filter((entry) => entry.dive.siteId === row.site.id);
        if (onIt.length < all.length) continue;
        expect(Math.min(...onIt.map(limitOf))).toBeCloseTo(cell.inTrip!.min!, 9);
        const tightest = onIt.find((entry) => Math.abs(limitOf(entry) - cell.inTrip!.min!) < 1e-9)!;
        expect(cell.inTrip!.depthM).toBe(tightest.depthM);
      }
    }
  });

  it('says in the trip at which depth a dive is whose time it gives, and gains on that very dive', () => {
    const shallow = aDive({ id: 'a', startsAt: '2027-03-06T08:00', depthM: 15, bottomMin: 30 });
    const later = aDive({ id: 'b', startsAt: '2027-03-07T08:00', depthM: 12, bottomMin: 30 });
    const made = aTrip([shallow, later], { sites: [{ id: 'wall', name: 'Wall', depthM: 18, notes: '' }] });
    const [row] = compareSites(ledger(made), compareMixes(made));
    const [air, lean] = row!.cells;
    const [first] = ledger(made).divers[0]!.entries;
    expect(air!.inTrip).toEqual({ min: first!.noStopMin, unlimited: false, depthM: 15 });
    expect(air!.alone!.min!).toBeLessThan(air!.inTrip!.min! - 15);
    const onLean = ledger({ ...made, dives: [{ ...shallow, mix: 'lean' }, later] }).divers[0]!.entries[0]!;
    expect(lean!.inTrip!.depthM).toBe(15);
    expect(lean!.inTripGainMin!).toBeCloseTo(onLean.noStopMin! - first!.noStopMin!, 9);
  });

  it('gains nothing on air by air, and more time with more oxygen', () => {
    for (const { cells } of rows) {
      expect(cells[0]!.o2).toBe(0.21);
      expect(cells[0]!.aloneGainMin).toBe(0);
      const times = cells.flatMap((cell) => (typeof cell.alone?.min === 'number' ? [cell.alone.min] : []));
      expect(times).toEqual(times.toSorted((a, b) => a - b));
    }
  });

  it('uses each dive of each diver once: the richest that may go there', () => {
    for (const { cells, diveIds } of compareSites(whole, compareMixes(trip), trip.party[0]!.id)) {
      expect(cells.flatMap((cell) => cell.usedOn).toSorted()).toEqual([...diveIds].toSorted());
    }
  });

  it('is never better for the party than for one of them', () => {
    const party = compareSites(whole, compareMixes(trip));
    for (const { id } of trip.party) {
      compareSites(whole, compareMixes(trip), id).forEach((row, at) => {
        row.cells.forEach((cell, column) => {
          const other = party[at]!.cells[column]!;
          if (cell.alone === null || other.alone === null) return;
          expect(other.alone.min ?? Infinity).toBeLessThanOrEqual(cell.alone.min ?? Infinity);
        });
      });
    }
  });

  it('has no figure of a dive where there is none', () => {
    const site = { id: 'new', name: 'Nobody yet', depthM: 20, notes: '' };
    const row = compareSites(ledger({ ...trip, sites: [site, ...trip.sites] }), compareMixes(trip))[0]!;
    expect(row.diveIds).toEqual([]);
    expect(row.cells[0]).toMatchObject({ inTrip: null, cns: null, otu: null, usedOn: [] });
    expect(row.cells[0]!.alone!.min).toBeGreaterThan(20);
  });
});

describe('richestMix', () => {
  const diver = { ...trip.party[0]!, maxO2: 0.4, po2: { working: 1.4, contingency: 1.6 } };
  it('gives the analysis tolerance away, and never passes the ceiling', () => {
    const careful = { ...trip, settings: { ...trip.settings, analysisTolerance: 0.01 } };
    const plain = richestMix(
      30,
      diver,
      { ...trip, settings: { ...trip.settings, analysisTolerance: 0 } },
      around,
    );
    expect(richestMix(30, diver, careful, around).o2).toBeCloseTo(plain.o2 - 0.01, 12);
    expect(richestMix(10, diver, trip, around)).toMatchObject({ percent: 40, limit: 'ceiling' });
  });
  it('says when not even air reaches', () => {
    expect(richestMix(60, diver, trip, around).reachesWithAir).toBe(false);
    expect(richestMix(50, diver, trip, around).reachesWithAir).toBe(true);
  });
  it('agrees with whyNot on every whole percent and depth', () => {
    for (let depthM = 5; depthM <= 50; depthM += 1) {
      const { percent } = richestMix(depthM, diver, trip, around);
      for (let share = 21; share <= 41; share += 1) {
        const reason = whyNot({ id: 'x', o2: share / 100, costPerFill: 0 }, depthM, diver, trip, around);
        expect(reason === null).toBe(share <= percent);
      }
    }
  });
});

describe('shareCurve', () => {
  it('rises with oxygen in time and falls in MOD', () => {
    const points = shareCurve(trip, 24, trip.party, [21, 25, 30, 35, 40]);
    const times = points.map((point) => point.noStopMin ?? Infinity);
    expect(times).toEqual(times.toSorted((a, b) => a - b));
    const mods = points.map((point) => point.modM);
    expect(mods).toEqual(mods.toSorted((a, b) => b - a));
  });
  it('is of the share itself, whatever a mix on board was analysed as', () => {
    const analysed = { ...trip, mixes: trip.mixes.map((mix) => ({ ...mix, analysedO2: mix.o2 - 0.02 })) };
    expect(shareCurve(analysed, 24, trip.party, [28, 32])).toEqual(
      shareCurve(trip, 24, trip.party, [28, 32]),
    );
  });
});

describe('mixChoices', () => {
  const entriesOf = (id: string) =>
    whole.divers.flatMap((each) => each.entries.filter((entry) => entry.dive.id === id));
  // A dive early enough to matter later, on which everybody breathes the same.
  const dive = trip.dives.find(({ id }, index) => {
    const mixes = new Set(entriesOf(id).map((entry) => entry.mix?.id));
    return index >= 4 && mixes.size === 1 && entriesOf(id)[0]!.o2! > 0.21;
  })!;
  const choices = mixChoices(whole, dive.id);

  it('has every mix on board, each as the ledger would have it', () => {
    expect(choices.map((choice) => choice.mix.o2)).toEqual(trip.mixes.map((mix) => mix.o2).toSorted());
    for (const choice of choices) {
      const dives = trip.dives.map((each) => (each.id === dive.id ? { ...each, mix: choice.mix.id } : each));
      const again = ledger({ ...trip, dives });
      for (const { diverId, entry, room } of choice.divers) {
        const mine = again.divers.find((each) => each.diver.id === diverId)!;
        const same = mine.entries.find((each) => each.dive.id === dive.id)!;
        expect(entry.noStopMin).toBe(same.noStopMin);
        expect(room).toEqual(roomMinutes(again.trip, same));
      }
    }
  });

  it('changes nothing later where the mix stays, and less room later with air', () => {
    const same = choices.find((choice) => choice.mix.id === entriesOf(dive.id)[0]!.mix!.id)!;
    expect(same.later).toEqual([]);
    const air = choices[0]!;
    expect(air.mix.o2).toBe(0.21);
    expect(air.later.length).toBeGreaterThan(0);
    for (const change of air.later) {
      expect(trip.dives.indexOf(change.dive)).toBeGreaterThan(trip.dives.indexOf(dive));
    }
  });

  it('knows no dive that is not there', () => {
    expect(mixChoices(whole, 'nowhere')).toEqual([]);
  });
});
