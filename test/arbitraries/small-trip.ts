/** Random small trips that the schema would pass: what the mixes are searched on, over many shapes. */
import * as fc from 'fast-check';
import type { AsDived, Dive, Diver, EarlierDive, Mix, NotDived, Trip } from '../../core/document/types';
import type { Water } from '../../core/water';

const oneIn = (n: number) => fc.integer({ min: 1, max: n }).map((k) => k === 1);

/** The value once in so many times, else nothing. */
const rarely = <T>(n: number, value: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> =>
  oneIn(n).chain((isThere) => (isThere ? value : fc.constant(undefined)));

const earlierDive = fc
  .record({
    startsAt: fc.constantFrom('2027-03-03T15:10', '2027-03-04T10:10', '2027-03-04T20:00', '2027-03-05T04:30'),
    depthM: fc.integer({ min: 8, max: 35 }),
    o2: fc.constantFrom(0.21, 0.32),
  })
  .map((parts): EarlierDive => ({ id: 'before', bottomMin: 25, mix: 'auto', ...parts }));

const diver = (index: number) =>
  fc
    .record({
      rate: fc.integer({ min: 8, max: 22 }),
      later: rarely(4, fc.integer({ min: 8, max: 24 })),
      waterL: fc.constantFrom(10, 12, 15),
      maxDepthM: fc.constantFrom(30, 40, 40),
      maxO2: fc.constantFrom(0.28, 0.32, 0.36, 0.4),
      working: fc.constantFrom(1.3, 1.4, 1.5),
      high: fc.constantFrom(0.7, 0.8, 0.9),
      before: rarely(6, earlierDive),
    })
    .map(({ rate, later, waterL, maxDepthM, maxO2, working, high, before }): Diver => ({
      id: `p${index}`,
      name: `Guest ${index}`,
      surfaceRateLpm: rate,
      cylinder: { waterL, fillBar: 210, reserveBar: 50 },
      maxDepthM,
      maxO2,
      po2: { working, contingency: 1.6 },
      gradient: { low: 0.5, high },
      ...(later !== undefined && { rates: [{ from: '2027-03-06', surfaceRateLpm: later }] }),
      ...(before && { before: [before] }),
    }));

const asDived = (party: number): fc.Arbitrary<AsDived> =>
  fc.record(
    {
      by: fc.integer({ min: 0, max: party - 1 }).map((index) => `p${index}`),
      depthM: fc.integer({ min: 10, max: 34 }),
      bottomMin: fc.integer({ min: 10, max: 50 }),
      endBar: fc.integer({ min: 0, max: 200 }),
      o2: fc.constantFrom(0.21, 0.3, 0.33),
    },
    { requiredKeys: [] },
  );

const notDived = (party: number): fc.Arbitrary<NotDived> =>
  fc.record(
    { by: fc.integer({ min: 0, max: party - 1 }).map((index) => `p${index}`), reason: fc.constant('swell') },
    { requiredKeys: [] },
  );

const dive = (index: number, party: number, mixes: readonly Mix[]) =>
  fc
    .record({
      depthM: fc.integer({ min: 9, max: 40 }),
      minutes: fc.integer({ min: 8, max: 60 }),
      mix: fc.constantFrom('auto', 'auto', ...mixes.map((mix) => mix.id)),
      second: rarely(
        4,
        fc.record({ depthM: fc.integer({ min: 6, max: 15 }), min: fc.integer({ min: 6, max: 25 }) }),
      ),
      isPartial: oneIn(4),
      record: rarely(10, asDived(party)),
      missed: rarely(10, notDived(party)),
    })
    .map(({ depthM, minutes, mix, second, isPartial, record, missed }): Dive => {
      // Deep dives are mostly short, so that a good share of the trips can be kept inside the limits.
      const bottomMin = depthM > 20 ? Math.max(6, Math.round(minutes / 2)) : minutes;
      // Three dives a day, three hours and a half apart, so that even long stops rarely meet the next.
      const day = 5 + Math.floor(index / 3);
      const start = 450 + (index % 3) * 210;
      const clock = `${String(Math.floor(start / 60)).padStart(2, '0')}:${String(start % 60).padStart(2, '0')}`;
      const legs = second && [
        { depthM, min: bottomMin },
        { depthM: Math.min(second.depthM, depthM), min: second.min },
      ];
      return {
        id: `d${index}`,
        siteId: 's0',
        startsAt: `2027-03-${String(day).padStart(2, '0')}T${clock}`,
        depthM,
        bottomMin: legs ? bottomMin + legs[1]!.min : bottomMin,
        mix,
        ...(legs && { legs }),
        ...(isPartial && { divers: ['p0'] }),
        ...(record && { asDived: [record] }),
        ...(missed && !record && !isPartial && { notDived: [missed] }),
      };
    });

interface Elsewhere {
  readonly water: Partial<Water>;
  readonly from: string;
  readonly altitudeM: number;
}

/** Every other dive at a site with its own water, and a stay at another height between and over some of them. */
const elsewhere: fc.Arbitrary<Elsewhere> = fc.record({
  water: fc.constantFrom<Partial<Water>>(
    { altitudeM: 900 },
    { density: 'fresh' },
    { density: 'fresh', altitudeM: 2000 },
  ),
  from: fc.constantFrom('2027-03-05T09:00', '2027-03-05T20:00', '2027-03-06T18:00'),
  altitudeM: fc.constantFrom(0, 900, 2400),
});

function withElsewhere(trip: Trip, at: Elsewhere): Trip {
  const stay = {
    id: 'e',
    title: 'Up the road',
    from: at.from,
    to: '2027-03-06T19:00',
    altitudeM: at.altitudeM,
  };
  return {
    ...trip,
    sites: [...trip.sites, { id: 's1', name: 'Elsewhere', depthM: 40, notes: '', water: at.water }],
    dives: trip.dives.map((each, index) => (index % 2 === 1 ? { ...each, siteId: 's1' } : each)),
    events: [stay],
  };
}

/** A trip of up to three divers and six dives over two days, with whatever a trip may hold. */
export const smallTrip: fc.Arbitrary<Trip> = fc
  .record({
    divers: fc.integer({ min: 1, max: 3 }),
    dives: fc.integer({ min: 1, max: 6 }),
    altitudeM: fc.constantFrom(0, 0, 1500),
    gasLaw: fc.constantFrom('ideal', 'real'),
    analysisTolerance: fc.constantFrom(0, 0.01),
    price: fc.integer({ min: 0, max: 12 }),
    analysedO2: rarely(3, fc.constantFrom(0.311, 0.329)),
    other: rarely(4, elsewhere),
  })
  .chain(({ divers, dives, altitudeM, gasLaw, analysisTolerance, price, analysedO2, other }) => {
    const mixes: Mix[] = [
      { id: 'bottom', o2: 0.32, costPerFill: price, ...(analysedO2 !== undefined && { analysedO2 }) },
      { id: 'plain', o2: 0.21, costPerFill: 2 },
    ];
    return fc
      .record({
        party: fc.tuple(...Array.from({ length: divers }, (_, index) => diver(index))),
        dives: fc.tuple(...Array.from({ length: dives }, (_, index) => dive(index, divers, mixes))),
      })
      .map((parts): Trip => ({
        format: 'carryover/trip',
        version: 3,
        title: 'Random',
        place: '',
        notes: '',
        water: { density: 'gauge', altitudeM },
        settings: { descentMPerMin: 18, ascentMPerMin: 9, gasLaw: gasLaw, analysisTolerance },
        sites: [{ id: 's0', name: 'Anywhere', depthM: 40, notes: '' }],
        mixes,
        flight: null,
        ...parts,
      }))
      .map((trip) => (other === undefined ? trip : withElsewhere(trip, other)));
  });
