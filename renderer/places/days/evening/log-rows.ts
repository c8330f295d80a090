/** What the log of a day shows: everybody's row and one a diver, each with every dive of the day. */
import type { Settings } from '../../../../core/host';
import {
  loggedValue,
  logState,
  type LogField,
  type LoggedBy,
  type LogState,
} from '../../../../core/document/log';
import { missedDive } from '../../../../core/document/as-dived';
import type { Dive, Id, Trip } from '../../../../core/document/types';
import type { Entry } from '../../../../core/ledger/ledger-types';
import { toUnit } from '../../../../core/words/quantity';
import { figure, said, type Said } from '../../../../core/words/said';
import { clockText, shortText, valueText } from '../../../figures/format';
import { memoEach } from '../../../store/memo';
import { LOG_FIELDS } from './log-cells';

type Viewer = Pick<Settings, 'units' | 'clock'>;
type LogTrip = Pick<Trip, 'mixes'>;

/** One figure of one diver and dive. */
export interface LogCell {
  /** What was entered here; empty where the plan stands, or what everybody did. */
  readonly text: string;
  /** What holds: entered, everybody's or planned. */
  readonly shown: string;
  readonly isOwn: boolean;
  /** Under the figure: how far the dive is, the rate breathed, a limit passed. */
  readonly note: Said | null;
  readonly isPast: boolean;
}

export interface LogOfDive {
  readonly state: LogState;
  readonly reason: string;
  readonly cells: Readonly<Record<LogField, LogCell>>;
}

export interface LogRow {
  readonly by: LoggedBy;
  readonly name: string;
  readonly dives: readonly LogOfDive[];
}

/** A depth, pressure or time as it is typed. */
export function typedText(field: LogField, value: string | number, { units, clock }: Viewer): string {
  if (typeof value === 'string') return clockText(value, clock);
  switch (field) {
    case 'depthM':
      return shortText(toUnit(value, 'depth', units), units === 'imperial' ? 0 : 1, 'up');
    case 'endBar':
      return shortText(toUnit(value, 'pressure', units), 0);
    case 'o2':
      return shortText(value * 100, 2);
    default:
      return shortText(value, 1);
  }
}

/** What is foreseen of a figure that nobody entered: grey, and never taken for a reading. */
function foreseen(field: LogField, dive: Dive, entry: Entry | null, trip: LogTrip, viewer: Viewer): string {
  if (field === 'endBar') {
    const endBar = entry?.gas.endBar ?? null;
    return endBar === null ? '' : valueText(endBar, 'pressure', viewer.units, 'down');
  }
  const o2 = entry?.o2 ?? trip.mixes.find(({ id }) => id === dive.mix)?.o2;
  return o2 === undefined || o2 === null ? '' : typedText('o2', o2, viewer);
}

const STATES: Readonly<Record<LogState, Said | null>> = {
  absent: null,
  planned: null,
  'as-planned': said`✓ as planned`,
  otherwise: said`✓ dived`,
  missed: null,
};

const DUST = 1e-6;

function noteOf(
  field: LogField,
  state: LogState,
  entry: Entry | null,
): { readonly note: Said | null; readonly isPast: boolean } {
  if (field === 'startsAt') return { note: STATES[state], isPast: false };
  if (entry === null) return { note: null, isPast: false };
  if (field === 'endBar' && entry.gas.isEndRead) {
    const { reserveBar } = entry.diver.cylinder;
    if (entry.gas.endBar! < reserveBar - DUST)
      return { note: said`reserve ${figure('pressureNeeded', reserveBar)}`, isPast: true };
    const { breathedLpm } = entry.gas;
    return { note: breathedLpm === null ? null : said`${figure('rateTyped', breathedLpm)}`, isPast: false };
  }
  if (field === 'o2' && entry.isAnalysed && entry.modM !== null && entry.modM < entry.depthM - DUST)
    return { note: said`MOD ${figure('depthLimit', entry.modM)}`, isPast: true };
  return { note: null, isPast: false };
}

function cellOf(
  field: LogField,
  dive: Dive,
  by: LoggedBy,
  entry: Entry | null,
  trip: LogTrip,
  viewer: Viewer,
): LogCell {
  const state = logState(dive, by);
  if (state === 'absent' || state === 'missed')
    return { text: '', shown: '', isOwn: false, note: null, isPast: false };
  const { value, isOwn } = loggedValue(dive, by, field);
  const held =
    value === undefined ? foreseen(field, dive, entry, trip, viewer) : typedText(field, value, viewer);
  const isTyped = isOwn || (by === null && dive.added === true && field !== 'endBar' && field !== 'o2');
  return { text: isTyped ? held : '', shown: held, isOwn: isTyped, ...noteOf(field, state, entry) };
}

function logOf(dive: Dive, by: LoggedBy, entry: Entry | null, trip: LogTrip, viewer: Viewer): LogOfDive {
  const cells = Object.fromEntries(
    LOG_FIELDS.map((field) => [field, cellOf(field, dive, by, entry, trip, viewer)]),
  ) as LogOfDive['cells'];
  const missed = by === null ? dive.notDived?.find((each) => each.by === undefined) : missedDive(dive, by);
  return { state: logState(dive, by), reason: missed?.reason ?? '', cells };
}

/** As `logOf` of a diver who makes the dive: what was not touched is not worded again. */
const logOfEntry = memoEach((entry: Entry, { mixes, units, clock }: Viewer & LogTrip) =>
  logOf(entry.dive, entry.diver.id, entry, { mixes }, { units, clock }),
);

/**
 * The rows of the log.
 * @param dives of the day @param entriesOf the entries of a dive, by diver
 */
export function logRows(
  trip: Trip,
  dives: readonly Dive[],
  entryOf: (diveId: Id, diverId: Id) => Entry | null,
  viewer: Viewer,
): readonly LogRow[] {
  const { mixes } = trip;
  const log = (dive: Dive, by: LoggedBy): LogOfDive => {
    const entry = by === null ? null : entryOf(dive.id, by);
    return entry?.dive === dive
      ? logOfEntry(entry, { mixes, ...viewer })
      : logOf(dive, by, entry, trip, viewer);
  };
  const row = (by: LoggedBy, name: string): LogRow => ({
    by,
    name,
    dives: dives.map((dive) => log(dive, by)),
  });
  return [row(null, 'Everybody'), ...trip.party.map(({ id, name }) => row(id, name))];
}
