/** Recorded dives from a table: one row a sample. README, "Recorded profiles", documents the columns. */
import { numberTrouble } from '../../document/fields';
import { excerpt } from '../../document/texts';
import { deepestOf, leavesBottomMin } from '../../profile';
import type { Trouble } from '../../result';
import { BAR_PER_PSI, M_PER_FOOT } from '../../units';
import { fileWords, type Words } from '../../words/reader';
import { plainText, type DelimitedRow } from '../delimited';
import { cellNumber, readTable } from '../table';
import { fileTime } from '../uddf/read-uddf';
import {
  MOST_DIVES,
  nothingRead,
  recordTooLarge,
  soundSamples,
  type RawSample,
  type RecordedDive,
  type RecordedReading,
  type RecordedTroubleKind,
} from './recorded-dive';

type ColumnId = 'dive' | 'diver' | 'site' | 'start' | 'time' | 'depth' | 'oxygen' | 'left';

interface Column {
  readonly at: number;
  /** What is in brackets behind the heading. */
  readonly unit: string;
}

/** What a column may be called, in small letters. */
const NAMES: Readonly<Record<ColumnId, readonly string[]>> = {
  dive: ['dive', 'dive number', 'no', 'number'],
  diver: ['diver', 'name'],
  site: ['site', 'location'],
  start: ['start', 'starts', 'entry', 'in', 'date and time'],
  time: ['time', 'dive time', 'elapsed'],
  depth: ['depth'],
  oxygen: ['oxygen', 'o2', 'o₂'],
  left: ['pressure left', 'left', 'end pressure'],
};

/** Units that a column may name; the first holds where none is named. */
const UNITS: Readonly<Partial<Record<ColumnId, Readonly<Record<string, number>>>>> = {
  time: { min: 1, minutes: 1, s: 1 / 60, sec: 1 / 60, seconds: 1 / 60 },
  depth: { m: 1, metres: 1, ft: M_PER_FOOT, feet: M_PER_FOOT },
  oxygen: { '%': 0.01 },
  left: { bar: 1, psi: BAR_PER_PSI },
};

const HEADINGS_MEND =
  'Give a first row of headings, as "start", "time (min)", "depth (m)"; others are "dive", "diver", "site", "oxygen (%)", "pressure left (bar)".';

type Columns = Partial<Record<ColumnId, Column>>;

function columnsOf(headings: readonly string[]): Columns | string {
  const found: Columns = {};
  for (const [at, heading] of headings.entries()) {
    const [name = '', bracket = ''] = heading.toLowerCase().split(/[([]/, 2);
    const unit = bracket.split(/[)\]]/, 1)[0]!.trim();
    const id = (Object.keys(NAMES) as ColumnId[]).find((each) => NAMES[each].includes(name.trim()));
    if (id === undefined) continue;
    if (found[id]) return `Two columns are headed "${excerpt(name.trim())}".`;
    const units = UNITS[id];
    if (unit !== '' && units && units[unit] === undefined) {
      return `The column "${excerpt(heading)}" is in a unit that is not known here: ${Object.keys(units).join(', ')} are.`;
    }
    found[id] = { at, unit };
  }
  const missing = (['start', 'time', 'depth'] as const).filter((id) => !found[id]);
  return missing.length === 0
    ? found
    : `There is no column headed ${missing.map((id) => `"${id}"`).join(' or ')}.`;
}

function cellOf(row: DelimitedRow, column: Column | undefined): string {
  return column === undefined ? '' : plainText(row.cells[column.at] ?? '').trim();
}

/** Minutes and seconds as a clock has them, "12:30" or "1:02:30". */
const CLOCK = /^(?:(\d{1,2}):)?(\d{1,3}):(\d\d(?:[.,]\d+)?)$/;

function minutesIn(row: DelimitedRow, columns: Columns): number {
  const text = cellOf(row, columns.time);
  const clock = CLOCK.exec(text);
  if (clock) return 60 * Number(clock[1] ?? 0) + Number(clock[2]) + cellNumber(clock[3]!) / 60;
  return cellNumber(text) * UNITS.time![columns.time!.unit || 'min']!;
}

function sampleOf(row: DelimitedRow, columns: Columns): RawSample {
  const inM = UNITS.depth![columns.depth!.unit || 'm']!;
  return {
    min: minutesIn(row, columns),
    depthM: cellNumber(cellOf(row, columns.depth)) * inM,
    line: row.line,
  };
}

/** The first cell of a column that has something in it. */
function firstIn(rows: readonly DelimitedRow[], column: Column | undefined): string {
  return column === undefined
    ? ''
    : (rows.map((row) => cellOf(row, column)).find((cell) => cell !== '') ?? '');
}

