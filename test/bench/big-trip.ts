import type { Dive, Diver, Trip } from '../../core/document/types';
import { wallMin, wallText } from '../../core/words/calendar';

const FIRST_DAY_MIN = wallMin('2027-03-06T00:00');

/** A long, full trip of invented sites: dives over a fortnight, four a day, for a party with differing limits. */
export function bigTrip(diveCount: number, diverCount: number): Trip {
  const depths = [33, 27, 21, 15, 30, 24, 18, 12, 36, 26, 20, 14, 31, 23, 17, 13];
  // Inside the limits of most divers on 32 %, past what air would allow on some dives.
  const minutes = [14, 18, 26, 40, 16, 22, 32, 45, 12, 19, 28, 40, 15, 22, 33, 42];
  const starts = ['07:30', '10:45', '14:15', '18:30'];
  const dives: Dive[] = Array.from({ length: diveCount }, (_, index) => {
    const day = wallText(FIRST_DAY_MIN + Math.floor(index / 4) * 1440).slice(0, 10);
    const place = index % depths.length;
    return {
      id: `d${index + 1}`,
      siteId: `s${place}`,
      startsAt: `${day}T${starts[index % 4]}`,
      depthM: depths[place]!,
      bottomMin: minutes[place]!,
      mix: 'auto',
    };
  });
  const party: Diver[] = Array.from({ length: diverCount }, (_, index) => ({
    id: `p${index + 1}`,
    name: `Guest ${index + 1}`,
    surfaceRateLpm: 11 + (index % 5),
    cylinder: { waterL: index % 2 === 0 ? 15 : 12, fillBar: 220, reserveBar: 50 },
    maxDepthM: 40,
    maxO2: [0.4, 0.36, 0.32][index % 3]!,
    po2: { working: index % 4 === 3 ? 1.3 : 1.4, contingency: 1.6 },
    gradient: { low: 0.5, high: [0.85, 0.8, 0.75, 0.7][index % 4]! },
  }));
  return {
    format: 'carryover/trip',
    version: 3,
    title: 'A full fortnight',
    place: '',
    notes: '',
    water: { density: 'gauge', altitudeM: 0 },
    settings: { descentMPerMin: 18, ascentMPerMin: 9, gasLaw: 'ideal', analysisTolerance: 0 },
    party,
    sites: depths.map((depthM, index) => ({ id: `s${index}`, name: `Site ${index + 1}`, depthM, notes: '' })),
    mixes: [
      { id: 'air', o2: 0.21, costPerFill: 0 },
      { id: 'ean32', o2: 0.32, costPerFill: 8 },
    ],
    dives,
    flight: null,
  };
}
