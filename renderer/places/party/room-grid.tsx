import { useRef, useState, type KeyboardEvent, type ReactNode } from 'react';
import { siteName } from '../../../core/document/site-of';
import type { Dive, Diver } from '../../../core/document/types';
import { setOnDives } from '../../actions/dive-rest';
import type { EditResult } from '../../actions/edit';
import { goToDives } from '../../actions/view';
import { clockText, dateText, depthText, numberText } from '../../figures/format';
import { isRoomUnknown } from '../../../core/ledger/tightest';
import { noMinutesText } from '../../figures/limits';
import { Choice } from '../../parts/choice';
import { RefusalLine } from '../../parts/refusal-line';
import { usePrinting } from '../../parts/use-printing';
import type { Refusal } from '../../parts/use-draft';
import { diveNumber } from '../../store/selectors';
import { useDesk } from '../../store/store';
import { gridBlocks, type GridBlock } from './grid-blocks';
import { selectDivesOn, selectRoomGrid, type GridCell, type GridRow } from './party-figures';
import { choosePartyView, usePartyView } from './party-view';
import { isCare } from './party-words';
import ask from './ask.module.css';
import styles from './room-grid.module.css';

/** Dives side by side on a sheet of paper held upright; fewer where each is headed by its site. */
const ON_PAPER = { wholeTrip: 14, oneDay: 5 } as const;

/** Divers down, dives across: who has how much room where, or who makes which dive. */
export function RoomGrid(): ReactNode {
  const date = usePartyView((view) => view.date);
  const cells = usePartyView((view) => view.cells);
  const trip = useDesk((state) => state.trip);
  const dives = useDesk((state) => selectDivesOn(state, date));
  const rows = useDesk((state) => selectRoomGrid(state, date));
  const isPrinting = usePrinting();
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  if (trip.dives.length === 0)
    return <p className={`soft ${styles.none}`}>No dives yet: add them under Days.</p>;
  const hasUnknown = rows.some(({ cells: held }) =>
    held.some(({ entry, limit }) => entry && isRoomUnknown(entry, limit)),
  );
  const dates = [...new Set(trip.dives.map(({ startsAt }) => startsAt.slice(0, 10)))];
  const isOneDay = date !== null && dives !== trip.dives;
  const paperDives = isOneDay ? ON_PAPER.oneDay : ON_PAPER.wholeTrip;
  const blocks = isPrinting ? gridBlocks(dives, paperDives) : [{ from: 0, dives }];
  const put = (result: EditResult): void => setRefusal(result.ok ? null : result.troubles[0]);
  return (
    <section className={styles.section} aria-label="Who on which dive">
      <div className={styles.tools}>
        <h3>Who on which dive</h3>
        <Choice
          label="Dives of"
          value={isOneDay ? date : ''}
          options={[
            { value: '', label: 'the whole trip' },
            ...dates.map((each) => ({ value: each, label: dateText(each) })),
          ]}
          commit={(each) => choosePartyView({ date: each === '' ? null : each })}
        />
        <Choice
          label="Show"
          value={cells}
          options={[
            { value: 'room', label: 'minutes of room' },
            { value: 'dives', label: 'who makes it' },
          ]}
          commit={(next) => choosePartyView({ cells: next })}
        />
        <p className={`soft ${styles.note}`}>
          {cells === 'room'
            ? `▸ the tightest of a dive. An empty cell: not on it.${hasUnknown ? ' ?: CNS not known.' : ''}`
            : 'A tick puts a diver on a dive. Arrow keys go from tick to tick.'}
        </p>
      </div>
      <RefusalLine refusal={refusal} />
      <div className={styles.wide}>
        {blocks.map((block) => (
          <table key={block.from} className={isOneDay ? `${styles.grid} ${styles.oneDay}` : styles.grid}>
            <caption className="unseen">
              {cells === 'room'
                ? 'Minutes of room by diver and dive; ▸ marks the tightest of each dive'
                : 'Who makes which dive'}
            </caption>
            <Heads dives={block.dives} isOneDay={isOneDay} />
            {cells === 'room' ? (
              <Rooms rows={cellsIn(rows, block)} />
            ) : (
              <Makes rows={cellsIn(rows, block)} dives={block.dives} put={put} />
            )}
          </table>
        ))}
      </div>
    </section>
  );
}

function cellsIn(rows: readonly GridRow[], { from, dives }: GridBlock): readonly GridRow[] {
  return rows.map((row) => ({ ...row, cells: row.cells.slice(from, from + dives.length) }));
}

function Heads({
  dives,
  isOneDay,
}: {
  readonly dives: readonly Dive[];
  readonly isOneDay: boolean;
}): ReactNode {
  const dates = [...new Set(dives.map(({ startsAt }) => startsAt.slice(0, 10)))];
  return (
    <thead>
      {isOneDay ? null : (
        <tr>
          <td />
          {dates.map((date) => (
            <th
              key={date}
              scope="colgroup"
              className={styles.day}
              colSpan={dives.filter(({ startsAt }) => startsAt.startsWith(date)).length}
            >
              {dateText(date)}
            </th>
          ))}
        </tr>
      )}
      <tr>
        <td />
        {dives.map((dive, at) => (
          <DiveHead key={dive.id} dive={dive} isOneDay={isOneDay} isFirst={isFirstOfDay(dives, at)} />
        ))}
      </tr>
    </thead>
  );
}

