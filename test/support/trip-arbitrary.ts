/** Random trips as wide as the trip file admits where the figures are concerned: for property tests and fixtures. */
import fc from 'fast-check';
import { runtimeMin, travelMin, surroundingsOf, type Level } from '../../core/profile';
import { wallMin, wallText } from '../../core/words/calendar';
import { newDivePlan } from '../../core/ledger/dive-plan';
import type { Dive, Diver, LoopGear, Mix, Trip, TripSettings } from '../../core/document/types';
import type { Water } from '../../core/water';

const MIXES: readonly Mix[] = [
  { id: 'air', o2: 0.21, costPerFill: 0 },
  { id: 'ean28', o2: 0.28, costPerFill: 4 },
  { id: 'ean32', o2: 0.32, costPerFill: 6 },
  { id: 'ean36', o2: 0.36, costPerFill: 8 },
];

export const tripWaters: fc.Arbitrary<Water> = fc.record({
  density: fc.oneof(
    fc.constantFrom('gauge' as const, 'salt' as const, 'fresh' as const),
    fc.integer({ min: 990, max: 1040 }),
  ),
  altitudeM: fc.oneof(
    { weight: 3, arbitrary: fc.constant(0) },
    { weight: 1, arbitrary: fc.integer({ min: 1, max: 3000 }) },
  ),
});

export const tripSettings: fc.Arbitrary<TripSettings> = fc.record({
  descentMPerMin: fc.constantFrom(10, 18, 25),
  ascentMPerMin: fc.constantFrom(5, 9, 10, 18),
  gasLaw: fc.constantFrom('ideal' as const, 'real' as const),
  analysisTolerance: fc.constantFrom(0, 0.01),
});

export const divers: fc.Arbitrary<Omit<Diver, 'id' | 'name'>> = fc.record({
  surfaceRateLpm: fc.integer({ min: 8, max: 30 }),
  cylinder: fc.record({
    waterL: fc.constantFrom(10, 12, 15, 18),
    fillBar: fc.constantFrom(200, 210, 232),
    reserveBar: fc.constantFrom(30, 50),
  }),
  maxDepthM: fc.constantFrom(30, 40, 50),
  maxO2: fc.constantFrom(0.32, 0.36, 0.4),
  po2: fc.constantFrom({ working: 1.4, contingency: 1.6 }, { working: 1.3, contingency: 1.5 }),
  gradient: fc
    .tuple(fc.integer({ min: 20, max: 100 }), fc.integer({ min: 20, max: 100 }))
    .map(([a, b]) => ({ low: Math.min(a, b) / 100, high: Math.max(a, b) / 100 })),
});

interface DiveDraw {
  readonly depthM: number;
  readonly extraMin: number;
  readonly levels: readonly { readonly depthM: number; readonly extraMin: number }[];
  readonly intervalMin: number;
  readonly mix: string;
  readonly stop: 'usual' | 'none' | 'long';
}

const depths = fc.double({ min: 3, max: 45, noNaN: true, noDefaultInfinity: true });
const minutes = fc.double({ min: 0.1, max: 70, noNaN: true, noDefaultInfinity: true });

const diveDraws: fc.Arbitrary<DiveDraw> = fc.record({
  depthM: depths,
  extraMin: minutes,
  levels: fc.oneof(
    { weight: 3, arbitrary: fc.constant([]) },
    {
      weight: 1,
      arbitrary: fc.array(fc.record({ depthM: depths, extraMin: minutes }), { minLength: 1, maxLength: 3 }),
    },
  ),
  intervalMin: fc.oneof(fc.integer({ min: 300, max: 600 }), fc.integer({ min: 300, max: 3000 })),
  mix: fc.constantFrom('auto', ...MIXES.map((mix) => mix.id)),
  stop: fc.constantFrom('usual' as const, 'usual' as const, 'none' as const, 'long' as const),
});

function diveOf(draw: DiveDraw, id: string, startMin: number, trip: Trip): Dive {
  const around = surroundingsOf(trip);
  const levels: Level[] = [];
  let fromM = 0;
  for (const { depthM, extraMin } of [draw, ...draw.levels]) {
    levels.push({ depthM, min: travelMin(fromM, depthM, around) + extraMin });
    fromM = depthM;
  }
  return {
    id,
    siteId: 'site',
    startsAt: wallText(startMin),
    depthM: Math.max(...levels.map((level) => level.depthM)),
    bottomMin: levels.reduce((sum, level) => sum + level.min, 0),
    mix: draw.mix,
    ...(draw.levels.length > 0 ? { legs: levels } : {}),
    ...(draw.stop === 'none' ? { safetyStop: null } : {}),
    ...(draw.stop === 'long' ? { safetyStop: { depthM: 6, min: 10 } } : {}),
  };
}

