/** What the rules of schema, references and dive times find in a file, told together by `readTrip`. */
import { describe, expect, it } from 'vitest';
import { broken, troublesOf } from '../../../support/broken-trip';
import { tenDives, type Loose } from '../../../support/trip-documents';

describe('readTrip, mistakes in a trip', () => {
  const cases: readonly [string, (document: Loose) => void, string, RegExp][] = [
    [
      'depth 0',
      (d) => (d.dives[8].depthM = 0),
      'dives[8].depthM (dive "d9")',
      /Depth is 0 m; it can be 1 to 100 m/,
    ],
    ['depth below 0', (d) => (d.dives[8].depthM = -5), 'dives[8].depthM (dive "d9")', /Depth is -5 m/],
    ['depth 1000', (d) => (d.dives[8].depthM = 1000), 'dives[8].depthM (dive "d9")', /Depth is 1000 m/],
    [
      'depth as text',
      (d) => (d.dives[8].depthM = '18'),
      'dives[8].depthM (dive "d9")',
      /the text "18", not a number/,
    ],
    ['no depth', (d) => delete d.dives[8].depthM, 'dives[8].depthM (dive "d9")', /Depth is missing/],
    ['depth null', (d) => (d.dives[8].depthM = null), 'dives[8].depthM (dive "d9")', /Depth is null/],
    [
      'no time for the descent',
      (d) => Object.assign(d.dives[0], { depthM: 36, bottomMin: 1.9 }),
      'dives[0].bottomMin (dive "d1")',
      /1.9 min are over before 36 m is reached: the way there takes 2 min/,
    ],
    [
      'a level below its site',
      (d) => (d.sites[0].levels = [{ depthM: 22, min: 10 }]),
      'sites[0].levels[0].depthM (site "s")',
      /level at 22 m is deeper than its site, 20 m/,
    ],
    ['no levels', (d) => (d.sites[0].levels = []), 'sites[0].levels (site "s")', /Levels: the list is empty/],
    [
      'a group that enters at two times',
      (d) => d.party.forEach((diver: Loose, at: number) => (diver.group = { name: 'B', afterMin: 10 * at })),
      'party[1].group.afterMin (diver "b")',
      /The group "B" enters at two times/,
    ],
    [
      'a group hours late',
      (d) => (d.party[0].group = { name: 'B', afterMin: 600 }),
      'party[0].group.afterMin (diver "a")',
      /Entry after the first is 600 min/,
    ],
    [
      'a site for nobody that is trained to nothing',
      (d) => (d.sites[0].notFor = { certifications: [] }),
      'sites[0].notFor.certifications (site "s")',
      /Certifications: the list is empty/,
    ],
    ['oxygen 0', (d) => (d.mixes[0].o2 = 0), 'mixes[0].o2 (mix "m")', /Oxygen is 0; it can be 0.2 to 1/],
    ['oxygen 0.05', (d) => (d.mixes[0].o2 = 0.05), 'mixes[0].o2 (mix "m")', /Oxygen is 0.05/],
    ['oxygen 1.2', (d) => (d.mixes[0].o2 = 1.2), 'mixes[0].o2 (mix "m")', /Oxygen is 1.2/],
    ['oxygen in percent', (d) => (d.mixes[0].o2 = 32), 'mixes[0].o2 (mix "m")', /Oxygen is 32/],
    ['an id missing', (d) => delete d.party[1].id, 'party[1].id', /Id is missing/],
    ['an id empty', (d) => (d.dives[9].id = ' '), 'dives[9].id', /Id is empty/],
    [
      'an id doubled',
      (d) => (d.dives[3].id = 'd1'),
      'dives[3].id (dive "d1")',
      /"d1" is taken already by dives\[0\]/,
    ],
    [
      'a diver doubled',
      (d) => (d.party[1].id = 'a'),
      'party[1].id (diver "a")',
      /taken already by party\[0\]/,
    ],
    [
      'an unknown site',
      (d) => (d.dives[2].siteId = 'q'),
      'dives[2].siteId (dive "d3")',
      /There is no site "q"/,
    ],
    ['an unknown mix', (d) => (d.dives[2].mix = 'q'), 'dives[2].mix (dive "d3")', /There is no mix "q"/],
    [
      'an unknown diver',
      (d) => (d.dives[2].divers = ['a', 'q']),
      'dives[2].divers[1] (dive "d3")',
      /There is no diver "q"/,
    ],
    [
      'a diver named twice',
      (d) => (d.dives[2].divers = ['a', 'a']),
      'dives[2].divers[1] (dive "d3")',
      /listed twice/,
    ],
    ['nobody on a dive', (d) => (d.dives[2].divers = []), 'dives[2].divers (dive "d3")', /the list is empty/],
    [
      'a mix called auto',
      (d) => d.mixes.push({ id: 'auto', o2: 0.3 }),
      'mixes[1].id (mix "auto")',
      /stands for the choice/,
    ],
    [
      'dives that overlap',
      (d) => (d.dives[1].startsAt = '2027-03-06T07:50'),
      'dives[1].startsAt (dive "d2")',
      /while the party surfaces from "d1" at 2027-03-06T08:10/,
    ],
    [
      'dives in disorder',
      (d) => (d.dives[5].startsAt = '2027-03-05T07:50'),
      'dives[5].startsAt (dive "d6")',
      /before the dive listed ahead of it/,
    ],
    [
      'a day that does not exist',
      (d) => (d.dives[0].startsAt = '2027-02-30T07:30'),
      'dives[0].startsAt (dive "d1")',
      /does not exist in the calendar/,
    ],
    ['an hour that does not exist', (d) => (d.flight.at = '2027-03-10T24:30'), 'flight.at', /does not exist/],
    ['a leap day that is none', (d) => (d.flight.at = '2027-02-29T12:30'), 'flight.at', /does not exist/],
    ['a date without time', (d) => (d.flight.at = '2027-03-10'), 'flight.at', /not a date and time/],
    ['a time with a zone', (d) => (d.flight.at = '2027-03-10T15:00Z'), 'flight.at', /not a date and time/],
    [
      'a flight years later',
      (d) => (d.flight.at = '2029-03-10T15:00'),
      'flight.at',
      /735 days after the first/,
    ],
    ['an empty party', (d) => (d.party = []), 'party', /the list is empty/],
    ['no mixes', (d) => (d.mixes = []), 'mixes', /nothing to breathe/],
    ['no list of dives', (d) => (d.dives = {}), 'dives', /Dives is an object, not a list/],
    ['a dive that is null', (d) => (d.dives[4] = null), 'dives[4]', /Dive is null/],
    [
      'water of lead',
      (d) => (d.water = { density: 11340 }),
      'water.density',
      /Water density is 11340 kg\/m³/,
    ],
    ['water by name', (d) => (d.water = { density: 'brackish' }), 'water.density', /the text "brackish"/],
    ['a mountain', (d) => (d.water = { altitudeM: 9000 }), 'water.altitudeM', /Altitude is 9000 m/],
    ['a gas law', (d) => (d.settings = { gasLaw: 'true' }), 'settings.gasLaw', /Gas law is the text "true"/],
    [
      'an ascent rate',
      (d) => (d.settings = { ascentMPerMin: 60 }),
      'settings.ascentMPerMin',
      /Ascent rate is 60 m\/min/,
    ],
    [
      'gradients crossed',
      (d) => (d.party[0].gradient = { low: 0.9, high: 0.8 }),
      'party[0].gradient (diver "a")',
      /low gradient factor is above/,
    ],
    [
      'a low gradient above the default',
      (d) => (d.party[0].gradient = { low: 0.85 }),
      'party[0].gradient (diver "a")',
      /low gradient factor is above/,
    ],
    [
      'PO2 limits crossed',
      (d) => (d.party[0].po2 = { working: 1.5, contingency: 1.4 }),
      'party[0].po2 (diver "a")',
      /above the contingency/,
    ],
    [
      'a reserve above the fill',
      (d) => (d.party[0].cylinder.reserveBar = 200),
      'party[0].cylinder.reserveBar (diver "a")',
      /leaves nothing/,
    ],
    [
      'no cylinder',
      (d) => delete d.party[0].cylinder,
      'party[0].cylinder (diver "a")',
      /Cylinder is missing/,
    ],
    [
      'levels that are not as deep',
      (d) => (d.dives[0].legs = [{ depthM: 16, min: 35 }]),
      'dives[0].depthM (dive "d1")',
      /the deepest level is 16 m/,
    ],
    [
      'levels that are not as long',
      (d) => (d.dives[0].legs = [{ depthM: 18, min: 30 }]),
      'dives[0].bottomMin (dive "d1")',
      /the levels take 30 min/,
    ],
    [
      'a level shorter than the way',
      (d) =>
        (d.dives[0].legs = [
          { depthM: 18, min: 34.5 },
          { depthM: 9, min: 0.5 },
        ]),
      'dives[0].legs[1].min (dive "d1")',
      /0.5 min are over before 9 m/,
    ],
    ['no levels', (d) => (d.dives[0].legs = []), 'dives[0].legs (dive "d1")', /the list is empty/],
    [
      'a stop below the dive',
      (d) => (d.dives[0].safetyStop = { depthM: 20, min: 3 }),
      'dives[0].safetyStop.depthM (dive "d1")',
      /not above the last level/,
    ],
    [
      'a late dive run into the next',
      (d) => (d.dives[0].asDived = [{ by: 'b', startsAt: '2027-03-06T10:00' }]),
      'dives[1].startsAt (dive "d2")',
      /while Guest b surfaces from "d1"/,
    ],
    [
      'an earlier dive during the trip',
      (d) => (d.party[0].before = [{ ...d.dives[0], id: 'x', startsAt: '2027-03-06T07:20' }]),
      'dives[0].startsAt (dive "d1")',
      /while Guest a surfaces from "x"/,
    ],
    [
      'earlier dives in disorder',
      (d) =>
        (d.party[0].before = [
          { ...d.dives[0], id: 'x', startsAt: '2027-03-05T12:20' },
          { ...d.dives[0], id: 'y', startsAt: '2027-03-05T09:20' },
        ]),
      'party[0].before[1].startsAt (diver "a", earlier dive "y")',
      /before the dive listed ahead/,
    ],
    [
      'an arrival after the first dive',
      (d) => (d.party[0].arrivedAt = '2027-03-06T08:00'),
      'party[0].arrivedAt (diver "a")',
      /after the start of the dive "d1"/,
    ],
    [
      'an arrival during a dive',
      (d) => {
        d.party[0].before = [{ ...d.dives[0], id: 'x', startsAt: '2027-03-05T12:20' }];
        d.party[0].arrivedAt = '2027-03-05T12:40';
      },
      'party[0].arrivedAt (diver "a")',
      /falls into the dive "x"/,
    ],
    [
      'a position off the globe',
      (d) => (d.sites[0].position = { lat: 91, lon: 0 }),
      'sites[0].position.lat (site "s")',
      /Latitude is 91/,
    ],
    [
      'a title of a thousand letters',
      (d) => (d.title = 'x'.repeat(1000)),
      'title',
      /1000 characters; it can have 120/,
    ],
    [
      'five hundred dives',
      (d) =>
        (d.dives = Array.from({ length: 500 }, (_, i) => ({
          ...d.dives[0],
          id: `x${i}`,
          divers: ['a'],
          startsAt: `2027-${String(3 + Math.floor(i / 50)).padStart(2, '0')}-${String(1 + Math.floor((i % 50) / 2)).padStart(2, '0')}T${i % 2 ? '14' : '08'}:00`,
        }))),
      'dives',
      /500 are given; there can be 400/,
    ],
  ];
  it.each(cases)('finds %s', (_, change, where, what) => {
    const troubles = broken(change);
    expect(troubles.map((trouble) => trouble.where)).toEqual([where]);
    expect(troubles[0].what).toMatch(what);
    expect(troubles[0].kind).toBe('invalid');
    expect(troubles[0].mend.length).toBeGreaterThan(5);
  });

  it('reads 1e999 as no finite number', () => {
    const text = JSON.stringify(tenDives()).replace('"depthM":18', '"depthM":1e999');
    expect(troublesOf(text)).toMatchObject([
      { where: 'dives[0].depthM (dive "d1")', what: 'Depth is not a finite number.' },
    ]);
  });

  it('tells mistakes of every kind together, whatever hides behind whatever', () => {
    const troubles = broken((d) => {
      d.party[0].surfaceRateLpm = 0;
      d.mixes[0].o2 = 32;
      d.dives[8].depthM = 1000;
      d.dives[3].siteId = 'nowhere';
      d.dives[6].startsAt = '2027-03-07T10:40';
      Object.assign(d.dives[0], { depthM: 36, bottomMin: 1.9 });
    });
    expect(troubles.map(({ where }) => where)).toEqual([
      'party[0].surfaceRateLpm (diver "a")',
      'mixes[0].o2 (mix "m")',
      'dives[8].depthM (dive "d9")',
      'dives[3].siteId (dive "d4")',
      'dives[0].bottomMin (dive "d1")',
      'dives[6].startsAt (dive "d7")',
    ]);
  });

  it('lets divers of different dives overlap', () => {
    expect(
      broken((d) => {
        d.dives[0].divers = ['a'];
        d.dives[1].divers = ['b'];
        d.dives[1].startsAt = '2027-03-06T07:40';
      }),
    ).toEqual([]);
  });

  it('lets a dive start the minute the one before surfaces', () => {
    // 35 min at 18 m, 13 m up at 9 m/min, 3 min stop, 5 m up: 40 min.
    expect(broken((d) => (d.dives[1].startsAt = '2027-03-06T08:10'))).toEqual([]);
    expect(broken((d) => (d.dives[1].startsAt = '2027-03-06T08:09'))).toHaveLength(1);
  });

  it('takes what was dived for the time on the surface', () => {
    expect(broken((d) => (d.dives[0].asDived = [{ bottomMin: 175 }]))).toEqual([]);
    expect(broken((d) => (d.dives[0].asDived = [{ bottomMin: 176 }]))).toHaveLength(1);
  });
});
