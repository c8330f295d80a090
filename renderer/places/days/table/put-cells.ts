/** Many cells put into the trip at once: one step of undo, what cannot be given back cell by cell. */
import { siteOf } from '../../../../core/document/site-of';
import { checkTrip } from '../../../../core/document/check-trip';
import type { Dive, Id, Trip } from '../../../../core/document/types';
import { said } from '../../../../core/words/said';
import { inOrder } from '../../../actions/dives';
import { edit } from '../../../actions/edit';
import { freeId } from '../../../actions/ids';
import type { CellEdit, CellRefusal, PutResult } from '../../../parts/grid/grid';
import { withCell, type CellContext, type PlannedColumn } from './cell-parse';
import { PLANNED, type TableRow } from './table-rows';

/** Read in this order, so that a site's depth does not come over one that is typed beside it. */
const ORDER: readonly PlannedColumn[] = ['site', 'day', 'start', 'levels', 'depth', 'time', 'mix', 'divers'];

const NEW_BOTTOM_MIN = 30;

interface Asked extends CellContext {
  /** As they stand on screen; a row past the last is a new dive. */
  readonly rows: readonly TableRow[];
  /** When a dive begins of which nobody says so. */
  readonly startsAt: string;
}

/** A dive that is typed into the new row: at its site's depth where nothing else is typed. */
function newDive(asked: Asked, edits: readonly CellEdit[], trip: Trip): Dive | null {
  const [firstSite] = trip.sites;
  if (firstSite === undefined) return null;
  const before = trip.dives.at(-1);
  const blank: Dive = {
    id: freeId('d', trip.dives),
    siteId: before?.siteId ?? firstSite.id,
    startsAt: asked.startsAt,
    depthM: firstSite.depthM,
    bottomMin: NEW_BOTTOM_MIN,
    mix: 'auto',
  };
  const typedSite = edits.find(({ column }) => PLANNED[column] === 'site');
  const sited = typedSite ? withCell(blank, 'site', typedSite.text, { ...asked, trip }) : null;
  const dive = sited?.ok ? sited.dive : blank;
  const site = siteOf(trip, dive);
  return { ...dive, depthM: site?.depthM ?? dive.depthM };
}

function put(trip: Trip, dive: Dive): Trip {
  const isThere = trip.dives.some(({ id }) => id === dive.id);
  const dives = isThere
    ? trip.dives.map((each) => (each.id === dive.id ? dive : each))
    : [...trip.dives, dive];
  return { ...trip, dives: inOrder(dives) };
}

/** What came of some of the edits, on the way to the whole. */
interface Made {
  readonly trip: Trip;
  readonly refused: readonly CellRefusal[];
  readonly added?: Id;
}

/**
 * Puts texts into cells, in one step of undo. What cannot be read is refused with its reason; where the trip cannot be
 * with all that could, each cell is tried by itself, and those it cannot be with are refused with what the trip says.
 */
export function putCells(edits: readonly CellEdit[], asked: Asked): PutResult {
  const isNew = ({ row }: CellEdit): boolean => (asked.rows[row]?.dive ?? null) === null;
  const changed = changedRows(
    edits.filter((each) => !isNew(each)),
    asked,
  );
  const whole = newRows(edits.filter(isNew), asked, changed.trip);
  const refused = [...changed.refused, ...whole.refused];
  const count = edits.length - refused.length;
  const label = count === 1 ? 'Cell of the table' : `${count} cells of the table`;
  const result = edit({ label, code: 'table.put' }, () => whole.trip);
  if (result.ok) return { refused, added: whole.added };
  const [trouble] = result.troubles;
  return {
    refused: edits.map(({ row, column }) => ({ row, column, why: said`${trouble.what} ${trouble.mend}` })),
  };
}

