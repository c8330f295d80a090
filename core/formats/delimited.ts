/** A cell as it stands in a row: text as it is, numbers with a point, nothing where a figure does not exist. */
export type Cell = string | number | null;

/** A row with the line of the text that it begins on, counted from 1. */
export interface DelimitedRow {
  readonly line: number;
  readonly cells: readonly string[];
}

/** Rows of a text, and the line of a quotation mark that is opened and never closed. */
export interface Delimited {
  readonly rows: readonly DelimitedRow[];
  readonly unclosedLine: number | null;
}

/** Without it some spreadsheets take UTF-8 for an older encoding and spoil every accent. */
const BYTE_ORDER_MARK = '\uFEFF';

/**
 * A spreadsheet would run text that begins so, some after spaces and signs that cannot be seen, and some with
 * signs of full width; apostrophes among those are ours or the writer's own.
 */
const FORMULA = /^(?:['\s\p{C}]*[=+\-@＝＋－＠]|'*[\t\r\n])/u;

/** What parts the cells of a table that is written, and the sign before its decimals. */
export interface CsvStyle {
  readonly separator: ',' | ';';
  readonly decimal: '.' | ',';
}

/** As the standard has it. Source: RFC 4180 (2005). */
const COMMAS: CsvStyle = { separator: ',', decimal: '.' };

/**
 * How tables are written for who has a decimal sign: spreadsheets part cells by what it is not.
 * @param decimal of the reader's system
 * Source: common practice; RFC 4180 (2005) for commas.
 */
export function csvStyleOf(decimal: CsvStyle['decimal']): CsvStyle {
  return decimal === ',' ? { separator: ';', decimal } : COMMAS;
}

/**
 * Rows as separated values.
 * Text that a spreadsheet would take for a formula gets an apostrophe in front, which `plainText` takes off
 * again: trips come from other people, and a name must not become a command.
 * @param rows cells in order @param style of the spreadsheets that will open it
 * @returns text with a byte order mark and CRLF behind every row; cells with separator, quotation mark or line break are
 *   quoted. No line says what parts the cells: readers of the standard would take it for a row.
 * Source: RFC 4180, Common Format and MIME Type for Comma-Separated Values (2005).
 */
export function csvText(rows: readonly (readonly Cell[])[], style: CsvStyle = COMMAS): string {
  const lines = rows.map((row) => `${row.map((cell) => cellText(cell, style)).join(style.separator)}\r\n`);
  return BYTE_ORDER_MARK + lines.join('');
}

/** What makes a cell stand in quotation marks, by what parts the cells. */
const QUOTED: Readonly<Record<CsvStyle['separator'], RegExp>> = { ',': /[",\r\n]/, ';': /[";\r\n]/ };

function cellText(cell: Cell, { separator, decimal }: CsvStyle): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return decimalText(cell).replace('.', decimal);
  const guarded = safeText(cell);
  return QUOTED[separator].test(guarded) ? `"${guarded.replaceAll('"', '""')}"` : guarded;
}

/**
 * Text that no spreadsheet takes for a formula: with an apostrophe in front where one might, which `plainText` takes off.
 * Source: as `csvText`.
 */
export function safeText(cell: string): string {
  return FORMULA.test(cell) ? `'${cell}` : cell;
}

/**
 * A number without an exponent, which neither every spreadsheet nor the schema of GPX knows.
 * @param value finite @returns the shortest decimal that is the number; below 0.000001 twelve decimals
 */
export function decimalText(value: number): string {
  const text = String(value);
  return text.includes('e') ? value.toFixed(12) : text;
}

/**
 * Text as it was before `csvText` guarded it.
 * @param cell as it stands in a row @returns without one apostrophe before what looks like a formula
 */
export function plainText(cell: string): string {
  return cell.startsWith("'") && FORMULA.test(cell) ? cell.slice(1) : cell;
}

/**
 * Reads separated values, quoted or not. In one pass: no text can make it slow.
 * @param text with LF, CRLF or CR line ends; a byte order mark is passed over
 * @param separator between cells. Where it is a tab, a quotation mark that does not enclose a whole cell is
 *   text, as spreadsheets copy it
 * @returns rows with something in them; cells as they stand, spaces kept
 * Source: RFC 4180 (2005); tabs as spreadsheets put them on the clipboard.
 */
