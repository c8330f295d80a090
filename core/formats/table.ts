/** A table as people have it: whatever parts its cells, whichever sign its decimals have, headings in any order. */
import {
  plainText,
  readDelimited,
  readRecords,
  separatorsIn,
  type DelimitedRow,
  type Separator,
} from './delimited';

/** Rows under headings. */
export interface Table {
  /** As they stand, trimmed. */
  readonly headings: readonly string[];
  readonly rows: readonly DelimitedRow[];
}

/** Some spreadsheets begin a file with what parts its cells. */
const SEP_LINE = /^\uFEFF?sep=(.)(?:\r\n|\r|\n)/i;

function isSeparator(letter: string | undefined): letter is Separator {
  return letter === '\t' || letter === ';' || letter === ',';
}

/**
 * Reads a table with one row of headings.
 * @param text comma-separated, with semicolons or tabs; a first line "sep=;" is taken for what it says
 * @returns headings and rows, or the line of a quotation mark that is never closed
 * Source: RFC 4180 (2005); semicolons and "sep=" as spreadsheets write them where the comma is the decimal sign.
 */
export function readTable(text: string): Table | { readonly unclosedLine: number } {
  const said = SEP_LINE.exec(text);
  // An empty line in its place keeps the numbers of the lines.
  const body = said ? `\n${text.slice(said[0].length)}` : text;
  const [first] = readRecords(body.length > HEAD ? body.slice(0, HEAD) : body);
  const separator = isSeparator(said?.[1]) ? said[1] : (separatorsIn(first?.text ?? '')[0] ?? ',');
  const { rows, unclosedLine } = readDelimited(body, separator);
  if (unclosedLine !== null) return { unclosedLine };
  const [head, ...rest] = rows;
  return { headings: head?.cells.map((cell) => plainText(cell).trim()) ?? [], rows: rest };
}

/** Headings stand in the first letters of a text. */
const HEAD = 20_000;

/**
 * A number as it stands in a cell, its decimals after a point or a comma.
 * @returns not a number for anything else, an empty cell included; no thousands are parted, as "1,500" may be either
 */
export function cellNumber(cell: string): number {
  const text = plainText(cell).trim().replace('\u2212', '-');
  return /^[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)$/.test(text) ? Number(text.replace(',', '.')) : Number.NaN;
}
