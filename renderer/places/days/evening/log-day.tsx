import { useCallback, useMemo, type ReactNode } from 'react';
import type { Settings } from '../../../../core/host';
import { siteName } from '../../../../core/document/site-of';
import type { LogField } from '../../../../core/document/log';
import type { DayDate, Dive, Trip } from '../../../../core/document/types';
import type { Entry } from '../../../../core/ledger/ledger-types';
import { unitOf } from '../../../../core/words/quantity';
import { said, type Said } from '../../../../core/words/said';
import { mixSaid } from '../../../../core/words/terms';
import {
  divesOfDay,
  logAsPlanned,
  logMissed,
  logRestAsPlanned,
  putLog,
  type LogEntry,
} from '../../../actions/log';
import { deleteDives } from '../../../actions/dives';
import { tell } from '../../../actions/edit';
import { clockText, depthText, minutesText } from '../../../figures/format';
import { Grid, type CellEdit, type GridColumn, type PutResult } from '../../../parts/grid/grid';
import { useWords } from '../../../parts/use-words';
import { memo, takingUp } from '../../../store/memo';
import { kept } from '../../../store/kept';
import { selectEntriesByDive } from '../../../store/selectors';
import { useDesk } from '../../../store/store';
import { LOG_FIELDS, readCell } from './log-cells';
import { logRows, type LogRow } from './log-rows';
import styles from './evening.module.css';

const FIELD_NAMES: Readonly<Record<LogField, Said>> = {
  startsAt: said`in`,
  depthM: said`deepest`,
  bottomMin: said`bottom time`,
  endBar: said`pressure left`,
  o2: said`oxygen as analysed`,
};

const HEADS: Readonly<Record<LogField, string>> = {
  startsAt: 'In',
  depthM: 'Deepest',
  bottomMin: 'Bottom',
  endBar: 'Left',
  o2: 'O₂',
};

/** Rem. Four dives a day fit a window of 1280 without scrolling; of fewer, what is noted under a figure takes one line. */
const FIELD_REM: Readonly<Record<LogField, number>> = {
  startsAt: 3.7,
  depthM: 3.6,
  bottomMin: 3.3,
  endBar: 3.7,
  o2: 2.7,
};
/** With am and pm. */
const WIDE_TIME_REM = 4.2;
const NAME_REM = 7.3;

const entriesFor = memo((byDive: ReadonlyMap<string, readonly Entry[]>) => {
  return (diveId: string, diverId: string): Entry | null =>
    byDive.get(diveId)?.find(({ diver }) => diver.id === diverId) ?? null;
});

const dayOf = memo(divesOfDay);

type RowsSource = readonly [
  trip: Trip,
  dives: readonly Dive[],
  byDive: ReadonlyMap<string, readonly Entry[]>,
  units: Settings['units'],
  clock: Settings['clock'],
];

/** A figure logged of one diver is drawn in that row: the others say what they said. */
const rowsOf = takingUp(
  (before: readonly LogRow[] | undefined, ...[trip, dives, byDive, units, clock]: RowsSource) =>
    kept(before, logRows(trip, dives, entriesFor(byDive), { units, clock })),
);

function keyOf({ by }: LogRow): string {
  return by ?? '';
}

function rowName({ name }: LogRow): Said {
  return said`${name}`;
}

/** The day's log as a table: divers down, dives across, five figures each. */
export function LogGrid({ date }: { readonly date: DayDate }): ReactNode {
  const trip = useDesk((state) => state.trip);
  const { units, clock } = useDesk(({ settings }) => settings);
  const byDive = useDesk(selectEntriesByDive);
  const words = useWords();
  const dives = dayOf(trip, date);
  const rows = rowsOf(trip, dives, byDive, units, clock);
  const ids = dives.map(({ id }) => id).join();
  const columns = useMemo(
    () => columnsOf(ids === '' ? 0 : ids.split(',').length, units, clock, words),
    [ids, units, clock, words],
  );
  const place = (column: number) => ({
    dive: dives[Math.floor(column / LOG_FIELDS.length)]!,
    field: LOG_FIELDS[column % LOG_FIELDS.length]!,
  });
  const put = (edits: readonly CellEdit[]): PutResult => {
    const read = edits.map((edit) => {
      const { dive, field } = place(edit.column);
      return { edit, dive, change: readCell(edit.text, field, dive, rows[edit.row]!.by, { units, clock }) };
    });
    const taken = read.filter(
      (each): each is typeof each & { change: LogEntry['change'] } => typeof each.change === 'function',
    );
    const troubles = putLog(
      date,
      taken.map(({ dive, change }) => ({ diveId: dive.id, change })),
    );
    return {
      refused: [
        ...read.flatMap(({ edit, change }) =>
          typeof change === 'function' ? [] : [{ row: edit.row, column: edit.column, why: change }],
        ),
        ...taken.flatMap(({ edit }, i) => {
          const trouble = troubles[i];
          return trouble
            ? [{ row: edit.row, column: edit.column, why: said`${trouble.what} ${trouble.mend}` }]
            : [];
        }),
      ],
    };
  };
  const rowHead = useCallback((row: LogRow): ReactNode => row.name, []);
  if (dives.length === 0)
    return <p className="soft">No dive is planned on this day. Add the one that was made.</p>;
  return (
    <div className={styles.grid}>
      <Grid
        label="Log of the day"
        columns={columns}
        rows={rows}
        keyOf={keyOf}
        nameOf={rowName}
        put={put}
        rowHead={rowHead}
        rowHeadRem={NAME_REM}
        takesFocus
        start={{ key: '', column: '0.startsAt' }}
        corner={
          <button type="button" className={styles.rest} onClick={() => void tell(logRestAsPlanned(date))}>
            Rest as planned
          </button>
        }
        above={<Heads dives={dives} />}
        rowClass={({ by }) => (by === null ? styles.everybody : undefined)}
        onKey={(key, places) => {
          if (key.toLowerCase() !== 'p') return false;
          const entries = new Map<string, LogEntry>();
          for (const at of places) {
            const { dive, field } = place(at.column);
            const { by } = rows[at.row]!;
            const change = readCell('p', field, dive, by, { units, clock });
            if (typeof change === 'function') entries.set(`${dive.id} ${by}`, { diveId: dive.id, change });
          }
          putLog(date, [...entries.values()]);
          return true;
        }}
      />
    </div>
  );
}

