import { describe, expect, it } from 'vitest';
import { ledger } from '../../../../core/ledger/ledger';
import { momentInWater } from '../../../../core/ledger/straight-up';
import { hadYouStayed } from '../../../../core/ledger/had-you-stayed';
import { timelineOf } from '../../../../core/ledger/timeline';
import { roomOf } from '../../../../core/ledger/room';
import { entryWith, longer, shapeOf } from '../../../../core/ledger/changed-dive';
import type { Entry } from '../../../../core/ledger/ledger-types';
import type { Trip } from '../../../../core/document/types';
import { demoTrip } from '../../../../core/document/demo-trip';
import { stagedAscent } from '../../../../core/ascent/staged-ascent';
import { divePlan } from '../../../../core/ledger/dive-plan';
import { loopAround } from '../../../../core/ledger/loop-around';
import { runtimeMin, surroundingsOf } from '../../../../core/profile';
import { applyMap } from '../../../../core/tissues/affine-map';
import { breathedMap, PURE_NITROGEN } from '../../../../core/tissues/breathed-legs';
import { inspiredBar } from '../../../../core/tissues/compartments';
import { ambientBar, waterColumn } from '../../../../core/water';
import { aDive, aDiver, aTrip } from '../../../builders/trip';
import { A_LOOP, loopTrip } from '../../../support/loop-trip';

function alone(change: Partial<typeof A_LOOP> = {}, dive = {}): Trip {
  return aTrip([aDive({ loops: [{ by: 'guest-1' }], depthM: 30, bottomMin: 25, ...dive })], {
    party: [aDiver({ loop: { ...A_LOOP, ...change } })],
  });
}

function only(trip: Trip): Entry {
  return ledger(trip).divers[0]!.entries[0]!;
}

