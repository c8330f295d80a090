import { describe, expect, it } from 'vitest';
import { compareMixes, compareSites } from '../../../../core/mixes/compare';
import { mayBreathe } from '../../../../core/ledger/mix-choice';
import { depthCurves } from '../../../../core/mixes/depth-curve';
import { mixChoices } from '../../../../core/mixes/choice';
import { fileWords } from '../../../../core/words/reader';
import { richestMix, whyNot, whyNotSaid } from '../../../../core/mixes/richest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { ledger } from '../../../../core/ledger/ledger';
import type { Entry } from '../../../../core/ledger/ledger-types';
import { deepestLevel } from '../../../../core/ledger/level-limits';
import { roomMinutes } from '../../../../core/ledger/room';
import { surroundingsOf } from '../../../../core/profile';
import { aDive, aDiver, aTrip } from '../../../builders/trip';
import { loopTrip } from '../../../support/loop-trip';

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
  it('stays with the tightest dive where only some who come to it alike may take a mix', () => {
    const party = [aDiver({ id: 'lean', maxO2: 0.21 }), aDiver({ id: 'rich', maxO2: 0.4 })];
    const dives = [
      aDive({ depthM: 18, bottomMin: 44 }),
      aDive({ depthM: 26, bottomMin: 14, startsAt: '2027-03-08T08:00' }),
    ];
    const both = ledger(aTrip(dives, { party }));
    const [row] = compareSites(both, compareMixes(both.trip));
    expect(row!.tightest).toMatchObject({ depthM: 18, diver: { id: 'lean' } });
    // On 36 % the other dive would have less left.
    expect(row!.cells.map(({ o2, inTrip }) => [o2, inTrip?.depthM])).toEqual([
      [0.21, 18],
      [0.28, 18],
      [0.36, 18],
    ]);
  });

  const rows = compareSites(whole, compareMixes(trip, [40]));

  it('refuses a mix below its MOD and says for whom', () => {
    const deepest = rows.toSorted((a, b) => b.site.depthM - a.site.depthM)[0]!;
    const rich = deepest.cells.find((cell) => cell.o2 === 0.4)!;
    expect(rich.allowed).toBe(false);
    expect(fileWords(whyNotSaid(rich.whyNot!))).toMatch(/ceiling|MOD/);
    expect(rich.alone).toBeNull();
  });

  it('has in the trip what each mix gives on the tightest dive, one depth a site, or on another it may go on', () => {
    let seen = 0;
    for (const { site, cells, tightest } of rows) {
      const left = (entry: Entry) => limitOf(entry) - deepestLevel(entry.levels).min;
      const entries = whole.divers.flatMap((each) =>
        each.entries.filter(({ dive }) => dive.siteId === site.id),
      );
      const entry = entries.reduce((a, b) => (left(b) < left(a) ? b : a));
      expect(tightest).toMatchObject({ dive: entry.dive, diver: entry.diver, mix: entry.mix });
      for (const cell of cells.filter(({ inTrip }) => inTrip !== null)) {
        const may = mayBreathe(cell.mix, entry.dive.depthM, entry.diver, trip, surroundingsOf(trip));
        // What is not on board would change what the dives before it breathe.
        if (!may || !trip.mixes.includes(cell.mix)) continue;
        seen += 1;
        const dives = trip.dives.map((dive) =>
          dive.id === entry.dive.id ? { ...dive, mix: cell.mix.id } : dive,
        );
        const own = ledger({ ...trip, dives }).divers.find(({ diver }) => diver.id === entry.diver.id)!;
        const same = own.entries.find(({ dive }) => dive.id === entry.dive.id)!;
        expect(cell.inTrip!.min ?? Infinity).toBeCloseTo(limitOf(same), 9);
        expect(cell.inTrip!.depthM).toBe(deepestLevel(same.levels).depthM);
      }
    }
    expect(seen).toBeGreaterThan(12);
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

  it('uses each dive of each diver once: the richest that can be used there', () => {
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

describe('depthCurves', () => {
  const columns = compareMixes(trip);
  const curves = depthCurves(trip, columns, trip.party, 6, 40, 1);

  it('is the no-stop time of the comparison at each depth, for the tightest diver', () => {
    const rows = compareSites(ledger(trip), columns);
    let seen = 0;
    rows.forEach(({ site, cells }) =>
      cells.forEach((cell, at) => {
        const point = curves[at]!.points.find(({ depthM }) => depthM === site.depthM);
        if (!cell.allowed) return expect(point).toBeUndefined();
        seen += 1;
        return expect(point!.noStopMin).toBe(cell.alone!.min);
      }),
    );
    expect(seen).toBeGreaterThan(10);
  });

  it('falls with depth, is longer on a richer mix, and ends at the MOD', () => {
    for (const { points, modM } of curves) {
      points.forEach(({ noStopMin }, i) => {
        if (i > 0) expect(noStopMin ?? Infinity).toBeLessThanOrEqual(points[i - 1]!.noStopMin ?? Infinity);
      });
      expect(points.at(-1)!.depthM).toBe(Math.min(modM, 40));
    }
    const [air, , rich] = curves;
    rich!.points
      .slice(0, -1)
      .forEach(({ noStopMin }, i) =>
        expect(noStopMin ?? Infinity).toBeGreaterThan(air!.points[i]!.noStopMin ?? 1e9 - 1),
      );
    expect(depthCurves(trip, columns, trip.party, 60, 70, 1).every(({ points }) => points.length === 0)).toBe(
      true,
    );
  });
});

describe('the tightest visit of a site', () => {
  it('is the dive with the least left to the limit of its deepest level, on the mix it is on', () => {
    for (const { site, tightest } of compareSites(whole, compareMixes(trip))) {
      const left = whole.divers.flatMap(({ entries }) =>
        entries
          .filter(({ dive }) => dive.siteId === site.id)
          .map(({ levels }) => levels.reduce((a, b) => (b.depthM > a.depthM ? b : a)))
          .map(({ noStopMin, min }) => (noStopMin ?? Infinity) - min),
      );
      expect((tightest!.noStopMin ?? Infinity) - tightest!.min).toBe(Math.min(...left));
      expect(tightest!.dive.siteId).toBe(site.id);
    }
  });
  it('is none where nobody dives', () => {
    const [row] = compareSites(ledger({ ...trip, dives: [] }), compareMixes(trip));
    expect(row!.tightest).toBeNull();
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

  it('leaves out who makes the dive on a loop, whatever mix is chosen', () => {
    const onLoop = ledger(loopTrip());
    const [guide, ...others] = onLoop.divers.map(({ diver }) => diver.id);
    for (const choice of mixChoices(onLoop, onLoop.trip.dives[0]!.id)) {
      const ids = choice.divers.map(({ diverId }) => diverId);
      expect(ids).not.toContain(guide);
      expect(ids.every((id) => others.includes(id))).toBe(true);
      expect(choice.divers.every(({ entry }) => entry.mix === choice.mix)).toBe(true);
    }
  });

  it('knows no dive that is not there', () => {
    expect(mixChoices(whole, 'nowhere')).toEqual([]);
  });
});
