import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readSites } from '../../core/formats/all';
import { csvText, plainText, readDelimited, type Cell } from '../../core/formats/delimited';
import { readGpx, writeGpx } from '../../core/formats/gpx';
import { readSiteRows, writeSiteRows } from '../../core/formats/site-rows';
import { readXml } from '../../core/formats/xml';
import { textTrouble } from '../../core/document/texts';
import type { Site } from '../../core/document/types';

const anyText = fc.string({ unit: 'grapheme', maxLength: 40 });

/** Text a person may well give a site: one line, trimmed, that a trip takes, and without what XML cannot hold. */
const name = fc
  .oneof(
    anyText,
    fc.constantFrom('=SUM(A1)', "'quoted", 'a,b', 'a;b', '"x" y', 'a\tb', '-5', '+1', '@home', "''=x"),
  )
  .map((text) => text.replaceAll(/[^\P{C}]|[\u2028\u2029]/gu, '').trim())
  .filter((text) => textTrouble('name', text) === null);

const site = fc.record({
  id: fc.constant('s1'),
  name,
  depthM: fc.oneof(fc.integer({ min: 1, max: 100 }), fc.double({ min: 1, max: 100, noNaN: true })),
  notes: fc.oneof(fc.constant(''), name),
  position: fc.option<NonNullable<Site['position']>>(
    fc.record({
      lat: fc.oneof(fc.integer({ min: -90, max: 90 }), fc.double({ min: -90, max: 90, noNaN: true })),
      lon: fc.oneof(fc.integer({ min: -180, max: 180 }), fc.double({ min: -180, max: 180, noNaN: true })),
    }),
  ),
});

function drafts(sites: readonly Site[]) {
  return sites.map(({ name: text, depthM, notes, position }) => ({
    name: text,
    depthM,
    notes,
    position: position ?? null,
  }));
}

/** Figures below a millionth of a degree are written with twelve decimals, and a zero has no sign. */
function isPlain(each: Site): boolean {
  const figures = [each.depthM, each.position?.lat ?? 0, each.position?.lon ?? 0];
  return figures.every((figure) => !String(figure).includes('e') && !Object.is(figure, -0));
}

describe('comma-separated values', () => {
  it('come back cell by cell, whatever is in them', () => {
    const cell: fc.Arbitrary<Cell> = fc.oneof(anyText, fc.constant('\r\n"'), fc.integer(), fc.constant(null));
    const rows = fc.array(fc.array(cell, { minLength: 1, maxLength: 5 }), { maxLength: 6 });
    fc.assert(
      fc.property(rows, (cells) => {
        // A row with nothing in it cannot be told from an empty line.
        const filled = cells.filter((row) => row.some((each) => each !== null && String(each).trim() !== ''));
        const read = readDelimited(csvText(filled), ',');
        expect(read.unclosedLine).toBeNull();
        expect(read.rows.map((row) => row.cells.map(plainText))).toEqual(
          filled.map((row) => row.map((each) => (each === null ? '' : String(each)))),
        );
      }),
    );
  });
});

describe('sites', () => {
  it('come back from rows as they went in', () => {
    fc.assert(
      fc.property(fc.array(site.filter(isPlain), { minLength: 1, maxLength: 8 }), (sites) => {
        expect(readSiteRows(writeSiteRows(sites))).toEqual({ sites: drafts(sites), troubles: [] });
      }),
    );
  });

  it('come back from a list of which each row is written its own way', () => {
    const plainName = name.filter((text) => /^[\p{L}][\p{L} ]*$/u.test(text));
    const tenths = fc.integer({ min: 10, max: 1000 }).map((tenth) => tenth / 10);
    const listed = fc.record({
      name: plainName,
      depthM: tenths,
      notes: fc.oneof(fc.constant(''), plainName),
      separator: fc.constantFrom('\t', ';', ','),
      hasComma: fc.boolean(),
      isQuoted: fc.boolean(),
      unit: fc.constantFrom('', ' m', 'm'),
      spaces: fc.constantFrom('', ' '),
      blankLines: fc.integer({ min: 0, max: 2 }),
    });
    fc.assert(
      fc.property(fc.array(listed, { minLength: 1, maxLength: 8 }), (rows) => {
        const text = rows
          .map(({ separator, hasComma, isQuoted, unit, spaces, blankLines, ...row }) => {
            const isDecimalComma = hasComma && separator !== ',';
            const depth = `${String(row.depthM).replace('.', isDecimalComma ? ',' : '.')}${unit}`;
            // Spaces before a quotation mark would make it text.
            const gap = isQuoted ? '' : spaces;
            const cells = [row.name, depth, ...(row.notes === '' ? [] : [row.notes])];
            const written = cells.map((cell) => (isQuoted ? `"${cell}"` : cell));
            return `${written.join(`${separator}${gap}`)}${'\n'.repeat(blankLines)}`;
          })
          .join('\n');
        expect(readSiteRows(text)).toEqual({
          sites: rows.map((row) => ({
            name: row.name,
            depthM: row.depthM,
            notes: row.notes,
            position: null,
          })),
          troubles: [],
        });
      }),
    );
  });

  it('come back from GPX as they went in, those with a position', () => {
    fc.assert(
      fc.property(fc.array(site.filter(isPlain), { minLength: 1, maxLength: 8 }), (sites) => {
        const { text, withoutPosition } = writeGpx(sites, 'A trip');
        const placed = sites.filter((each) => each.position);
        expect(withoutPosition).toHaveLength(sites.length - placed.length);
        if (placed.length > 0) expect(readGpx(text)).toEqual({ sites: drafts(placed), troubles: [] });
      }),
    );
  });
});

describe('any text at all', () => {
  const markup = fc
    .array(
      fc.constantFrom(
        '<',
        '>',
        '/',
        'a',
        '="',
        '"',
        "'",
        '&',
        ';',
        '<wpt lat="1" lon="2">',
        '</wpt>',
        '<gpx>',
        '!--',
        ']]>',
        ' ',
        '\n',
        ',',
        '\t',
        '12,5',
        '°',
      ),
      { maxLength: 60 },
    )
    .map((parts) => parts.join(''));

  it('is read or refused with reasons, never thrown at', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary' }), markup), (text) => {
        const { sites, troubles } = readSites(text);
        expect(sites.length + troubles.length).toBeGreaterThan(0);
        for (const { depthM, position } of sites) {
          if (depthM !== null) expect(depthM >= 1 && depthM <= 100).toBe(true);
          if (position) expect(Math.abs(position.lat) <= 90 && Math.abs(position.lon) <= 180).toBe(true);
        }
        for (const { what, mend } of troubles) expect(what !== '' && mend !== '').toBe(true);
        readXml(text);
      }),
      { numRuns: 500 },
    );
  });
});
