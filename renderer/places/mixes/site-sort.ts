import type { CompareCell, CompareRow } from '../../../core/mixes/compare';
import type { Id } from '../../../core/document/types';

/** A column of the sites' table: its name, or "mix:" and the id of the mix. */
export type SortKey = 'site' | 'depth' | 'richest' | `mix:${Id}`;

/** The no-stop time a cell shows, for sorting: none at all is the least, without end the most. */
export function shownMin(cell: CompareCell, inTrip: boolean): number {
  const time = inTrip ? cell.inTrip : cell.alone;
  if (time === null) return -1;
  return time.min ?? Number.POSITIVE_INFINITY;
}

function keyOf(row: CompareRow, sort: SortKey, inTrip: boolean): number | string {
  if (sort === 'site') return row.site.name;
  if (sort === 'depth') return row.site.depthM;
  if (sort === 'richest') return row.richest.o2;
  const cell = row.cells.find(({ mix }) => `mix:${mix.id}` === sort);
  return cell ? shownMin(cell, inTrip) : -1;
}

/** Rows in the order of a column; rows alike keep the order of the document. */
export function sortedRows(
  rows: readonly CompareRow[],
  sort: SortKey,
  descending: boolean,
  inTrip: boolean,
): readonly CompareRow[] {
  const sign = descending ? -1 : 1;
  return rows.toSorted((a, b) => {
    const [left, right] = [keyOf(a, sort, inTrip), keyOf(b, sort, inTrip)];
    if (left === right) return 0;
    if (typeof left === 'string')
      return sign * left.localeCompare(String(right), undefined, { numeric: true });
    return sign * (left < Number(right) ? -1 : 1);
  });
}
