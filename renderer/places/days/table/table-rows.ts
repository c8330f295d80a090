/** The trip as rows: what is planned of each dive, and the figures of the diver shown. */
import { siteName } from '../../../../core/document/site-of';
import { missedDive, saysDived } from '../../../../core/document/as-dived';
import type { Dive, Id, Trip } from '../../../../core/document/types';
import { deepestLevel } from '../../../../core/ledger/level-limits';
import type { Entry } from '../../../../core/ledger/ledger-types';
import { roomShortSaid } from '../../../../core/ledger/room-said';
import { isPastRoom, type RoomOf } from '../../../../core/ledger/tightest';
import { toUnit, type System } from '../../../../core/words/quantity';
import type { Words } from '../../../../core/words/reader';
import {
  bare,
  clockSpan,
  dayOf,
  figure,
  said,
  timeOfDay,
  typed,
  type Piece,
} from '../../../../core/words/said';
import { mixSaid, NONE, SHORT_LIMITS, UNLIMITED } from '../../../../core/words/terms';

/** The columns that can be typed in, in their order. */
export const PLANNED = ['day', 'start', 'site', 'depth', 'time', 'levels', 'mix', 'divers'] as const;

/** The columns that are worked out. */
export const WORKED_OUT = [
  'who',
  'interval',
  'noStop',
  'room',
  'limit',
  'po2',
  'cns',
  'cnsDay',
  'left',
] as const;

export type ColumnId = (typeof PLANNED)[number] | (typeof WORKED_OUT)[number];

export interface TableRow {
  readonly key: string;
  /** null: the row that a new dive is typed into. */
  readonly dive: Dive | null;
  /** Counted from 1 in the order of the trip. */
  readonly number: number;
  readonly texts: Readonly<Record<ColumnId, string>>;
  /** What rows are sorted by: figures as they are, not as they read. */
  readonly sorts: Readonly<Record<ColumnId, number | string>>;
  readonly isPast: boolean;
  readonly isTightest: boolean;
  /** Logged, or missed by all: what was dived is changed in the log. */
  readonly isLocked: boolean;
}

/** What the rows depend on. */
export interface RowSource {
  readonly trip: Trip;
  readonly units: System;
  readonly words: Words;
  readonly entryOf: (diveId: Id) => Entry | null;
  readonly roomOf: RoomOf;
  readonly tight: ReadonlySet<Id>;
  readonly past: ReadonlySet<Id>;
}

/** The row below the last. */
export const NEW_ROW = 'new';

export function isLocked(dive: Dive, { party }: Trip): boolean {
  const isMissed = party.every(
    ({ id }) => missedDive(dive, id) !== null || dive.divers?.includes(id) === false,
  );
  return (dive.asDived ?? []).some(saysDived) || isMissed;
}

export function tableRows(source: RowSource): readonly TableRow[] {
  const rows = source.trip.dives.map((dive, at) => rowOf(dive, at + 1, source));
  return [...rows, newRow(rows.length + 1)];
}

function newRow(number: number): TableRow {
  const ids = [...PLANNED, ...WORKED_OUT];
  const texts = Object.fromEntries(ids.map((id) => [id, ''])) as Record<ColumnId, string>;
  return {
    key: NEW_ROW,
    dive: null,
    number,
    texts,
    sorts: texts,
    isPast: false,
    isTightest: false,
    isLocked: false,
  };
}

/** Levels as they are typed: "36/9 20/12", in the reader's units. */
function levelsText(dive: Dive, words: Words): string {
  return (dive.legs ?? [])
    .map(({ depthM, min }) =>
      words(said`${bare('depthSet', depthM)}/${{ ...typed('minutes', min, 'near'), isBare: true }}`),
    )
    .join(' ');
}

