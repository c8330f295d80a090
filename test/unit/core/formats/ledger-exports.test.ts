import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { EXPORT_FORMATS, readSites, SITE_FORMATS } from '../../../../core/formats/all';
import { writeCalendar } from '../../../../core/formats/calendar';
import { writeCompareRows } from '../../../../core/formats/compare-rows';
import { readDelimited } from '../../../../core/formats/delimited';
import { writeLedgerRows } from '../../../../core/formats/ledger-rows';
import { sitesOfDrafts } from '../../../../core/formats/site-draft';
import { compareMixes, compareSites } from '../../../../core/mixes/compare';
import { SAFETY_LINE } from '../../../../core/words/safety-line';
import { fileWords, pageReader } from '../../../../core/words/reader';
import { demoTrip } from '../../../../core/document/demo-trip';
import { ledger } from '../../../../core/ledger/ledger';
import { deepestLevel } from '../../../../core/ledger/level-limits';
import type { Trip } from '../../../../core/document/types';
import { aDive, aLedger } from '../../../builders/trip';

const STAMP = '2027-03-01T18:00:00Z';
const TRIP: Trip = { ...demoTrip(), flight: null };
const LEDGER = ledger(TRIP);

function records(text: string): readonly Record<string, string>[] {
  const [head, ...rows] = readDelimited(text, ',').rows;
  return rows.map((row) => Object.fromEntries(head!.cells.map((name, index) => [name, row.cells[index]!])));
}

/** A property as its own type writes it; a position as its two numbers. */
function valueText(property: InstanceType<typeof ICAL.Property>): string {
  const value: unknown = property.getFirstValue();
  return value instanceof ICAL.Time ? value.toICALString() : String(value);
}

/** Events of a calendar as ical.js reads them: whatever it cannot read fails the test. */
function events(text: string): readonly Record<string, string>[] {
  const calendar = new ICAL.Component(ICAL.parse(text) as [string, object[], object[]]);
  return calendar
    .getAllSubcomponents('vevent')
    .map((event) =>
      Object.fromEntries(
        event.getAllProperties().map((property) => [property.name.toUpperCase(), valueText(property)]),
      ),
    );
}

