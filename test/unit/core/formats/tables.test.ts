import * as fc from 'fast-check';
import { parse } from 'papaparse';
import { describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { EXPORT_FORMATS } from '../../../../core/formats/all';
import { csvStyleOf, csvText, plainText, type Cell, type CsvStyle } from '../../../../core/formats/delimited';
import { readSiteRows } from '../../../../core/formats/site-rows';
import { ledger } from '../../../../core/ledger/ledger';

const STYLES: readonly CsvStyle[] = [csvStyleOf('.'), csvStyleOf(',')];

/** Rows as another reader has them, which knows nothing of ours. */
function read(text: string, { separator }: CsvStyle): readonly (readonly string[])[] {
  const { data, errors } = parse<string[]>(text.replace('\uFEFF', ''), {
    delimiter: separator,
    skipEmptyLines: true,
  });
  expect(errors).toEqual([]);
  return data;
}

describe('tables', () => {
  it.each(STYLES)('are read by another reader cell by cell: $separator $decimal', (style) => {
    const cell: fc.Arbitrary<Cell> = fc.oneof(
      fc.string({ unit: 'grapheme', maxLength: 12 }),
      fc.constantFrom(';', ',', '"', 'a;b', 'a,b', '\r\n', '=1+1', '@x', '-5', '1,5'),
      fc.double({ min: -1e6, max: 1e6, noNaN: true }),
    );
    fc.assert(
      fc.property(
        fc.array(fc.array(cell, { minLength: 2, maxLength: 5 }), { minLength: 1, maxLength: 5 }),
        (rows) => {
          // What is an empty line to a reader is none of ours.
          const marked = rows.map((row) => ['x', ...row]);
          const back = read(csvText(marked, style), style);
          expect(back).toHaveLength(marked.length);
          marked.forEach((row, at) => {
            row.forEach((each, column) => {
              const text = back[at]![column]!;
              if (typeof each !== 'number') expect(plainText(text)).toBe(each);
              else {
                expect(text).not.toContain(style.decimal === ',' ? '.' : ',');
                expect(Number(text.replace(',', '.'))).toBeCloseTo(each, 9);
              }
            });
          });
        },
      ),
    );
  });

  it.each(EXPORT_FORMATS.filter(({ extension }) => extension === 'csv'))(
    'are written with either sign, and say nowhere what parts the cells: $label',
    ({ write }) => {
      const whole = ledger(demoTrip());
      const [commas, semicolons] = STYLES.map((csv) => {
        const { text } = write({ ledger: whole, stampedAtUtc: '2027-03-01T18:00:00Z', csv });
        expect(text).not.toContain('sep=');
        return read(text, csv);
      });
      expect(commas).toHaveLength(semicolons!.length);
      const width = commas![0]!.length;
      for (const row of [...commas!, ...semicolons!]) expect(row).toHaveLength(width);
      commas!.forEach((row, at) =>
        row.forEach((each, column) => {
          const other = semicolons![at]![column]!;
          expect(other).toBe(/^-?\d+\.\d+$/.test(each) ? each.replace('.', ',') : each);
        }),
      );
    },
  );

  it('tell each dive and each diver as they were given', () => {
    const trip = demoTrip();
    const rowsOf = (id: string) => {
      const format = EXPORT_FORMATS.find((each) => each.id === id)!;
      return read(
        format.write({ ledger: ledger(trip), stampedAtUtc: '2027-03-01T18:00:00Z' }).text,
        STYLES[0]!,
      );
    };
    const [head, first] = rowsOf('dives-csv');
    expect(Object.fromEntries(head!.map((name, at) => [name, first![at]]))).toMatchObject({
      dive: '1',
      date: '2027-03-14',
      start: '09:30',
      'depth (m)': '15',
      'bottom time (min)': '40',
      mix: 'Air',
      divers: 'Guide, Guest 1, Guest 2, Guest 3',
    });
    const [titles, guide] = rowsOf('party-csv');
    expect(Object.fromEntries(titles!.map((name, at) => [name, guide![at]]))).toMatchObject({
      name: 'Guide',
      'RMV (L/min)': '12',
      'oxygen ceiling (%)': '40',
      'gradient factor high (%)': '85',
    });
  });

  it('are read where a first line says what parts the cells', () => {
    const { sites, troubles } = readSiteRows('sep=;\r\nname;depth\r\nReef;18,5\r\nWall;deep\r\n');
    expect(sites).toMatchObject([{ name: 'Reef', depthM: 18.5 }]);
    expect(troubles.map(({ where }) => where)).toEqual(['line 4']);
  });
});
