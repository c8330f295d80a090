import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cautionsOf } from '../../core/cautions/all';
import { diverLedger, ledger } from '../../core/ledger/ledger';
import { roomOf } from '../../core/ledger/room';
import { momentInWater } from '../../core/ledger/straight-up';
import { timelineOf } from '../../core/ledger/timeline';
import { dayShareAt } from '../../core/oxygen/cns-day';
import type { Dive, Trip } from '../../core/document/types';
import { aDive, aDiver, aTrip } from '../builders/trip';
import { trips } from '../support/trip-arbitrary';

/** Nearer than points are ever wanted. */
const FINE = { waterMin: 0.05, surfaceMin: 0.05 };

/** The same document without a shared object, so that nothing can be taken over or looked up. */
function fresh(trip: Trip): Trip {
  return structuredClone(trip);
}

/** The shape of the data alone, as JSON sees it. */
function plain(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value));
}

const edits = fc.record({
  at: fc.nat(),
  kind: fc.constantFrom(
    'depth' as const,
    'remove' as const,
    'mix' as const,
    'as-dived' as const,
    'one-as-dived' as const,
    'turn' as const,
    'water' as const,
    'diver' as const,
  ),
  share: fc.double({ min: 0.3, max: 1, noNaN: true }),
});

function edited(trip: Trip, { at, kind, share }: { at: number; kind: string; share: number }): Trip {
  const index = at % trip.dives.length;
  const dive = trip.dives[index]!;
  const swapped = (next: Dive): Trip => ({ ...trip, dives: trip.dives.with(index, next) });
  switch (kind) {
    case 'depth': {
      const { legs: _, ...square } = dive;
      return swapped({ ...square, depthM: dive.depthM * share });
    }
    case 'remove':
      return trip.dives.length === 1 ? trip : { ...trip, dives: trip.dives.toSpliced(index, 1) };
    case 'mix':
      return swapped({ ...dive, mix: dive.mix === 'air' ? 'ean32' : 'air' });
    case 'as-dived':
      return swapped({ ...dive, asDived: [{ by: 'p0', depthM: dive.depthM * share }, { o2: 0.3 }] });
    case 'one-as-dived':
      return swapped({ ...dive, asDived: [{ by: 'p0', depthM: dive.depthM * share }] });
    case 'turn':
      return swapped({ ...dive, turnShare: share });
    case 'water':
      return { ...trip, water: { density: 'fresh', altitudeM: 500 } };
    default:
      return {
        ...trip,
        party: trip.party.with(at % trip.party.length, {
          ...trip.party[at % trip.party.length]!,
          gradient: { low: 0.3 * share, high: share },
        }),
      };
  }
}