describe('writeLedgerRows', () => {
  const rows = records(writeLedgerRows(LEDGER));
  const entries = LEDGER.divers.flatMap((diver) => diver.entries);

  it('has a row for each dive of each diver, and every row all cells', () => {
    expect(rows).toHaveLength(entries.length);
    for (const row of rows) expect(Object.values(row).every((cell) => cell !== undefined)).toBe(true);
  });

  it('gives every figure within its rounding, limits down and exposures up', () => {
    const dust = 1e-4;
    rows.forEach((row, index) => {
      const entry = entries[index]!;
      const near = (heading: string, value: number | null, step: number, way: 'down' | 'up') => {
        if (value === null) {
          expect(row[heading], heading).toBe('');
          return;
        }
        const written = Number(row[heading]);
        const [low, high] = way === 'down' ? [value - step, value] : [value, value + step];
        expect(written, heading).toBeGreaterThanOrEqual(low - dust);
        expect(written, heading).toBeLessThanOrEqual(high + dust);
      };
      expect(row['diver']).toBe(entry.diver.name);
      near('MOD (m)', entry.modM, 0.1, 'down');
      near('PO2 (bar)', entry.po2Bar, 0.01, 'up');
      near('EAD (m)', entry.eadM, 0.1, 'up');
      near('gas density (g/L)', entry.gasDensityGL, 0.01, 'up');
      const deepest = deepestLevel(entry.levels);
      if (!deepest.unlimited) near('no-stop limit (min)', deepest.noStopMin, 0.1, 'down');
      const whole = 'whole time with the last level lengthened (min)';
      if (entry.levels.length < 2) expect([row['levels'], row[whole]]).toEqual(['', '']);
      else if (!entry.unlimited) near(whole, entry.noStopMin, 0.1, 'down');
      near('CNS after (%)', 100 * entry.cns.after!, 0.1, 'up');
      near('CNS 24 h (%)', 100 * entry.cns.day!, 0.1, 'up');
      near('OTU', entry.otu.dive, 0.1, 'up');
      near('ESOT of the day (min)', entry.esot.day, 0.1, 'up');
      near('gas used (L)', entry.gas.usedL, 1, 'up');
      near('pressure left (bar)', entry.gas.endBar, 1, 'down');
      near('turn pressure (bar)', entry.gas.turnBar, 1, 'up');
      near('minimum gas (bar)', entry.gas.minimumBar, 1, 'up');
      near('interval (min)', entry.intervalMin, 1, 'down');
    });
  });

  it('gives depth and time to the tenth, what is planned down and what was dived up', () => {
    const depthM = 12.06;
    const bottomMin = 14.76;
    const dives = TRIP.dives.slice(0, 2).map((dive, index) => ({
      ...dive,
      ...(index === 0 ? { depthM, bottomMin } : { asDived: [{ depthM, bottomMin }] }),
    }));
    const [planned, dived] = records(writeLedgerRows(ledger({ ...TRIP, dives })));
    expect([planned!['depth (m)'], planned!['bottom time (min)']]).toEqual(['12', '14.7']);
    expect([dived!['depth (m)'], dived!['bottom time (min)']]).toEqual(['12.1', '14.8']);
  });

  it('gives each level of several with its own limit, and the whole time only where a stay can keep it', () => {
    const legs = [
      { depthM: 36, min: 9 },
      { depthM: 12, min: 20 },
      { depthM: 5, min: 9.5 },
    ];
    const levelled = (firstMin: number) => {
      const [first, ...rest] = legs;
      const all = [{ ...first!, min: firstMin }, ...rest];
      const dive = aDive({ depthM: 36, bottomMin: 29.5 + firstMin, legs: all });
      const whole = aLedger([dive]);
      return { row: records(writeLedgerRows(whole))[0]!, entry: whole.divers[0]!.entries[0]! };
    };
    const { row, entry } = levelled(9);
    const [deep, middle] = entry.levels.map(({ noStopMin }) => String(Math.floor(noStopMin! * 10) / 10));
    expect(row['levels']).toBe(
      `36 m 9 min (no-stop ${deep} min), 12 m 20 min (no-stop ${middle} min), 5 m 9.5 min (no limit)`,
    );
    expect(row['no-stop limit (min)']).toBe(deep);
    expect(row['whole time with the last level lengthened (min)']).toBe('unlimited');
    const past = levelled(14);
    expect(past.entry.levelsPastLimitM).toEqual([36]);
    expect(past.row['whole time with the last level lengthened (min)']).toBe('');
  });

  it('says of a dive no mix may go on that it is left out', () => {
    const dives = TRIP.dives.map((dive, index) =>
      index === 0 ? { ...dive, depthM: 95, mix: 'auto' as const } : dive,
    );
    const [first] = records(writeLedgerRows(ledger({ ...TRIP, dives })));
    expect(first!['remark']).toContain('Left out');
    expect(first!['PO2 (bar)']).toBe('');
    expect(first!['surfaces']).toBe('');
  });
});

describe('writeCompareRows', () => {
  const compared = compareSites(LEDGER, compareMixes(TRIP));
  const rows = records(writeCompareRows(compared));

  it('has a row for each mix at each site, and a reason wherever a mix may not go', () => {
    expect(rows).toHaveLength(compared.length * compareMixes(TRIP).length);
    const cells = compared.flatMap((row) => row.cells);
    rows.forEach((row, index) => {
      const cell = cells[index]!;
      expect(row['can be used']).toBe(cell.allowed ? 'yes' : 'no');
      expect(row['reason'] === '').toBe(cell.allowed);
      expect(Number(row['oxygen (%)'])).toBeCloseTo(100 * cell.o2, 2);
      expect(Number(row['MOD (m)'])).toBeLessThanOrEqual(cell.modM + 1e-4);
      expect(Number(row['MOD (m)'])).toBeGreaterThan(cell.modM - 0.1001);
      if (cell.alone === null) expect(row['no-stop time alone at the site (min)']).toBe('');
      else if (cell.alone.unlimited) expect(row['no-stop time alone at the site (min)']).toBe('unlimited');
      else
        expect(Number(row['no-stop time alone at the site (min)'])).toBeLessThanOrEqual(
          cell.alone.min! + 1e-4,
        );
      const ofDive = cell.inTrip === null ? '' : String(Math.ceil(cell.inTrip.depthM * 10 - 1e-6) / 10);
      expect(row['at the depth of that dive (m)']).toBe(ofDive);
      if (cell.otu !== null) expect(Number(row['OTU of a dive'])).toBeGreaterThanOrEqual(cell.otu - 1e-4);
    });
    expect(rows.some((row) => row['can be used'] === 'no')).toBe(true);
  });

  it('says "unlimited" of a depth without limit', () => {
    const shallow = { ...TRIP, sites: TRIP.sites.map((site) => ({ ...site, depthM: 3 })), dives: [] };
    const free = records(writeCompareRows(compareSites(ledger(shallow), compareMixes(shallow))));
    expect(free[0]!['no-stop time alone at the site (min)']).toBe('unlimited');
    expect(free[0]!['no-stop time in the trip (min)']).toBe('');
  });
});

