import { useCallback, useMemo, useState, type ReactNode } from 'react';
import { unitOf } from '../../../../core/words/quantity';
import { capital } from '../../../../core/words/reader';
import { NOTHING, said, type Said } from '../../../../core/words/said';
import { chooseDiver, chooseDives, showTable } from '../../../actions/view';
import { nextStart } from '../../../actions/next-start';
import { todayText } from '../../../figures/local-time';
import { wordsIn } from '../../../figures/reader';
import { Grid, type CellEdit, type GridColumn, type PutResult, type Sorting } from '../../../parts/grid/grid';
import { useWords } from '../../../parts/use-words';
import { selectRooms, selectStanding, shownEntry } from '../../../store/selectors';
import { desk, useDesk } from '../../../store/store';
import { Pennant } from '../pennant';
import { putCells } from './put-cells';
import {
  NEW_ROW,
  PLANNED,
  sortedRows,
  tableRows,
  WORKED_OUT,
  type ColumnId,
  type TableRow,
} from './table-rows';
import styles from './trip-table.module.css';

const NAMES: Readonly<Record<ColumnId, Said>> = {
  day: said`day`,
  start: said`start`,
  site: said`site`,
  depth: said`depth`,
  time: said`bottom time`,
  levels: said`levels`,
  mix: said`mix`,
  divers: said`divers`,
  who: said`who`,
  interval: said`interval`,
  noStop: said`no-stop time`,
  room: said`room`,
  limit: said`limit`,
  po2: said`PO2`,
  cns: said`CNS`,
  cnsDay: said`CNS of 24 h`,
  left: said`pressure left`,
};

const FIGURES: ReadonlySet<ColumnId> = new Set<ColumnId>([
  'depth',
  'time',
  'interval',
  'noStop',
  'room',
  'po2',
  'cns',
  'cnsDay',
  'left',
]);

/** Rem. All of them fit a window of 1280, and long lists of names and levels take two lines. */
const REM: Readonly<Record<ColumnId, number>> = {
  day: 4,
  start: 4.4,
  site: 7.3,
  depth: 3.2,
  time: 3.2,
  levels: 8,
  mix: 3.3,
  divers: 9.4,
  who: 4.7,
  interval: 3.7,
  noStop: 3.9,
  room: 3.3,
  limit: 3.9,
  po2: 2.6,
  cns: 2.8,
  cnsDay: 2.8,
  left: 3.4,
};
const NUMBER_REM = 3.4;

const keyOf = ({ key }: TableRow): string => key;
const nameOf = ({ dive, number }: TableRow): Said =>
  dive === null ? said`the new dive` : said`dive ${number}`;
const canEdit = ({ isLocked }: TableRow): boolean => !isLocked;

function RowHead({ dive, number, isPast, isTightest }: TableRow): ReactNode {
  if (dive === null) return null;
  return (
    <button type="button" className={styles.number} onClick={() => showCard(dive.id)}>
      {isPast ? <Pennant /> : isTightest ? <span className={styles.ring} aria-hidden="true" /> : null}
      {number}
    </button>
  );
}

function showCard(diveId: string): void {
  chooseDives([diveId]);
  showTable(false);
}