describe('ledger', () => {
  it('taken up again after an edit equals the fold from scratch, to the last bit', () => {
    fc.assert(
      fc.property(trips(), fc.array(edits, { minLength: 1, maxLength: 4 }), (trip, changes) => {
        let current = trip;
        let known = ledger(current);
        for (const change of changes) {
          current = edited(current, change);
          known = ledger(current, known);
          expect(plain(known)).toEqual(plain(ledger(fresh(current))));
        }
      }),
      { numRuns: 150 },
    );
  });

  it('takes over every entry before the first change as the same object', () => {
    fc.assert(
      fc.property(trips({ dives: { min: 2, max: 8 } }), fc.nat(), (trip, at) => {
        const index = at % trip.dives.length;
        const before = ledger(trip);
        const after = ledger(edited(trip, { at: index, kind: 'depth', share: 0.5 }), before);
        after.divers.forEach((own, diver) => {
          own.entries.forEach((entry, i) => {
            if (i < index) expect(entry).toBe(before.divers[diver]!.entries[i]);
            if (i === index) expect(entry).not.toBe(before.divers[diver]!.entries[i]);
          });
        });
      }),
    );
  });

  it('of divers who dive alike is reckoned once: they leave each dive inside its limit with the very same carry', () => {
    fc.assert(
      fc.property(trips({ party: { min: 1, max: 1 } }), (trip) => {
        const [one] = trip.party;
        const { before: _, arrivedAt: __, ...rested } = one!;
        const dives = trip.dives.map(({ divers: ___, asDived: ____, ...dive }) => dive);
        // Another rate and another cylinder are nobody's nitrogen.
        const other = { ...rested, id: 'other', name: 'Other', surfaceRateLpm: rested.surfaceRateLpm + 1 };
        const { divers } = ledger(fresh({ ...trip, dives, party: [rested, other] }));
        // Required stops are each diver's own, by their gradients; from there on two carries are two.
        const own = divers[1]!.entries.findIndex(({ stops }) => stops !== null && stops.length > 0);
        divers[1]!.entries.slice(0, own === -1 ? undefined : own).forEach((entry, i) => {
          expect(entry.after).toBe(divers[0]!.entries[i]!.after);
        });
        expect(plain(divers[1]!.start)).toEqual(plain(divers[0]!.start));
      }),
    );
  });

  it('of one diver does not depend on who else is in the party', () => {
    fc.assert(
      fc.property(trips({ party: { min: 2, max: 4 } }), (trip) => {
        const together = ledger(fresh(trip));
        const reversed = ledger({ ...fresh(trip), party: fresh(trip).party.toReversed() });
        trip.party.forEach((_, index) => {
          const alone = fresh(trip);
          const own = diverLedger({ ...alone, party: [alone.party[index]!] }, alone.party[index]!);
          expect(plain(together.divers[index])).toEqual(plain(own));
          expect(plain(reversed.divers[trip.party.length - 1 - index])).toEqual(plain(own));
        });
      }),
      { numRuns: 60 },
    );
  });

  it('carries less nitrogen into a dive the longer the interval before it', () => {
    fc.assert(
      fc.property(
        trips({ dives: { min: 2, max: 2 }, party: { min: 1, max: 1 } }),
        fc.integer({ min: 1, max: 500 }),
        (trip, later) => {
          const [first, second] = trip.dives as [Dive, Dive];
          const day = second.startsAt.slice(0, 11);
          fc.pre(day === first.startsAt.slice(0, 11) && Number(second.startsAt.slice(11, 13)) < 14);
          const hours =
            Number(second.startsAt.slice(11, 13)) * 60 + Number(second.startsAt.slice(14)) + later;
          fc.pre(hours < 1440);
          const startsAt = `${day}${String(Math.floor(hours / 60)).padStart(2, '0')}:${String(hours % 60).padStart(2, '0')}`;
          const early = ledger(trip).divers[0]!;
          fc.pre(early.entries[0]!.isMade);
          const late = ledger({ ...trip, dives: [first, { ...second, startsAt }] }).divers[0]!;
          const rest = 0.79 * (early.entries[1]!.legs[0]!.fromBar - 0.0627);
          early.entries[1]!.tensionsBefore.forEach((tension, i) => {
            const waited = late.entries[1]!.tensionsBefore[i]!;
            // What is below rest after oxygen-rich gas comes back up to it instead.
            expect(Math.abs(waited - rest)).toBeLessThanOrEqual(Math.abs(tension - rest) + 1e-12);
          });
        },
      ),
    );
  });

  it('never gives a number that is not finite', () => {
    fc.assert(
      fc.property(trips(), (trip) => {
        // Who arrives at rest surfaced at no moment: that start alone, wherever it stands, is without a date.
        const { divers } = ledger(trip);
        const starts = new Set<unknown>(divers.map(({ start }) => start));
        const check = (value: unknown, path: string): void => {
          if (typeof value === 'number' && !Number.isFinite(value)) throw new Error(`${path} is ${value}`);
          if (Array.isArray(value)) value.forEach((each, i) => check(each, `${path}[${i}]`));
          else if (value !== null && typeof value === 'object') {
            for (const [key, each] of Object.entries(value)) {
              if (key !== 'atMin' || !starts.has(value)) check(each, `${path}.${key}`);
            }
          }
        };
        for (const own of divers) {
          check(own, '');
          for (const entry of own.entries) check(roomOf(trip, entry), '.room');
        }
      }),
      { numRuns: 100 },
    );
  });
});