/** A trip of `count` dives for `party` divers; intervals are long enough that required stops rarely collide. */
export function trips(
  options: {
    readonly dives?: { min: number; max: number };
    readonly party?: { min: number; max: number };
  } = {},
): fc.Arbitrary<Trip> {
  const { dives = { min: 1, max: 10 }, party = { min: 1, max: 3 } } = options;
  return fc
    .record({
      water: tripWaters,
      settings: tripSettings,
      party: fc.array(divers, { minLength: party.min, maxLength: party.max }),
      draws: fc.array(diveDraws, { minLength: dives.min, maxLength: dives.max }),
    })
    .map(({ water, settings, party: people, draws }) => {
      const bare: Trip = {
        format: 'carryover/trip',
        version: 3,
        title: 'Random trip',
        place: '',
        notes: '',
        water,
        settings,
        party: people.map((diver, index) => ({ id: `p${index}`, name: `Guest ${index}`, ...diver })),
        sites: [{ id: 'site', name: 'Site', depthM: 30, notes: '' }],
        mixes: MIXES,
        dives: [],
        flight: null,
      };
      let atMin = wallMin('2027-03-01T06:00');
      const made: Dive[] = [];
      draws.forEach((draw, index) => {
        const dive = diveOf(draw, `d${index}`, Math.ceil(atMin), bare);
        made.push(dive);
        atMin =
          wallMin(dive.startsAt) +
          runtimeMin(newDivePlan(dive, surroundingsOf(bare)).legs) +
          draw.intervalMin;
      });
      return { ...bare, dives: made };
    });
}

/** Where else a trip may take its party: stays and a site with its own water. */
interface HeightDraw {
  readonly stays: readonly {
    readonly afterMin: number;
    readonly lastsMin: number;
    readonly altitudeM: number;
  }[];
  readonly tarn: Partial<Water>;
  readonly atTarn: readonly boolean[];
}

const heightDraws: fc.Arbitrary<HeightDraw> = fc.record({
  stays: fc.array(
    fc.record({
      afterMin: fc.integer({ min: 0, max: 2000 }),
      lastsMin: fc.integer({ min: 1, max: 3000 }),
      altitudeM: fc.integer({ min: 0, max: 3000 }),
    }),
    { minLength: 1, maxLength: 4 },
  ),
  tarn: fc.oneof(
    fc.record({ altitudeM: fc.integer({ min: 0, max: 3000 }) }),
    fc.record({ density: fc.constant('fresh' as const), altitudeM: fc.integer({ min: 0, max: 3000 }) }),
  ),
  atTarn: fc.array(fc.boolean(), { minLength: 12, maxLength: 12 }),
});

/** Trips in several waters, with stays at other heights between their dives and across them. */
export function highTrips(options: Parameters<typeof trips>[0] = {}): fc.Arbitrary<Trip> {
  return fc.tuple(trips(options), heightDraws).map(([trip, { stays, tarn, atTarn }]) => {
    let atMin = wallMin('2027-03-01T06:00');
    const events = stays.map(({ afterMin, lastsMin, altitudeM }, at) => {
      const fromMin = atMin + afterMin;
      atMin = fromMin + lastsMin;
      return { id: `e${at}`, title: `Stay ${at}`, from: wallText(fromMin), to: wallText(atMin), altitudeM };
    });
    return {
      ...trip,
      events,
      sites: [...trip.sites, { id: 'tarn', name: 'Tarn', depthM: 30, notes: '', water: tarn }],
      dives: trip.dives.map((dive, at) => (atTarn[at % 12] ? { ...dive, siteId: 'tarn' } : dive)),
    };
  });
}

const loopDraws = fc.record({
  highBar: fc.constantFrom(0.9, 1.1, 1.2, 1.3),
  switchM: fc.constantFrom(4, 6, 18),
  diluent: fc.constantFrom('air', 'ean28'),
  scrubberMin: fc.integer({ min: 40, max: 240 }),
  oxygenBar: fc.constantFrom(60, 120, 200),
  bailOutL: fc.constantFrom(2, 4, 11),
  bailOutRateLpm: fc.constantFrom(null, 30, 45),
  takes: fc.array(fc.record({ isOnLoop: fc.boolean(), isFresh: fc.boolean(), hasOwn: fc.boolean() }), {
    minLength: 10,
    maxLength: 10,
  }),
});

/** Random trips whose first diver makes most dives on a loop, which is tight in one thing or another. */
export function mixedTrips(options: Parameters<typeof trips>[0] = {}): fc.Arbitrary<Trip> {
  return fc.tuple(fc.oneof(trips(options), highTrips(options)), loopDraws).map(([trip, drawn]) => {
    const [first, ...others] = trip.party;
    const cylinder = (waterL: number, fillBar: number) => ({ waterL, fillBar, reserveBar: 20 });
    const loop: LoopGear = {
      setpoints: { lowBar: 0.7, highBar: drawn.highBar, switchM: drawn.switchM },
      diluent: drawn.diluent,
      oxygenCylinder: cylinder(2, drawn.oxygenBar),
      diluentCylinder: cylinder(2, 200),
      scrubberMin: drawn.scrubberMin,
      bailOut: [{ mix: 'air', cylinder: cylinder(drawn.bailOutL, 200) }],
      ...(drawn.bailOutRateLpm !== null && { bailOutRateLpm: drawn.bailOutRateLpm }),
    };
    const by = first!.id;
    return {
      ...trip,
      party: [{ ...first!, loop }, ...others],
      dives: trip.dives.map((dive, at): Dive => {
        const { isOnLoop, isFresh, hasOwn } = drawn.takes[at % drawn.takes.length]!;
        if (!isOnLoop || !(dive.divers?.includes(by) ?? true)) return dive;
        const own = { setpoints: { lowBar: 0.6, highBar: 1, switchM: 10 }, diluent: 'air' };
        return { ...dive, loops: [{ by, ...(isFresh && { freshScrubber: true }), ...(hasOwn && own) }] };
      }),
    };
  });
}