function isFirstOfDay(dives: readonly Dive[], at: number): boolean {
  return dives[at - 1]?.startsAt.slice(0, 10) !== dives[at]?.startsAt.slice(0, 10);
}

function DiveHead(props: {
  readonly dive: Dive;
  readonly isOneDay: boolean;
  readonly isFirst: boolean;
}): ReactNode {
  const { dive, isOneDay, isFirst } = props;
  const trip = useDesk((state) => state.trip);
  const { units, clock } = useDesk((state) => state.settings);
  const number = diveNumber(trip, dive.id);
  const time = clockText(dive.startsAt, clock);
  const site = siteName(trip, dive);
  const depth = depthText(dive.depthM, units);
  return (
    <th scope="col" className={isFirst ? styles.first : undefined}>
      <button
        type="button"
        className={ask.ask}
        aria-label={`Dive ${number}, ${dateText(dive.startsAt)}, ${time}, ${site}, ${depth}`}
        title={`${time}, ${site}, ${depth}`}
        onClick={() => goToDives([dive.id])}
      >
        {number}
      </button>
      {isOneDay ? (
        <span className={styles.headNote}>
          {time} {site}, {depth}
        </span>
      ) : null}
    </th>
  );
}

function RowHead({ diver }: { readonly diver: Diver }): ReactNode {
  return (
    <th scope="row">
      <span title={diver.name}>{diver.name}</span>
    </th>
  );
}

function Rooms({ rows }: { readonly rows: readonly GridRow[] }): ReactNode {
  return (
    <tbody>
      {rows.map(({ diver, cells }) => (
        <tr key={diver.id} data-diver={diver.id}>
          <RowHead diver={diver} />
          {cells.map((cell, at) => (
            // The dives stand in the columns, so a cell's place names it.
            // oxlint-disable-next-line react/no-array-index-key
            <td key={at} className={classOf(cell)}>
              <RoomText cell={cell} />
            </td>
          ))}
        </tr>
      ))}
    </tbody>
  );
}

function classOf({ entry, roomMin, isPast, isTightest }: GridCell): string {
  const hasLimit = entry !== null && (isPast || roomMin !== null);
  const care = entry !== null && (!entry.isMade || (hasLimit && isCare(roomMin)));
  return [care ? 'care' : '', isTightest ? styles.tightest : ''].filter(Boolean).join(' ');
}

function RoomText({ cell }: { readonly cell: GridCell }): ReactNode {
  const { entry, roomMin, isPast, limit, isTightest } = cell;
  if (entry === null) return <span className="unseen">not on it</span>;
  if (!entry.isMade) return <span title="No mix on board can be used there">no mix</span>;
  if (isPast) {
    return (
      <>
        {isTightest ? <span aria-hidden="true">▸</span> : null}
        <span aria-hidden="true" title={noMinutesText(entry, limit)}>
          {isRoomUnknown(entry, limit) ? '?' : 'past'}
        </span>
        <span className="unseen">{noMinutesText(entry, limit)}</span>
      </>
    );
  }
  if (roomMin === null) {
    return (
      <>
        <span aria-hidden="true">∞</span>
        <span className="unseen">no limit</span>
      </>
    );
  }
  return (
    <>
      {isTightest ? <span aria-hidden="true">▸</span> : null}
      {numberText(roomMin, 0, 'down')}
      {isTightest ? <span className="unseen"> tightest</span> : null}
    </>
  );
}

/** Ticks with one stop for the Tab key; the arrows walk them. */
function Makes(props: {
  readonly rows: readonly GridRow[];
  readonly dives: readonly Dive[];
  readonly put: (result: EditResult) => void;
}): ReactNode {
  const { rows, dives, put } = props;
  const trip = useDesk((state) => state.trip);
  const body = useRef<HTMLTableSectionElement>(null);
  const [at, setAt] = useState({ row: 0, column: 0 });
  // Edits may have taken the row or column away.
  const stop = { row: Math.min(at.row, rows.length - 1), column: Math.min(at.column, dives.length - 1) };
  const onKeyDown = (event: KeyboardEvent): void => {
    const step = { ArrowUp: [-1, 0], ArrowDown: [1, 0], ArrowLeft: [0, -1], ArrowRight: [0, 1] }[event.key];
    if (!step || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    const row = Math.min(Math.max(stop.row + step[0]!, 0), rows.length - 1);
    const column = Math.min(Math.max(stop.column + step[1]!, 0), dives.length - 1);
    setAt({ row, column });
    body.current?.rows[row]?.querySelectorAll('input')[column]?.focus();
  };
  return (
    <tbody ref={body} onKeyDown={onKeyDown}>
      {rows.map(({ diver, cells }, row) => (
        <tr key={diver.id}>
          <RowHead diver={diver} />
          {dives.map((dive, column) => (
            <td key={dive.id}>
              <input
                type="checkbox"
                aria-label={`${diver.name} on dive ${diveNumber(trip, dive.id)}, ${dateText(dive.startsAt)}`}
                checked={cells[column]?.entry !== null}
                tabIndex={row === stop.row && column === stop.column ? 0 : -1}
                onFocus={() => setAt({ row, column })}
                onChange={(event) => put(setOnDives(diver.id, [dive.id], event.target.checked))}
              />
            </td>
          ))}
        </tr>
      ))}
    </tbody>
  );
}