/** The trip as rows, one a dive, typed into as a spreadsheet is; beside what is planned the figures of the diver shown. */
export function TripTable(): ReactNode {
  const words = useWords();
  const trip = useDesk((state) => state.trip);
  const units = useDesk(({ settings }) => settings.units);
  const diverId = useDesk(({ selection }) => selection.diverId);
  const chosenId = useDesk(({ selection }) => selection.diveIds[0]);
  const roomOf = useDesk(selectRooms);
  const standing = useDesk(selectStanding);
  const [sorting, setSorting] = useState<Sorting>({ column: 'day', isDown: false });
  const [start] = useState(() => ({ key: chosenId ?? trip.dives[0]?.id ?? NEW_ROW, column: 'depth' }));

  const rows = useMemo(() => {
    const state = desk.getState();
    const all = tableRows({
      trip,
      units,
      words,
      entryOf: (id) => shownEntry({ ...state, selection: { ...state.selection, diverId } }, id),
      roomOf,
      tight: new Set(standing.tight.map(({ dive }) => dive.id)),
      past: new Set([...standing.past, ...standing.withoutMix]),
    });
    return sortedRows(all, sorting.column, sorting.isDown);
  }, [trip, units, words, diverId, roomOf, standing, sorting]);

  const columns = useMemo(
    () =>
      columnsOf(
        trip.sites.map(({ name }) => name),
        (id) => headOf(id, units),
        words,
      ),
    [trip.sites, units, words],
  );

  const put = (edits: readonly CellEdit[]): PutResult => {
    const state = desk.getState();
    return putCells(edits, {
      trip: state.trip,
      settings: state.settings,
      words: wordsIn({ ...state.settings, trip: state.trip }),
      rows,
      startsAt: nextStart({ ...state, selection: { ...state.selection, diveIds: [] } }, todayText()),
    });
  };
  const onSort = (column: string): void =>
    setSorting((before) => ({ column, isDown: before.column === column && !before.isDown }));
  const rowHead = useCallback((row: TableRow) => <RowHead {...row} />, []);

  return (
    <section className={styles.table} aria-label={words(said`The dives as a table`)}>
      <Grid
        label={words(said`Dives, a row each`)}
        kind="dive"
        columns={columns}
        rows={rows}
        keyOf={keyOf}
        nameOf={nameOf}
        put={put}
        grows
        rowHead={rowHead}
        rowHeadRem={NUMBER_REM}
        rowClass={rowClass}
        above={<Above />}
        sorting={sorting}
        onSort={onSort}
        onMove={({ dive }) => {
          if (dive) chooseDives([dive.id]);
        }}
        start={start}
        takesFocus
      />
      <p className={styles.foot}>
        <span className="soft">
          {words(
            said`Type into the lighter cells. The number before a row opens its card; the last row adds a dive.`,
          )}
        </span>
        <button type="button" className="linked" onClick={() => showTable(false)}>
          {words(said`Back to the strip`)}
        </button>
      </p>
    </section>
  );
}

function rowClass({ isLocked, dive }: TableRow): string | undefined {
  if (dive === null) return styles.fresh;
  return isLocked ? styles.locked : undefined;
}

/** The unit of a column, said once in its head. */
function headOf(id: ColumnId, units: 'metric' | 'imperial'): Said {
  const unit = ((): Said => {
    if (id === 'depth') return said`${unitOf('depth', units).sign}`;
    if (id === 'left') return said`${unitOf('pressure', units).sign}`;
    return id === 'time' || id === 'noStop' || id === 'room' ? said`min` : NOTHING;
  })();
  const short: Partial<Record<ColumnId, Said>> = {
    time: said`time`,
    noStop: said`no-stop`,
    left: said`left`,
    cnsDay: said`24 h`,
  };
  return said`${short[id] ?? NAMES[id]} ${unit}`;
}

function columnsOf(
  siteNames: readonly string[],
  head: (id: ColumnId) => Said,
  words: (sentence: Said) => string,
): readonly GridColumn<TableRow>[] {
  const common = (id: ColumnId): GridColumn<TableRow> => ({
    id,
    name: NAMES[id],
    head: capital(words(head(id))),
    text: ({ texts }) => texts[id],
    widthRem: REM[id],
    isFigure: FIGURES.has(id),
    canSort: true,
    className: (row) => classOf(id, row),
  });
  return [
    ...PLANNED.map((id) => ({
      ...common(id),
      canEdit,
      ...(id === 'site' ? { options: siteNames } : {}),
      ...(id === 'day'
        ? {
            show: ({ dive, texts }: TableRow) =>
              dive === null ? <em>{words(said`new dive`)}</em> : texts.day,
          }
        : {}),
    })),
    ...WORKED_OUT.map(common),
  ];
}

function classOf(id: ColumnId, { isPast, isTightest }: TableRow): string | undefined {
  if (id === 'levels' || id === 'divers') return styles.long;
  if (id === 'site') return `${styles.long} ${styles.strong}${isPast ? ' care' : ''}`;
  if (id === 'day') return styles.strong;
  if (id === 'who') return styles.edge;
  if (id === 'room' || id === 'limit')
    return isPast ? `${styles.strong} care` : isTightest ? styles.strong : undefined;
  return undefined;
}

/** What is planned, and whose figures stand beside it. */
function Above(): ReactNode {
  const words = useWords();
  const party = useDesk(({ trip }) => trip.party);
  const diverId = useDesk(({ selection }) => selection.diverId);
  return (
    <tr className={styles.above}>
      <td />
      <td colSpan={PLANNED.length}>{words(said`Plan`)}</td>
      <td colSpan={WORKED_OUT.length} className={styles.edge}>
        <label>
          {words(said`Figures of`)}{' '}
          <select
            value={diverId ?? ''}
            onChange={(event) => chooseDiver(event.target.value === '' ? null : event.target.value)}
          >
            <option value="">{words(said`the diver with the least room`)}</option>
            {party.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </label>
      </td>
    </tr>
  );
}