function plannedTexts(dive: Dive, { trip, words }: RowSource): Readonly<Record<string, string>> {
  const mix = trip.mixes.find(({ id }) => id === dive.mix);
  const names = trip.party.filter(({ id }) => dive.divers?.includes(id)).map(({ name }) => name);
  const of = (piece: Piece): string => words(said`${piece}`);
  return {
    day: of(dayOf(dive.startsAt.slice(0, 10), 'weekday')),
    start: of(timeOfDay(dive.startsAt.slice(11))),
    site: siteName(trip, dive),
    depth: of(bare('depthSet', dive.depthM)),
    time: of({ ...typed('minutes', dive.bottomMin, 'near'), isBare: true }),
    levels: levelsText(dive, words),
    mix: mix ? of(mixSaid(mix.o2)) : words(said`best`),
    divers: dive.divers ? names.join(', ') : words(said`all`),
  };
}

function workedTexts(entry: Entry | null, { words, roomOf }: RowSource): Readonly<Record<string, string>> {
  const none = Object.fromEntries(WORKED_OUT.map((id) => [id, ''])) as Record<string, string>;
  if (entry === null) return none;
  if (!entry.isMade) return { ...none, who: entry.diver.name, limit: words(said`no mix`) };
  const room = roomOf(entry);
  const level = deepestLevel(entry.levels);
  const of = (piece: Piece): string => words(said`${piece}`);
  return {
    who: entry.diver.name,
    interval: entry.intervalMin === null ? words(said`first`) : of(clockSpan(entry.intervalMin, 'down')),
    noStop: of(level.unlimited ? UNLIMITED : bare('minutesLeft', level.noStopMin)),
    room:
      room.min === null
        ? room.minLimit === null
          ? NONE
          : words(roomShortSaid(entry, room))
        : of(bare('minutesLeft', room.min)),
    limit: room.minLimit === null ? '' : words(SHORT_LIMITS[room.minLimit]),
    po2: of(bare('po2Met', entry.po2Bar)),
    cns: of(figure('shareMet', entry.cns.after)),
    cnsDay: of(figure('shareMet', entry.cns.day)),
    left: of(bare('pressureLeft', entry.gas.endBar)),
  };
}

function rowOf(dive: Dive, number: number, source: RowSource): TableRow {
  const { trip, roomOf, units } = source;
  const entry = source.entryOf(dive.id);
  const texts = { ...plannedTexts(dive, source), ...workedTexts(entry, source) } as Record<ColumnId, string>;
  const made = entry?.isMade ? entry : null;
  const sorts: Record<ColumnId, number | string> = {
    ...texts,
    day: dive.startsAt,
    start: dive.startsAt.slice(11),
    depth: toUnit(dive.depthM, 'depth', units),
    time: dive.bottomMin,
    levels: dive.legs?.length ?? 0,
    interval: made?.intervalMin ?? -1,
    noStop: made ? (deepestLevel(made.levels).noStopMin ?? Infinity) : -1,
    room: made ? (roomOf(made).min ?? (roomOf(made).minLimit === null ? Infinity : -Infinity)) : -Infinity,
    po2: made?.po2Bar ?? -1,
    cns: made?.cns.after ?? -1,
    cnsDay: made?.cns.day ?? -1,
    left: made?.gas.endBar ?? -1,
  };
  return {
    key: dive.id,
    dive,
    number,
    texts,
    sorts,
    isPast: source.past.has(dive.id) || (entry !== null && isPastRoom(entry, roomOf(entry))),
    isTightest: source.tight.has(dive.id),
    isLocked: isLocked(dive, trip),
  };
}

/** Rows by a column, the new row last; those alike in the order of the trip. */
export function sortedRows(rows: readonly TableRow[], column: string, isDown: boolean): readonly TableRow[] {
  const by = (row: TableRow): number | string => row.sorts[column as ColumnId];
  const sign = isDown ? -1 : 1;
  return rows.toSorted((a, b) => {
    if (a.dive === null || b.dive === null) return a.dive === b.dive ? 0 : a.dive === null ? 1 : -1;
    const [one, other] = [by(a), by(b)];
    const order =
      typeof one === 'string' && typeof other === 'string'
        ? one.localeCompare(other)
        : one < other
          ? -1
          : one > other
            ? 1
            : 0;
    return sign * order || a.number - b.number;
  });
}