export function readDelimited(text: string, separator: Separator): Delimited {
  const rows: DelimitedRow[] = [];
  let unclosedLine: number | null = null;
  let at = text.startsWith(BYTE_ORDER_MARK) ? 1 : 0;
  let line = 1;
  while (at < text.length) {
    const rowLine = line;
    const cells: string[] = [];
    for (;;) {
      const quoted = text[at] === '"' ? quotedCell(text, at, [separator]) : null;
      if (quoted === null && text[at] === '"' && separator !== '\t') unclosedLine ??= line;
      if (quoted !== null) {
        cells.push(quoted.cell);
        line += lineBreaks(quoted.cell);
        at = quoted.end;
      } else {
        const end = plainEnd(text, at, separator);
        cells.push(text.slice(at, end));
        at = end;
      }
      if (text[at] !== separator) break;
      at += 1;
    }
    if (text[at] === '\r' && text[at + 1] === '\n') at += 1;
    at += 1;
    line += 1;
    if (cells.some((cell) => cell.trim() !== '')) rows.push({ line: rowLine, cells });
  }
  return { rows, unclosedLine };
}

function plainEnd(text: string, from: number, separator: string): number {
  let at = from;
  while (at < text.length && text[at] !== separator && text[at] !== '\n' && text[at] !== '\r') at += 1;
  return at;
}

interface Quoted {
  readonly cell: string;
  /** Behind its closing mark. */
  readonly end: number;
}

/** A cell in quotation marks, or null where they do not enclose a whole cell. */
function quotedCell(text: string, from: number, separators: readonly string[]): Quoted | null {
  let at = text.indexOf('"', from + 1);
  while (at !== -1 && text[at + 1] === '"') at = text.indexOf('"', at + 2);
  if (at === -1) return null;
  const next = text[at + 1];
  if (next !== undefined && !separators.includes(next) && next !== '\n' && next !== '\r') return null;
  return { cell: text.slice(from + 1, at).replaceAll('""', '"'), end: at + 1 };
}

function lineBreaks(cell: string): number {
  return cell.split(/\r\n|\r|\n/).length - 1;
}

/** A row as it stands in the text, before it is known what separates its cells. */
export interface DelimitedRecord {
  readonly line: number;
  readonly text: string;
}

/** Cells begin behind any of these, or with the row. */
const SEPARATORS = ['\t', ';', ','] as const;

/** What may separate the cells of a row. */
export type Separator = (typeof SEPARATORS)[number];

/**
 * Cuts a text into rows, each of which may have its own separator. A line break within a quoted cell belongs
 * to the row.
 * @param text with LF, CRLF or CR line ends; a byte order mark is passed over
 * @returns rows with something in them
 * Source: RFC 4180 (2005).
 */
export function readRecords(text: string): readonly DelimitedRecord[] {
  const records: DelimitedRecord[] = [];
  let from = text.startsWith(BYTE_ORDER_MARK) ? 1 : 0;
  let line = 1;
  while (from < text.length) {
    const end = recordEnd(text, from);
    const record = text.slice(from, end);
    if (record.trim() !== '') records.push({ line, text: record });
    line += lineBreaks(record) + 1;
    from = text[end] === '\r' && text[end + 1] === '\n' ? end + 2 : end + 1;
  }
  return records;
}

/** Where a row ends: at the first line break outside a quoted cell. */
function recordEnd(text: string, from: number): number {
  let at = from;
  let isCellStart = true;
  while (at < text.length) {
    const letter = text[at]!;
    if (letter === '\n' || letter === '\r') return at;
    const quoted: Quoted | null = isCellStart && letter === '"' ? quotedCell(text, at, SEPARATORS) : null;
    isCellStart = quoted === null && isSeparator(letter);
    at = quoted === null ? at + 1 : quoted.end;
  }
  return at;
}

function isSeparator(letter: string): letter is Separator {
  return (SEPARATORS as readonly string[]).includes(letter);
}

/**
 * The separators that stand outside the quoted cells of a row, the one least used within text first: a tab
 * before a semicolon before a comma.
 * @param record of `readRecords`
 */
export function separatorsIn(record: string): readonly Separator[] {
  const found = new Set<Separator>();
  let isCellStart = true;
  for (let at = 0; at < record.length;) {
    const letter = record[at]!;
    const quoted: Quoted | null = isCellStart && letter === '"' ? quotedCell(record, at, SEPARATORS) : null;
    isCellStart = quoted === null && isSeparator(letter);
    if (quoted === null && isSeparator(letter)) found.add(letter);
    at = quoted === null ? at + 1 : quoted.end;
  }
  return SEPARATORS.filter((separator) => found.has(separator));
}
