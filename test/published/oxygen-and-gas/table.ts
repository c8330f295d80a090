import { readFileSync } from 'node:fs';

/**
 * The rows of a published table beside this file. A lost row, a lost column or a cell that is no number must
 * fail here, before any value is compared.
 * @param name of the file @param columns as its header names them @param count of its rows
 * @returns a record a row; an empty cell is NaN
 */
export function publishedRows<Column extends string>(
  name: string,
  columns: readonly Column[],
  count: number,
): readonly Record<Column, number>[] {
  const [header, ...lines] = readFileSync(new URL(name, import.meta.url), 'utf8')
    .trimEnd()
    .split('\n');
  const names = header!.split(',');
  const missing = columns.filter((column) => !names.includes(column));
  if (missing.length > 0) throw new Error(`${name} has no column ${missing.join(', ')}`);
  if (lines.length !== count) throw new Error(`${name} has ${lines.length} rows, not ${count}`);
  return lines.map((line, index) => {
    const cells = line.split(',');
    if (cells.length !== names.length) throw new Error(`${name}, row ${index + 1}: ${cells.length} cells`);
    const entries = columns.map((column) => {
      const cell = cells[names.indexOf(column)]!;
      const value = cell === '' ? Number.NaN : Number(cell);
      if (cell !== '' && !Number.isFinite(value)) throw new Error(`${name}, row ${index + 1}: "${cell}"`);
      return [column, value] as const;
    });
    return Object.fromEntries(entries) as Record<Column, number>;
  });
}
