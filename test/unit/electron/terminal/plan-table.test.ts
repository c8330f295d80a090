import { describe, expect, it } from 'vitest';
import { cautionsOf } from '../../../../core/cautions/all';
import { ledger } from '../../../../core/ledger/ledger';
import type { EntryLevel } from '../../../../core/ledger/ledger-types';
import type { Dive, Trip } from '../../../../core/document/types';
import { readTrip } from '../../../../core/document/read-trip';
import { roomMinutes } from '../../../../core/ledger/room';
import { planTable } from '../../../../electron/terminal/plan-table';
import { TABLE_COLUMNS, wrapped } from '../../../../electron/terminal/text-table';
import { pageReader, type Reader } from '../../../../core/words/reader';
import { aDive, aDiver, AIR, aTrip, RICH } from '../../../builders/trip';
import { fixture, tenDives, type Loose } from '../../../support/trip-documents';

function tripOf(document: Loose): Trip {
  const read = readTrip(JSON.stringify(document));
  if (!read.ok) throw new Error(JSON.stringify(read.troubles));
  return read.value;
}

function tableOf(trip: Trip, units: Reader['units'] = 'metric'): string {
  const whole = ledger(trip);
  return planTable(whole, cautionsOf(whole), pageReader(units));
}

/** The rows of dives, cell by cell; sites and mixes of these tests have no two blanks in a row. */
function rowsOf(table: string): string[][] {
  return table
    .split('\n')
    .filter((line) => /^\d\d:\d\d /.test(line))
    .map((line) => line.trim().split(/ {2,}/));
}