interface Figure {
  readonly value: number | null;
  readonly what: string | null;
}

/** A figure of the whole dive, or why it is none. */
function figureIn(rows: readonly DelimitedRow[], columns: Columns, id: 'oxygen' | 'left'): Figure {
  const text = firstIn(rows, columns[id]);
  if (text === '') return { value: null, what: null };
  const units = UNITS[id]!;
  const inUnit = units[columns[id]!.unit || Object.keys(units)[0]!]!;
  // Hundredths by their digits: 32 * 0.01 is none.
  const value = id === 'oxygen' ? cellNumber(text) / 100 : cellNumber(text) * inUnit;
  const trouble = numberTrouble(id === 'oxygen' ? 'o2' : 'endBar', value);
  const name = id === 'oxygen' ? 'oxygen' : 'pressure left';
  return trouble
    ? { value: null, what: `"${excerpt(text)}" cannot be the ${name}; it is not taken.` }
    : { value, what: null };
}

function diveOf(
  rows: readonly DelimitedRow[],
  columns: Columns,
  place: string,
  ascentMPerMin: number,
  words: Words,
): RecordedDive | Omit<Trouble<RecordedTroubleKind>, 'kind'> {
  const when = firstIn(rows, columns.start);
  const time = fileTime(when);
  if (time === null) {
    return {
      what: when === '' ? 'It has no start.' : `"${excerpt(when)}" is no date and time.`,
      where: `${place}, line ${rows[0]!.line}`,
      mend: 'Write the start as 2027-03-05 09:30.',
    };
  }
  const sound = soundSamples(
    rows.map((row) => sampleOf(row, columns)),
    ascentMPerMin,
    words,
  );
  if ('what' in sound) return { ...sound, where: `${place}, ${sound.where}` };
  const o2 = figureIn(rows, columns, 'oxygen');
  const left = figureIn(rows, columns, 'left');
  return {
    diver: firstIn(rows, columns.diver),
    site: firstIn(rows, columns.site),
    ...time,
    samples: sound.samples,
    depthM: deepestOf(sound.samples),
    bottomMin: leavesBottomMin(sound.samples),
    o2: o2.value,
    endBar: left.value,
    where: place,
    remarks: [...sound.remarks, o2.what, left.what].filter((each) => each !== null),
  };
}

const TELLING = ['dive', 'diver', 'start'] as const;

/** One dive goes on until number, diver or start say another; a cell that says nothing goes on too. */
function divesIn(rows: readonly DelimitedRow[], columns: Columns): readonly (readonly DelimitedRow[])[] {
  const dives: DelimitedRow[][] = [];
  let known: readonly string[] = [];
  for (const row of rows) {
    const own = TELLING.map((id) => cellOf(row, columns[id]));
    const isSame = dives.length > 0 && own.every((cell, at) => cell === '' || cell === known[at]);
    if (isSame) dives[dives.length - 1]!.push(row);
    else {
      dives.push([row]);
      known = own;
    }
  }
  return dives;
}

/**
 * Dives from a table with a row for each sample.
 * @param text separated by commas, semicolons or tabs, decimals with a point or a comma, headings in any order
 * @param ascentMPerMin at which a record that ends under water is brought up @param words of the reader of troubles
 * @returns the dives that can be taken, and a trouble for each that cannot
 * Source: README, "Recorded profiles".
 */
export function readRecordedRows(
  text: string,
  ascentMPerMin: number,
  words: Words = fileWords,
): RecordedReading {
  const tooLarge = recordTooLarge(text);
  if (tooLarge) return tooLarge;
  const table = readTable(text);
  if ('unclosedLine' in table) {
    return nothingRead(
      'not-readable',
      'A quotation mark is opened and never closed.',
      `line ${table.unclosedLine}`,
      'Close it, or leave it out.',
    );
  }
  const columns = columnsOf(table.headings);
  if (typeof columns === 'string') return nothingRead('not-readable', columns, 'line 1', HEADINGS_MEND);
  const found = divesIn(table.rows, columns);
  if (found.length === 0) {
    return nothingRead('no-dives', 'There is no row under the headings.', '', HEADINGS_MEND);
  }
  if (found.length > MOST_DIVES) {
    const what = `There are ${found.length} dives; ${MOST_DIVES} are read of one file.`;
    return nothingRead('too-large', what, '', 'Save the dives of this trip alone.');
  }
  const dives: RecordedDive[] = [];
  const troubles: Trouble<RecordedTroubleKind>[] = [];
  found.forEach((rows, index) => {
    const dive = diveOf(rows, columns, `dive ${index + 1}`, ascentMPerMin, words);
    if ('samples' in dive) dives.push(dive);
    else troubles.push({ kind: 'dive', ...dive });
  });
  return { dives, troubles };
}
