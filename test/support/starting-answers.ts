/** Answers of the sheet for a new trip that lay out a week, changed where a test says so. */
import { startingSheet, type StartingAnswers, type StartingTrip } from '../../core/proposal/starting-sheet';
import { aDiver } from '../builders/trip';

export function answers(change: Partial<StartingAnswers> = {}): StartingAnswers {
  const site = (id: string, depthM: number) => ({ id, name: `Site ${id}`, depthM, notes: '' });
  return {
    title: 'A week',
    place: '',
    firstDay: '2027-03-06',
    nights: 7,
    times: ['07:30', '11:00', '15:00'],
    sites: [site('a', 12), site('b', 30), site('c', 18), site('d', 24)],
    party: [
      aDiver({ id: 'x', name: 'Guest 1' }),
      aDiver({ id: 'y', name: 'Guest 2', gradient: { low: 0.4, high: 0.7 } }),
    ],
    mixes: [{ id: 'ean32', o2: 0.32, costPerFill: 0 }],
    flight: '2027-03-13T15:00',
    water: { density: 'gauge', altitudeM: 0 },
    settings: { descentMPerMin: 18, ascentMPerMin: 9, gasLaw: 'ideal', analysisTolerance: 0 },
    longestMin: 50,
    depthUnit: 'm',
    night: null,
    rests: true,
    rising: false,
    cells: [],
    ...change,
  };
}

export function laidOut(change: Partial<StartingAnswers> = {}): StartingTrip {
  const result = startingSheet(answers(change));
  if (!result.ok) throw new Error(JSON.stringify(result.troubles));
  return result.value;
}