describe('writeCalendar', () => {
  const text = writeCalendar(LEDGER, STAMP);

  it('is lines of at most 75 octets with CRLF behind each, in any script', () => {
    expect(text.startsWith('BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:')).toBe(true);
    expect(text.endsWith('END:VCALENDAR\r\n')).toBe(true);
    for (const name of ['Reef', 'ü'.repeat(79), '海'.repeat(79), '🐟'.repeat(39)]) {
      const sites = TRIP.sites.map((site) => ({ ...site, name }));
      const written = writeCalendar(ledger({ ...TRIP, sites }), STAMP);
      expect(events(written)[0]!['SUMMARY']).toContain(name);
      for (const line of written.slice(0, -2).split('\r\n')) {
        expect(line).not.toMatch(/[\r\n]/);
        expect(Buffer.byteLength(line, 'utf8')).toBeLessThanOrEqual(75);
      }
    }
  });

  it('has an event a dive, from its start to the last surfacing, and one for flying', () => {
    const found = events(text);
    expect(found).toHaveLength(TRIP.dives.length + 1);
    TRIP.dives.forEach((dive, index) => {
      const event = found[index]!;
      expect(event['DTSTART']).toBe(`${dive.startsAt.replaceAll(/[-:]/g, '')}00`);
      expect(event['DTEND']! > event['DTSTART']!).toBe(true);
      expect(event['DTSTAMP']).toBe('20270301T180000Z');
      const site = TRIP.sites.find((each) => each.id === dive.siteId)!;
      expect(event['SUMMARY']).toContain(`Dive ${index + 1}: ${site.name}`);
      expect(event['DESCRIPTION']).toContain(fileWords(SAFETY_LINE));
      for (const diver of TRIP.party) {
        const isOn = dive.divers === undefined || dive.divers.includes(diver.id);
        expect(event['DESCRIPTION']!.includes(`${diver.name}: `)).toBe(isOn);
      }
    });
    const flying = found.at(-1)!;
    expect(flying['SUMMARY']).toMatch(/^No flying before \d{4}-\d\d-\d\d at \d\d:\d\d$/);
    expect(flying['DTEND']).toBeUndefined();
  });

  it('gives what is planned rounded down, and what was dived rounded up', () => {
    const [first, ...others] = TRIP.dives;
    const figures = { depthM: 15.04, bottomMin: 40.55 };
    const event = (dive: Trip['dives'][number]) =>
      events(writeCalendar(ledger({ ...TRIP, dives: [dive, ...others] }), STAMP))[0]!;
    const planned = event({ ...first!, ...figures });
    expect(planned['SUMMARY']).toMatch(/, 15 m$/);
    expect(planned['DESCRIPTION']).toContain('40.5 min bottom time');
    const dived = event({ ...first!, asDived: [{ by: TRIP.party[0]!.id, ...figures }] });
    expect(dived['DESCRIPTION']!.split('\n')[0]).toContain('40.6 min bottom time');
    const deepest = event({ ...first!, asDived: [figures] });
    expect(deepest['SUMMARY']).toMatch(/, 15\.1 m$/);
  });

  it('names each event once, and the same way for the same trip at any time', () => {
    const ids = events(text).map((event) => event['UID']);
    expect(new Set(ids).size).toBe(ids.length);
    expect(events(writeCalendar(LEDGER, '2027-03-05T06:00:00.123Z')).map((event) => event['UID'])).toEqual(
      ids,
    );
    const renamed = writeCalendar(ledger({ ...TRIP, title: `${TRIP.title}!` }), STAMP);
    expect(events(renamed)[0]!['UID']).not.toBe(ids[0]);
  });

  it('knows a trip by its id, whatever it is called', () => {
    const uids = (change: Partial<Trip>) =>
      events(writeCalendar(ledger({ ...TRIP, ...change }), STAMP)).map((event) => event['UID']);
    const known = uids({ id: 'ours' });
    expect(uids({ id: 'ours', title: 'Another name', place: 'Elsewhere' })).toEqual(known);
    expect(uids({ id: 'theirs' })[0]).not.toBe(known[0]);
    expect(uids({})[0]).not.toBe(known[0]);
  });

  it('says which file is the newer, and when it was made', () => {
    const of = (stamp: string) => events(writeCalendar(LEDGER, stamp))[0]!;
    const [older, newer] = [of(STAMP), of('2027-03-01T18:01:00Z')];
    expect(older['LAST-MODIFIED']).toBe('20270301T180000Z');
    expect(Number(newer['SEQUENCE'])).toBe(Number(older['SEQUENCE']) + 1);
    // As the form has it: a whole number that 31 bits hold.
    expect(Number(older['SEQUENCE'])).toBeLessThan(2 ** 31);
  });

  it('is in the units and by the clock of its reader', () => {
    const flight = { at: '2027-03-21T14:00' };
    const reader = { ...pageReader('imperial'), clock: '12h' } as const;
    const found = events(writeCalendar(ledger({ ...TRIP, flight }), STAMP, reader));
    expect(found[0]!['SUMMARY']).toMatch(/, \d+ ft$/);
    expect(found[0]!['DESCRIPTION']).toMatch(/MOD \d+ ft/);
    expect(found[0]!['DESCRIPTION']).not.toMatch(/\d m\b/);
    expect(found.at(-2)!['SUMMARY']).toMatch(/^No flying before .*(?:AM|PM)$/i);
    expect(found.at(-1)).toMatchObject({ DTSTART: '20270321T140000', TRANSP: 'TRANSPARENT' });
    expect(found.at(-1)!['SUMMARY']).toMatch(/^The flight leaves .*2:00.*PM$/i);
  });

  it('keeps marks, line breaks and letters of any length in a name', () => {
    const name = `${'Würfel; "Ecke", \\ '.repeat(3)}🐟`;
    const sites = TRIP.sites.map((site) => ({ ...site, name, position: { lat: -7.5, lon: 41.25 } }));
    const [event] = events(writeCalendar(ledger({ ...TRIP, sites }), STAMP));
    expect(event!['SUMMARY']).toContain(`Dive 1: ${name}`);
    expect(event!['GEO']).toBe('-7.5,41.25');
    expect(event!['LOCATION']).toBe(`${name}, ${TRIP.place}`);
  });

  it('is an empty calendar for a trip without dives, and refuses a stamp that is not UTC', () => {
    expect(events(writeCalendar(ledger({ ...TRIP, dives: [] }), STAMP))).toEqual([]);
    expect(() => writeCalendar(LEDGER, '2027-03-01T18:00')).toThrow('UTC');
  });
});