describe('a dive on a loop', () => {
  it('has the figures of open circuit on the mix that the setpoint is, where there is one level and no tolerance', () => {
    // At 30 m; the way down and up differ, so a long dive with fast ways is taken.
    const settings = {
      descentMPerMin: 30,
      ascentMPerMin: 18,
      gasLaw: 'ideal' as const,
      analysisTolerance: 0,
      loops: { toleranceBar: 0 },
    };
    const bar = inspiredBar(ambientBar(20, waterColumn({ density: 'gauge', altitudeM: 0 })));
    const held = 0.36 * bar;
    const setpoints = { lowBar: held, highBar: held, switchM: 0 };
    const trip = { ...alone({ setpoints }, { depthM: 20, bottomMin: 60 }), settings };
    const open = { ...aTrip([aDive({ depthM: 20, bottomMin: 60, mix: 'rich' })]), settings };
    const [onLoop, onMix] = [only(trip), only(open)];
    expect(onLoop.leading.fractionOfLimit).toBeCloseTo(onMix.leading.fractionOfLimit, 1);
    expect(Math.abs(onLoop.noStopMin! - onMix.noStopMin!)).toBeLessThan(4);
    // The clocks of open circuit take oxygen times ambient pressure, dry: 0.02 bar more here.
    expect(onMix.po2Bar! - onLoop.po2Bar!).toBeCloseTo(0.36 * 0.0627, 9);
  });

  it('has no figure of open circuit: no mix, no oxygen fraction, no gas of one cylinder, no MOD', () => {
    const { mix, o2, modM, eadM, gas, isMade, loop } = only(alone());
    expect([mix, o2, modM, eadM, gas.usedL, gas.endBar, gas.minimumBar]).toEqual(Array(7).fill(null));
    expect(isMade).toBe(true);
    expect(loop!.breathing).toMatchObject({ lowBar: 0.7, highBar: 1.2, switchM: 6, diluentO2: 0.21 });
  });

  it('leaves everybody else as they were', () => {
    const mixed = ledger(loopTrip()).divers.slice(1);
    const before = ledger(demoTrip()).divers.slice(1);
    mixed.forEach((each, i) => {
      expect(each.flyAfterMin).toBe(before[i]!.flyAfterMin);
      each.entries.forEach((entry, at) => {
        const { dive: _, from: __, ...figures } = entry;
        const { dive: ___, from: ____, ...open } = before[i]!.entries[at]!;
        expect(figures).toStrictEqual(open);
      });
    });
  });

  it('uses oxygen by the minute, diluent by going down, and the scrubber from dive to dive', () => {
    const trip = loopTrip();
    const [first, second] = ledger(trip).divers[0]!.entries as [Entry, Entry];
    const run = (entry: Entry) => runtimeMin(entry.legs);
    expect(first.loop!.oxygen.usedL).toBeCloseTo(run(first), 9);
    expect(first.loop!.oxygen.leftBar).toBeCloseTo(200 - run(first) / 3, 9);
    // A loop of 6 L is pressed together by the pressure of the depth, once.
    expect(first.loop!.diluentGas.usedL).toBeCloseTo(6 * 1019.7 * 9.80665e-5 * first.depthM, 9);
    expect(second.loop!.scrubber.usedMin).toBeCloseTo(run(first) + run(second), 9);
    expect(second.loop!.scrubber.leftMin).toBeCloseTo(180 - run(first) - run(second), 9);
    const fresh = ledger(loopTrip({}, { freshScrubber: true })).divers[0]!.entries[1]!;
    expect(fresh.loop!.scrubber.usedMin).toBeCloseTo(run(fresh), 9);
  });

  it('tells the room to what is along: scrubber, oxygen, bail-out', () => {
    const room = (change: Partial<typeof A_LOOP>, dive = {}) => {
      const trip = alone(change, dive);
      const entry = only(trip);
      return { ...roomOf(trip, entry), entry, trip };
    };
    const scrubber = room({ scrubberMin: 40 }, { depthM: 12 });
    expect(scrubber.minLimit).toBe('scrubber');
    const exact = entryWith(scrubber.trip, scrubber.entry, longer(shapeOf(scrubber.entry), scrubber.min!));
    expect(exact.loop!.scrubber.leftMin).toBeCloseTo(0, 9);
    const oxygen = room({ oxygenCylinder: { waterL: 2, fillBar: 60, reserveBar: 30 } }, { depthM: 12 });
    expect(oxygen.minLimit).toBe('oxygen');
    const last = entryWith(oxygen.trip, oxygen.entry, longer(shapeOf(oxygen.entry), oxygen.min!));
    expect(last.loop!.oxygen.leftBar).toBeCloseTo(30, 6);
    const little = [{ mix: 'air', cylinder: { waterL: 3, fillBar: 150, reserveBar: 20 } }];
    const short = room({ bailOut: little }, { bottomMin: 12 });
    expect([short.min, short.minLimit]).toEqual([null, 'bail-out']);
    expect(short.mLimit).toBe('bail-out');
    const shallower = roomOf(short.trip, short.entry).m!;
    expect(shallower).toBeLessThan(0);
  });

  it('has bail-out for the way up from the worst moment, and its MOD', () => {
    const { bailOut, bailOutModM, diluentModM } = only(alone({}, { bottomMin: 12 })).loop!;
    expect([bailOut!.fromM, bailOut!.atMin]).toEqual([30, 12]);
    expect(bailOut!.stops).toEqual([{ depthM: 5, min: 3 }]);
    // Twice the diver's rate: a minute at 30 m, up to 5 m, three minutes there, to the surface.
    const bar = (m: number) => ambientBar(m, waterColumn({ density: 'gauge', altitudeM: 0 }));
    const barMin =
      bar(30) + ((bar(30) + bar(5)) / 2) * (25 / 9) + 3 * bar(5) + ((bar(5) + bar(0)) / 2) * (5 / 9);
    expect(bailOut!.mixes[0]!.neededL).toBeCloseTo(24 * barMin, 6);
    expect(bailOut!.mixes[0]!.holdsL).toBeCloseTo(11.1 * 180, 9);
    expect(bailOutModM).toBeCloseTo(diluentModM, 9);
    expect(bailOutModM).toBeCloseTo(1.4 / 0.21 / 0.0999983 - 10.1327, 0);
  });

  it('loads the diver in the minute before the way up, so that its stops are those of leaving a minute later', () => {
    // Past its limit by so little that a minute on air more makes a stop longer.
    const stopsAt = (bottomMin: number): number => {
      const { bailOut } = only(alone({}, { bottomMin, depthM: 35 })).loop!;
      return bailOut!.stops.reduce((sum, { min }) => sum + min, 0);
    };
    const trip = alone({}, { bottomMin: 40, depthM: 35 });
    const entry = only(trip);
    const { stops, fromM } = entry.loop!.bailOut!;
    const column = waterColumn({ density: 'gauge', altitudeM: 0 });
    const bar = ambientBar(fromM, column);
    const wait = { kind: 'level' as const, fromM, toM: fromM, fromBar: bar, toBar: bar, min: 1 };
    const around = surroundingsOf(trip);
    const onAir = { ...around, breathing: { is: 'mixes' as const, mixes: [{ o2: 0.21, downToM: 100 }] } };
    const toLeaving = divePlan(shapeOf(entry), loopAround(around, entry.loop!.breathing)).toLeaving;
    const leaving = applyMap(toLeaving, entry.tensionsBefore, PURE_NITROGEN);
    const ways = [leaving, applyMap(breathedMap([wait], onAir.breathing), leaving, PURE_NITROGEN)].map(
      (held) => stagedAscent(held, fromM, PURE_NITROGEN, entry.diver.gradient, onAir),
    );
    expect(stops).toEqual(ways[1]);
    expect(ways[0]).not.toEqual(ways[1]);
    expect(stopsAt(41)).toBeGreaterThan(stopsAt(39));
  });

  it('has room until the bail-out is used up, where nothing else comes first', () => {
    const dive = { depthM: 18, bottomMin: 100, safetyStop: null };
    const withBailOut = (waterL: number): Trip =>
      alone(
        {
          scrubberMin: 600,
          oxygenCylinder: { waterL: 10, fillBar: 200, reserveBar: 30 },
          bailOut: [{ mix: 'air', cylinder: { waterL, fillBar: 200, reserveBar: 20 } }],
        },
        dive,
      );
    // Enough to go straight up, and for no stop: a minute of air takes the diver past the limit before the loop does.
    const { neededL } = only(withBailOut(11.1)).loop!.bailOut!.mixes[0]!;
    const trip = withBailOut((neededL + 1) / 180);
    const entry = only(trip);
    const { min, minLimit } = roomOf(trip, entry);
    expect(minLimit).toBe('bail-out');
    expect(entry.bottomMin + min!).toBeLessThan(entry.noStopMin!);
    const spare = (byMin: number): number =>
      entryWith(trip, entry, longer(shapeOf(entry), byMin)).loop!.bailOut!.spareL;
    expect(spare(min!)).toBeGreaterThanOrEqual(0);
    expect(spare(min! + 0.01)).toBeLessThan(0);
  });

  it('takes each bail-out mix as deep as it may be breathed, and more with stops', () => {
    const cylinder = { waterL: 11.1, fillBar: 200, reserveBar: 20 };
    const both = {
      bailOut: [
        { mix: 'rich', cylinder },
        { mix: 'air', cylinder },
      ],
    };
    const { bailOut } = only(alone(both)).loop!;
    expect(bailOut!.mixes.map(({ mix }) => mix.id)).toEqual(['rich', 'air']);
    // 36 % may be breathed from 28.7 m at 1.4 bar: most of the way.
    expect(bailOut!.mixes[0]!.neededL).toBeGreaterThan(2 * bailOut!.mixes[1]!.neededL * 0.5);
    const long = only(alone({}, { bottomMin: 90, depthM: 35 }));
    expect(long.isPastLimit).toBe(true);
    expect(long.loop!.bailOut!.stops.length).toBeGreaterThan(1);
    expect(long.loop!.bailOut!.spareL).toBeLessThan(only(alone({}, { depthM: 35 })).loop!.bailOut!.spareL);
  });

  it('carries on into the bands, a moment of the dive and a longer stay', () => {
    const trip = loopTrip();
    const [mine] = ledger(trip).divers;
    const [entry] = mine!.entries as [Entry];
    const { points } = timelineOf(mine!, trip, entry.surfacesMin + 60, { waterMin: 0.5, surfaceMin: 10 });
    const surfaced = points.find(({ atMin }) => Math.abs(atMin - entry.surfacesMin) < 1e-6)!;
    expect(surfaced.fractionOfLimit).toBeCloseTo(entry.leading.fractionOfLimit, 9);
    expect(surfaced.cns).toBeCloseTo(entry.cns.after!, 9);
    const moment = momentInWater(entry, trip, entry.startMin + entry.bottomMin)!;
    expect(moment.stayMin).toBeCloseTo(entry.noStopMin! - entry.bottomMin, 6);
    expect(hadYouStayed(entry, trip, 10_000, 100)!.limitInMin).toBeCloseTo(moment.stayMin, 6);
  });

  it('goes through its required stops on the loop too', () => {
    const trip = alone({}, { bottomMin: 90, depthM: 35 });
    const [mine] = ledger(trip).divers;
    const [entry] = mine!.entries as [Entry];
    expect(entry.stops!.length).toBeGreaterThan(1);
    const { breathing } = entry.loop!;
    const after = applyMap(breathedMap(entry.legs, breathing), entry.tensionsBefore, PURE_NITROGEN);
    after.forEach((tension, i) => expect(entry.after.tensions[i]).toBeCloseTo(tension, 9));
    expect(entry.leading.fractionOfLimit).toBeLessThanOrEqual(1 + 1e-6);
  });

  it('takes up again from an earlier ledger what the edit did not touch', () => {
    const trip = loopTrip();
    const before = ledger(trip);
    const changed = trip.dives.map((dive, at) =>
      at === 3 ? { ...dive, bottomMin: dive.bottomMin - 1 } : dive,
    );
    const after = ledger({ ...trip, dives: changed }, before);
    expect(after.divers[0]!.entries[2]).toBe(before.divers[0]!.entries[2]);
    expect(after.divers[0]!.entries).toEqual(ledger({ ...trip, dives: changed }).divers[0]!.entries);
  });
});