describe('the 24 h clock of a dive', () => {
  it('is the highest that a walk through it meets, in weeks of dives at much the same hours', () => {
    const dive = fc.record({
      afterMin: fc.constantFrom(0, 15, 30, 45),
      depthM: fc.constantFrom(8, 10, 12, 14, 15, 16, 18, 22, 26, 30),
      bottomMin: fc.integer({ min: 15, max: 60 }),
      shallowMin: fc.option(fc.integer({ min: 5, max: 30 })),
      mix: fc.constantFrom('air', 'rich'),
    });
    const week = fc.array(fc.array(dive, { minLength: 4, maxLength: 4 }), { minLength: 2, maxLength: 4 });
    let met = 0;
    fc.assert(
      fc.property(week, fc.constantFrom(0.28, 0.32, 0.36), (days, o2) => {
        const dives = days.flatMap((each, day) =>
          each.map(({ afterMin, depthM, bottomMin, shallowMin, mix }, at) =>
            aDive({
              startsAt: `2027-03-0${6 + day}T${['07', '10', '14', '18'][at]}:${String(afterMin).padStart(2, '0')}`,
              depthM,
              bottomMin: bottomMin + (shallowMin ?? 0),
              mix,
              ...(shallowMin !== null && {
                legs: [
                  { depthM, min: bottomMin },
                  { depthM: 6, min: shallowMin },
                ],
              }),
            }),
          ),
        );
        const mixes = [
          { id: 'air', o2: 0.21, costPerFill: 0 },
          { id: 'rich', o2, costPerFill: 0 },
        ];
        const party = [aDiver({ po2: { working: 1.6, contingency: 1.6 } })];
        for (const { cns, from, exposure, startMin, surfacesMin } of ledger(aTrip(dives, { party, mixes }))
          .divers[0]!.entries) {
          const pieces = [...from.exposures, exposure!].flatMap((each) => each.pieces!);
          const steps = 300;
          let highest = 0;
          for (let step = 0; step <= steps; step += 1) {
            highest = Math.max(
              highest,
              dayShareAt(pieces, startMin + ((surfacesMin - startMin) * step) / steps),
            );
          }
          expect(cns.day).toBeGreaterThanOrEqual(highest - 1e-9);
          expect(cns.day).toBeLessThanOrEqual(highest + (surfacesMin - startMin) / steps / 150 + 1e-9);
          met += from.exposures.some((each) => each.startMin + 1440 < surfacesMin) ? 1 : 0;
        }
      }),
      { numRuns: 30 },
    );
    expect(met).toBeGreaterThan(100);
  });
});