/** One row with its cells read into it, one after the other. */
function readRow(dive: Dive, cells: readonly CellEdit[], context: CellContext): Read {
  let next = dive;
  const read: CellEdit[] = [];
  const refused: CellRefusal[] = [];
  for (const each of inColumns(cells)) {
    const result = withCell(next, PLANNED[each.column]!, each.text, context);
    if (result.ok) {
      next = result.dive;
      read.push(each);
    } else refused.push({ row: each.row, column: each.column, why: result.why });
  }
  return { dive: next, read, refused };
}

interface Read {
  readonly dive: Dive;
  readonly read: readonly CellEdit[];
  readonly refused: readonly CellRefusal[];
}

function byRow(edits: readonly CellEdit[]): readonly (readonly CellEdit[])[] {
  const rows = new Map<number, CellEdit[]>();
  for (const each of edits) rows.set(each.row, [...(rows.get(each.row) ?? []), each]);
  return [...rows.values()];
}

function changedRows(edits: readonly CellEdit[], asked: Asked): Made {
  let { trip } = asked;
  const refused: CellRefusal[] = [];
  const waiting: Waiting[] = [];
  for (const cells of byRow(edits)) {
    const row = readRow(asked.rows[cells[0]!.row]!.dive!, cells, asked);
    trip = put(trip, row.dive);
    refused.push(...row.refused);
    for (const each of row.read) waiting.push({ edit: each, diveId: row.dive.id });
  }
  if (checkTrip(trip, asked.words).length === 0) return { trip, refused };
  const cells = oneByOne(asked, waiting);
  return { trip: cells.trip, refused: [...refused, ...cells.refused] };
}

/** Dives that are typed or pasted below the last: each is taken whole or not at all. */
function newRows(edits: readonly CellEdit[], asked: Asked, changed: Trip): Made {
  let trip = changed;
  let added: Id | undefined;
  const refused: CellRefusal[] = [];
  for (const cells of byRow(edits)) {
    const dive = newDive(asked, cells, trip);
    if (dive === null) {
      for (const { row, column } of cells)
        refused.push({ row, column, why: said`Add a site first, under Sites.` });
      continue;
    }
    const made = readRow(dive, cells, { ...asked, trip });
    refused.push(...made.refused);
    if (made.read.length === 0) continue;
    const next = put(trip, made.dive);
    const [trouble] = checkTrip(next, asked.words);
    if (trouble === undefined) {
      trip = next;
      added = dive.id;
    } else {
      for (const { row, column } of made.read)
        refused.push({ row, column, why: said`${trouble.what} ${trouble.mend}` });
    }
  }
  return added === undefined ? { trip, refused } : { trip, refused, added };
}

function placeIn({ column }: CellEdit): number {
  return ORDER.indexOf(PLANNED[column]!);
}

function inColumns(edits: readonly CellEdit[]): readonly CellEdit[] {
  return edits.toSorted((a, b) => placeIn(a) - placeIn(b));
}

interface Waiting {
  readonly edit: CellEdit;
  readonly diveId: Id;
}

function oneByOne(asked: Asked, cells: readonly Waiting[]): Made {
  let { trip } = asked;
  let left = cells;
  // A second round: what was in the way may have moved by then.
  for (let round = 0; round < 2; round += 1) {
    left = left.filter(({ edit: { column, text }, diveId }) => {
      const dive = trip.dives.find(({ id }) => id === diveId)!;
      const result = withCell(dive, PLANNED[column]!, text, { ...asked, trip });
      const next = result.ok ? put(trip, result.dive) : null;
      if (next === null || checkTrip(next, asked.words).length > 0) return true;
      trip = next;
      return false;
    });
  }
  const refused = left.map(({ edit: { row, column, text }, diveId }): CellRefusal => {
    const dive = trip.dives.find(({ id }) => id === diveId)!;
    const result = withCell(dive, PLANNED[column]!, text, { ...asked, trip });
    if (!result.ok) return { row, column, why: result.why };
    const [trouble] = checkTrip(put(trip, result.dive), asked.words);
    return { row, column, why: said`${trouble!.what} ${trouble!.mend}` };
  });
  return { trip, refused };
}