describe('the list of formats', () => {
  it('names each once, with an ending and a media type', () => {
    const ids = [...EXPORT_FORMATS, ...SITE_FORMATS].map((format) => format.id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const format of EXPORT_FORMATS) {
      expect(format.mediaType).toMatch(/^(text|application)\//);
      expect(format.write({ ledger: LEDGER, stampedAtUtc: STAMP }).text).not.toBe('');
    }
  });

  it('reads the sites it wrote, in either format', () => {
    const sites = TRIP.sites.map((site, index) => ({ ...site, position: { lat: index, lon: -index - 0.5 } }));
    const drafts = sites.map((site) => {
      const { id: _, ...draft } = site;
      return draft;
    });
    const request = { ledger: ledger({ ...TRIP, sites }), stampedAtUtc: STAMP };
    for (const id of ['sites-csv', 'sites-gpx']) {
      const written = EXPORT_FORMATS.find((format) => format.id === id)!.write(request);
      expect(written.remarks).toEqual([]);
      expect(readSites(written.text)).toEqual({ sites: drafts, troubles: [] });
    }
  });

  it('says which sites a format leaves out', () => {
    const sites = TRIP.sites.map((site) => ({ ...site, position: null }));
    const gpx = EXPORT_FORMATS.find((format) => format.id === 'sites-gpx')!;
    const { remarks } = gpx.write({ ledger: ledger({ ...TRIP, sites }), stampedAtUtc: STAMP });
    expect(remarks).toHaveLength(1);
    for (const site of sites) expect(remarks[0]).toContain(site.name);
  });

  it('gives drafts ids that no site of the trip has', () => {
    const draft = { name: 'A', depthM: 9, notes: '', position: null };
    const sites = sitesOfDrafts([draft, draft, draft], ['s1', 's3']);
    expect(sites.map((site) => site.id)).toEqual(['s2', 's4', 's5']);
    expect(sites[0]).toEqual({ id: 's2', ...draft });
  });
});