describe('planTable', () => {
  it('shows each figure of the ledger, limits rounded down and exposures up', () => {
    const trip = tripOf(tenDives());
    const whole = ledger(trip);
    const rows = rowsOf(planTable(whole, [], pageReader('metric')));
    expect(rows).toHaveLength(20);
    let row = 0;
    for (const each of whole.divers) {
      each.entries.forEach((entry) => {
        const room = roomMinutes(trip, entry).min!;
        const cells = rows[row++]!;
        expect(cells[0]).toBe(entry.dive.startsAt.slice(11));
        expect(cells[2]).toBe('Site');
        expect(cells[3]).toBe('18 m');
        expect(cells[4]).toBe('35');
        expect(cells[5]).toBe('EAN32');
        expect(Number(cells[6])).toBeCloseTo(Math.ceil(entry.po2Bar! * 100) / 100, 9);
        expect(cells[7]).toBe(String(Math.floor(entry.noStopMin!)));
        expect(cells[8]).toBe(String(Math.floor(room)).replace('-', '\u2212'));
        expect(cells[9]).toBe(`${Math.ceil(entry.cns.after! * 100)} %`);
        expect(cells[10]).toBe(String(Math.ceil(entry.otu.dive!)));
        expect(cells[11]).toBe(String(Math.floor(entry.gas.endBar!)));
      });
    }
  });

  it('counts intervals in hours and minutes, rounded down, from the dive before', () => {
    const cells = rowsOf(tableOf(tripOf(tenDives()))).map((row) => row[1]);
    // 35 min at 18 m, 18 m up at 9 m/min, 3 min at the stop: 40 min, and 3 h from start to start.
    expect(cells.slice(0, 5)).toEqual(['first', '2:20', '2:20', '2:20', '14:20']);
  });

  it('marks what was dived, and has under a dive of several levels each with its own no-stop time', () => {
    const trip = tripOf(fixture('v1-full'));
    const text = tableOf(trip);
    const rows = rowsOf(text);
    expect(rows.map((row) => row[4])).toEqual(['40', '38+', '50', '33+', '50']);
    const [entry] = ledger(trip).divers[0]!.entries;
    const [deep, shallow] = entry!.levels;
    const limit = (level: EntryLevel) =>
      level.unlimited ? `${level.min} min (no limit)` : `${level.min} of ${Math.floor(level.noStopMin!)} min`;
    expect(deep!.depthM).toBeGreaterThan(shallow!.depthM);
    expect(rows[0]![7]).toBe(String(Math.floor(deep!.noStopMin!)));
    const told = `${entry!.levels.map((level) => `${level.depthM} m ${limit(level)}`).join(', ')}, in all `;
    expect(text.replaceAll(/\s+/g, ' ')).toContain(`Levels: ${told}`);
    expect(text.match(/Levels: /g)).toHaveLength(
      ledger(trip)
        .divers.flatMap(({ entries }) => entries)
        .filter(({ levels }) => levels.length > 1).length,
    );
  });

  it('gives depth and time to the tenth, what is planned down and what was dived up', () => {
    const document = tenDives();
    document.dives.length = 2;
    Object.assign(document.dives[0], { depthM: 18.06, bottomMin: 14.78 });
    Object.assign(document.dives[1], {
      depthM: 18,
      bottomMin: 40,
      asDived: [{ by: 'a', depthM: 18.06, bottomMin: 14.71 }],
    });
    const rows = rowsOf(tableOf(tripOf(document)));
    expect(rows.map((cells) => cells.slice(3, 5))).toEqual([
      ['18 m', '14.7'],
      ['18.1 m', '14.8+'],
      ['18 m', '14.7'],
      ['18 m', '40'],
    ]);
  });

  it('says where there is no figure: no mix, no gas left, no limit', () => {
    const document = tenDives();
    document.mixes.push({ id: 'rich', o2: 0.4 });
    document.dives.length = 3;
    Object.assign(document.dives[0], { mix: 'auto', depthM: 40 });
    Object.assign(document.dives[1], { bottomMin: 120 });
    Object.assign(document.dives[2], { mix: 'rich', depthM: 3 });
    const rows = rowsOf(tableOf(tripOf(document)));
    expect(rows[0]!.slice(5)).toEqual(['none', '\u2013', '\u2013', '\u2013', '0 %', '\u2013', '\u2013']);
    expect(rows[1]!.at(-1)).toBe('out');
    expect(rows[2]![7]).toBe('no end');
  });

  it.each(['metric', 'imperial', 'both'] as const)(
    'stays within its columns at the longest names, %s',
    (units) => {
      const document = fixture('v1-full');
      document.title = 'Seven nights '.repeat(9);
      document.sites[0].name = 'A site with a name as long as the format admits, and then a little'.padEnd(
        80,
        '!',
      );
      document.party[0].name = 'M'.repeat(80);
      // The longest figure of time, as dived.
      document.dives[2].asDived = [{ by: 'guide', depthM: 5.01, bottomMin: 219.85 }];
      const table = tableOf(tripOf(document), units);
      expect(Math.max(...table.split('\n').map((line) => Array.from(line).length))).toBeLessThanOrEqual(
        TABLE_COLUMNS,
      );
      expect(table).toMatch(/ A site with[^\n]*\u2026 /);
      expect(table).toMatch(
        { metric: / 5\.1 m +219\.9\+ /, imperial: / 17 ft +219\.9\+ /, both: / 5\.1\/17 +219\.9\+ / }[units],
      );
    },
  );

  it('is in feet and psi for who reads them, limits down and exposures up', () => {
    const document = tenDives();
    document.dives.length = 2;
    Object.assign(document.dives[1], { asDived: [{ by: 'a', depthM: 18.4, bottomMin: 35 }] });
    const trip = tripOf(document);
    const table = tableOf(trip, 'imperial');
    const [planned, dived] = rowsOf(table);
    // 18 m is 59.06 ft, 18.4 m 60.4 ft.
    expect([planned![3], dived![3]]).toEqual(['59 ft', '61 ft']);
    const { endBar } = ledger(trip).divers[0]!.entries[0]!.gas;
    expect(planned!.at(-1)).toBe(String(Math.floor(endBar! / 0.6894757293168361) * 10));
    expect(table).toContain('pressure left in psi');
    expect(table).toMatch(/cu ft at \d+ psi, 0\.\d+ cu ft\/min; to \d+ ft/);
    expect(table).not.toMatch(/\d (m|L|L\/min)\b/);
  });

  it('is in both systems where asked, and in one within a sentence', () => {
    const document = tenDives();
    Object.assign(document.dives[0], { depthM: 36, bottomMin: 40, divers: ['b'] });
    const table = tableOf(tripOf(document), 'both');
    const rows = rowsOf(table);
    expect(rows.map((cells) => cells[3])).toContain('18/59');
    expect(rows.map((cells) => cells.at(-1))).toEqual(
      expect.arrayContaining([expect.stringMatching(/^\d+\/\d+0$/)]),
    );
    expect(table.replaceAll(/\s+/g, ' ')).toContain('depth in m/ft; time');
    expect(table.replaceAll(/\s+/g, ' ')).toMatch(/36 m is below the MOD of \d+ m for/);
  });

  it('says when flying is clear, once for all who are clear at once, and when the flight leaves', () => {
    const document = tenDives();
    const told = tableOf(tripOf(document)).replaceAll(/\n +/g, ' ');
    // Last dive 8 March 10:30, 40 min; dives this close bring the table to group Z, 21:01.
    const why =
      '(Government table: 21 h 01 min from group Z, the highest of the last 24 h, to a cabin at 2439 m).';
    expect(told).toContain(
      `\nEverybody: clear to fly from Tue 9 Mar 2027, 08:11 ${why}\nThe flight leaves Wed 10 Mar 2027, 15:00.\n`,
    );
    // One stays aboard from the last dive.
    Object.assign(document.dives.at(-1)!, { divers: ['a'] });
    const apart = tableOf(tripOf(document)).replaceAll(/\n +/g, ' ');
    expect(apart).toContain(`\nGuest a: clear to fly from Tue 9 Mar 2027, 08:11 ${why}\n`);
    expect(apart).toMatch(/\nGuest b: clear to fly from (?!Tue 9 Mar 2027, 08:11)/);
  });

  it('puts cautions with the place they hold for, their severity and source', () => {
    const document = tenDives();
    Object.assign(document.dives[0], { depthM: 36, bottomMin: 40, divers: ['b'] });
    const table = tableOf(tripOf(document)).replaceAll(/\n +/g, ' ');
    expect(table).toMatch(/PAST A LIMIT +(Guest b, )?Sat 6 Mar 2027, 07:30, Site: [^[]+\[[^\]]+\]/);
  });
});