describe('timelineOf', () => {
  it('meets the ledger at every start and surfacing, and runs in order to its end', () => {
    fc.assert(
      fc.property(trips({ dives: { min: 1, max: 6 }, party: { min: 1, max: 1 } }), (trip) => {
        const own = ledger(trip).divers[0]!;
        const made = own.entries.filter((entry) => entry.isMade);
        fc.pre(made.length > 0);
        const untilMin = made[made.length - 1]!.surfacesMin + 1000;
        const { points } = timelineOf(own, trip, untilMin, FINE);
        points.forEach((point, i) => {
          if (i > 0) expect(point.atMin).toBeGreaterThanOrEqual(points[i - 1]!.atMin - 1e-6);
        });
        expect(points[points.length - 1]!.atMin).toBeCloseTo(untilMin, 6);
        for (const [i, entry] of made.entries()) {
          // Stops that run into the next dive are cut there; a caution of its own tells of them.
          if ((made[i + 1]?.startMin ?? untilMin) < entry.surfacesMin) continue;
          const point = points.findLast(
            (each) => each.atMin <= entry.surfacesMin + 1e-6 && each.depthM === 0,
          )!;
          expect(point.atMin).toBeCloseTo(entry.surfacesMin, 6);
          expect(point.fractionOfLimit).toBeCloseTo(entry.leading.fractionOfLimit, 9);
          if (entry.cns.after !== null) expect(point.cns).toBeCloseTo(entry.cns.after, 9);
        }
      }),
      { numRuns: 80 },
    );
  });

  /** The only dive, on one level, as long as is wanted: a share of what its limit allows. */
  function lasting(trip: Trip, ofLimit: number): { readonly trip: Trip; readonly noStopMin: number } | null {
    const { legs: _, ...square } = trip.dives[0]!;
    const [entry] = ledger({ ...trip, dives: [square] }).divers[0]!.entries;
    const noStopMin = entry!.noStopMin;
    // Arriving past the limit there is no moment at which it is met, and a long one says nothing more.
    if (!entry!.isMade || noStopMin === null || noStopMin < 6 || noStopMin > 400) return null;
    return { trip: { ...trip, dives: [{ ...square, bottomMin: noStopMin * ofLimit }] }, noStopMin };
  }

  const single = trips({ dives: { min: 1, max: 1 }, party: { min: 1, max: 1 } });

  it('is at the limit on leaving the bottom when the no-stop time is up, and never before', () => {
    fc.assert(
      fc.property(single, (drawn) => {
        const just = lasting(drawn, 1);
        fc.pre(just !== null);
        const own = ledger(just.trip).divers[0]!;
        const [entry] = own.entries;
        const leavesMin = entry!.startMin + just.noStopMin;
        const { points } = timelineOf(own, just.trip, entry!.surfacesMin, FINE);
        const leaving = points.find((point) => Math.abs(point.atMin - leavesMin) < 1e-6)!;
        expect(leaving.fractionOfLimit).toBeCloseTo(1, 9);
        // A safety stop near the bottom of a shallow dive may take up more than it gives off: then it is to be adjusted.
        const isToAdjust = cautionsOf({ trip: just.trip, divers: [own] }).some(
          ({ code }) => code === 'stop-takes-up',
        );
        const highest = Math.max(...points.map(({ fractionOfLimit }) => fractionOfLimit));
        expect(isToAdjust).toBe(highest > 1 + 1e-9);
        const [dive] = just.trip.dives;
        const straight = { ...just.trip, dives: [{ ...dive!, safetyStop: null }] };
        const without = ledger(straight).divers[0]!;
        for (const point of timelineOf(without, straight, without.entries[0]!.surfacesMin, FINE).points) {
          expect(point.fractionOfLimit).toBeLessThan(1 + 1e-9);
        }
      }),
      { numRuns: 80 },
    );
  });

  it('crosses the limit at the no-stop minute of a dive that goes on, and tells no time left from there', () => {
    fc.assert(
      fc.property(single, fc.double({ min: 1.05, max: 1.6, noNaN: true }), (drawn, ofLimit) => {
        const past = lasting(drawn, ofLimit);
        fc.pre(past !== null);
        const own = ledger(past.trip).divers[0]!;
        const [entry] = own.entries;
        fc.pre(entry!.legs.length > 0);
        const meetsMin = entry!.startMin + past.noStopMin;
        const leavesMin = entry!.startMin + past.noStopMin * ofLimit;
        const { points } = timelineOf(own, past.trip, entry!.surfacesMin + 60, FINE);
        for (const point of points.filter(({ atMin }) => atMin <= leavesMin + 1e-6)) {
          if (point.atMin < meetsMin - 1e-6) expect(point.fractionOfLimit).toBeLessThan(1);
          if (point.atMin > meetsMin + 1e-6) expect(point.fractionOfLimit).toBeGreaterThan(1);
        }
        const meeting = momentInWater(entry!, past.trip, meetsMin)!;
        expect(meeting.fractionOfLimit).toBeCloseTo(1, 9);
        expect(meeting.stayMin).toBeLessThan(1e-6);
        const before = momentInWater(entry!, past.trip, meetsMin - 2)!;
        // A hair above the level, on the way down to it, another stay is asked for.
        if (before.depthM === meeting.depthM) expect(before.stayMin).toBeCloseTo(2, 6);
      }),
      { numRuns: 80 },
    );
  });

  it('has its points so near that the curve between them is no further from the line than the eye sees', () => {
    fc.assert(
      fc.property(trips({ dives: { min: 1, max: 3 }, party: { min: 1, max: 1 } }), (trip) => {
        const own = ledger(trip).divers[0]!;
        const made = own.entries.filter((entry) => entry.isMade);
        // Where the next dive begins under water, the points of both lie among each other.
        fc.pre(made.length > 0 && made.every(({ intervalMin }) => intervalMin === null || intervalMin >= 0));
        const { points } = timelineOf(own, trip, made.at(-1)!.surfacesMin, FINE);
        // The band is as high as what is drawn in it: of 150 pixels, half of one is a three-hundredth.
        const top = Math.max(1.1, ...points.map(({ fractionOfLimit }) => fractionOfLimit));
        for (const entry of made) {
          const inside = points.filter(
            ({ atMin, depthM }) => atMin > entry.startMin && atMin < entry.surfacesMin && depthM > 0,
          );
          inside.slice(1).forEach((point, i) => {
            const before = inside[i]!;
            if (point.atMin - before.atMin < 0.01) return;
            const middle = momentInWater(entry, trip, (point.atMin + before.atMin) / 2)!;
            const straight = (point.fractionOfLimit + before.fractionOfLimit) / 2;
            expect(Math.abs(middle.fractionOfLimit - straight)).toBeLessThan(top / 300);
          });
        }
      }),
      { numRuns: 100 },
    );
  });
});