function columnsOf(
  count: number,
  units: Settings['units'],
  clock: Settings['clock'],
  words: (sentence: Said) => string,
): readonly GridColumn<LogRow>[] {
  const signs: Readonly<Record<LogField, string>> = {
    startsAt: '',
    depthM: unitOf('depth', units).sign,
    bottomMin: 'min',
    endBar: unitOf('pressure', units).sign,
    o2: '%',
  };
  return Array.from({ length: count }, (_, at) =>
    LOG_FIELDS.map((field): GridColumn<LogRow> => ({
      id: `${at}.${field}`,
      name: said`${FIELD_NAMES[field]}, dive ${at + 1} of the day`,
      head: (
        <>
          {HEADS[field]} <small>{signs[field]}</small>
        </>
      ),
      text: (row) => row.dives[at]?.cells[field].text ?? '',
      show: (row) => <Cell row={row} at={at} field={field} words={words} />,
      canEdit: () => true,
      widthRem: field === 'startsAt' && clock === '12h' ? WIDE_TIME_REM : FIELD_REM[field],
      isFigure: true,
      className: (row) => {
        const log = row.dives[at];
        const first = field === 'startsAt' ? styles.first : '';
        return `${first} ${log?.cells[field].isPast ? styles.past : ''}`.trim();
      },
    })),
  ).flat();
}

function Cell(props: {
  readonly row: LogRow;
  readonly at: number;
  readonly field: LogField;
  readonly words: (sentence: Said) => string;
}): ReactNode {
  const { row, at, field, words } = props;
  const log = row.dives[at];
  if (!log) return null;
  if (log.state === 'missed' || log.state === 'absent') {
    if (field !== 'startsAt') return null;
    return (
      <span className={styles.none}>
        {log.state === 'absent'
          ? 'not on this dive'
          : log.reason === ''
            ? 'not dived'
            : `not dived: ${log.reason}`}
      </span>
    );
  }
  const cell = log.cells[field];
  return (
    <>
      <span
        className={
          cell.isOwn
            ? styles.own
            : log.state === 'planned' || field === 'endBar' || field === 'o2'
              ? styles.plan
              : undefined
        }
      >
        {cell.shown}
      </span>
      {row.by === null ? null : (
        <span className={cell.isPast ? styles.pastNote : styles.note}>
          {cell.note ? words(cell.note) : ' '}
        </span>
      )}
    </>
  );
}

/** Over the columns of each dive: which it is, what was planned, and what may be said of it as a whole. */
function Heads({ dives }: { readonly dives: readonly Dive[] }): ReactNode {
  const trip = useDesk((state) => state.trip);
  const clock = useDesk(({ settings }) => settings.clock);
  return (
    <tr className={styles.heads}>
      <td />
      {dives.map((dive) => {
        const name = siteName(trip, dive);
        return (
          <th key={dive.id} scope="colgroup" colSpan={LOG_FIELDS.length}>
            <span className={styles.diveHead}>
              <strong title={name}>
                {dive.added ? '+ ' : ''}
                {clockText(dive.startsAt, clock)} {name}
              </strong>
              <button
                type="button"
                className="linked"
                aria-label={`${name} as planned, for all`}
                onClick={() => void tell(logAsPlanned(dive.id))}
              >
                {dive.added ? 'As entered' : 'As planned'}
              </button>
            </span>
            <span className={styles.diveHead}>
              <em>
                <Planned dive={dive} />
              </em>
              {dive.added ? (
                <button
                  type="button"
                  className="linked"
                  aria-label={`Remove ${name}`}
                  onClick={() => void tell(deleteDives([dive.id]))}
                >
                  Remove
                </button>
              ) : (
                <button
                  type="button"
                  className="linked"
                  aria-label={`${name} not dived by anybody`}
                  onClick={() => void tell(logMissed(dive.id, null, ''))}
                >
                  Not dived
                </button>
              )}
            </span>
          </th>
        );
      })}
    </tr>
  );
}

function Planned({ dive }: { readonly dive: Dive }): ReactNode {
  const units = useDesk(({ settings }) => settings.units);
  const mixes = useDesk(({ trip }) => trip.mixes);
  const words = useWords();
  if (dive.added) return 'added, was not planned';
  const depths = (dive.legs ?? [dive]).map(({ depthM }) => depthText(depthM, units)).join(', ');
  const mix = mixes.find(({ id }) => id === dive.mix);
  return `planned ${depths}, ${minutesText(dive.bottomMin, 'down')}${mix ? `, ${words(mixSaid(mix.o2))}` : ''}`;
}