describe('the headline of the plan', () => {
  const headline = (dives: readonly Dive[], party = [aDiver({ maxO2: 1 })]) => {
    const trip = aTrip(dives, { party, mixes: [AIR, RICH] });
    const table = planTable(ledger(trip), [], pageReader('metric'));
    const rooms = rowsOf(table).map((cells) => cells[8]);
    return { sentence: table.split('\n\n')[1]!.replaceAll(/\n */g, ' '), rooms };
  };
  const easy = aDive({ startsAt: '2027-03-06T08:00', depthM: 10, bottomMin: 20 });

  it('names the dive that breathes 1.74 bar as past its limit, and not as tight', () => {
    const hot = aDive({ startsAt: '2027-03-07T08:00', depthM: 38, bottomMin: 5, mix: 'rich' });
    const { sentence, rooms } = headline([easy, hot]);
    expect(sentence).toMatch(
      /^One dive passes a limit: Sun 7 Mar 2027, 08:00, Wall, Guest 1: past the PO2 limit\. Tightest: Sat 6 Mar 2027, 08:00, Wall, Guest 1: \d+ min of room\.$/,
    );
    expect(rooms[0]).toMatch(/^\d+$/);
    expect(rooms[1]).toBe('past');
  });

  it('names the dive that is past its limit on arrival, or deeper than it may go', () => {
    const deep = aDive({ startsAt: '2027-03-06T08:00', depthM: 40, bottomMin: 30 });
    const soon = aDive({ startsAt: '2027-03-06T09:20', depthM: 40, bottomMin: 6 });
    expect(headline([deep, soon]).sentence).toContain('09:20, Wall, Guest 1: past the no-stop limit.');
    expect(headline([easy, soon], [aDiver({ maxDepthM: 30 })]).sentence).toContain(
      '09:20, Wall, Guest 1: past the diver’s depth limit.',
    );
  });

  it('says by how much a dive is over, or what is left of the tightest, and how many are as tight', () => {
    const long = aDive({ startsAt: '2027-03-07T08:00', depthM: 30, bottomMin: 30 });
    expect(headline([easy, long]).sentence).toMatch(
      /^One dive passes a limit: .*Guest 1: \d+ min over\. Tightest: Sat 6 /,
    );
    expect(headline([easy]).sentence).toMatch(
      /^The one dive is within limits\. .*Guest 1: \d+ min of room\.$/,
    );
    // Limited by gas alone, which does not hang on the day before.
    const again = { ...easy, id: 'again', startsAt: '2027-03-08T08:00' };
    expect(headline([easy, again]).sentence).toMatch(/ min of room; 1 dive more as tight\.$/);
  });

  it('speaks of the dives ahead once some are logged: what is done is neither past nor tight', () => {
    const long = aDive({ startsAt: '2027-03-05T08:00', depthM: 30, bottomMin: 30 });
    const logged = { ...long, asDived: [{}] };
    expect(headline([long, easy]).sentence).toContain('One dive passes a limit');
    expect(headline([logged, easy]).sentence).toMatch(
      /^The one dive ahead is within limits\. Tightest: Sat 6 .*Guest 1: \d+ min of room\.$/,
    );
    expect(headline([logged]).sentence).toBe('No dive is ahead.');
  });

  it('passes over dives whose clocks a dive before left unknown', () => {
    const hot = aDive({ startsAt: '2027-03-05T08:00', depthM: 38, bottomMin: 5, mix: 'rich' });
    const { sentence, rooms } = headline([hot, easy]);
    expect(sentence).toContain('Fri 5 Mar 2027, 08:00, Wall, Guest 1: past the PO2 limit.');
    expect(rooms).toEqual(['past', '\u2013']);
  });
});

describe('wrapped', () => {
  it('breaks at blanks within the columns, and leaves a long word whole', () => {
    expect(wrapped('one two three', 2, 8)).toBe('one two\n  three');
    expect(wrapped('incomprehensibilities', 2, 8)).toBe('incomprehensibilities');
  });
});
