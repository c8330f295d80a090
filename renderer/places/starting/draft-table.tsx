/** The draft as days and times, and what can be said of one dive: another site, locked, dropped. */
import { useState, type ReactNode } from 'react';
import type { DraftCell, StartingTrip } from '../../../core/proposal/starting-sheet';
import { siteOf } from '../../../core/document/site-of';
import type { Dive, Trip } from '../../../core/document/types';
import { dayNumber, wallDate, wallMin } from '../../../core/words/calendar';
import { unitOf, type System } from '../../../core/words/quantity';
import { clockText, dateText, depthText, minutesText } from '../../figures/format';
import { useDesk } from '../../store/store';
import { askedOf, lockOf, siteAsk, swapped, type CellChoice } from './draft-cells';
import { changeForm, useStartingView } from './starting-view';
import styles from './starting.module.css';

const DAY_MIN = 1440;

/** The dates from the first diving day to the last, days of rest among them. */
function datesOf(cells: readonly DraftCell[]): readonly string[] {
  const [first = 0, last = 0] = [cells[0]!, cells[cells.length - 1]!].map(({ startsAt }) =>
    dayNumber(wallMin(startsAt)),
  );
  return Array.from({ length: last - first + 1 }, (_, at) => wallDate((first + at) * DAY_MIN));
}

export function DraftTable({ draft }: { readonly draft: StartingTrip }): ReactNode {
  const { cells } = draft;
  const clock = useDesk(({ settings }) => settings.clock);
  const [chosenAt, choose] = useState<string | null>(null);
  const [isSwapping, setSwapping] = useState(false);
  const asked = useStartingView(({ form }) => form.cells);
  if (cells.length === 0) return null;
  const times = [...new Set(cells.map(({ startsAt }) => startsAt.slice(11)))].toSorted();
  const chosen = cells.find(({ startsAt }) => startsAt === chosenAt);
  const press = (cell: DraftCell): void => {
    if (isSwapping && chosen && chosen !== cell) changeForm({ cells: swapped(asked, draft, chosen, cell) });
    setSwapping(false);
    choose(cell.startsAt === chosenAt && !isSwapping ? null : cell.startsAt);
  };
  return (
    <>
      <div className={styles.wide}>
        <table className={styles.days}>
          <caption className="unseen">Dives by day and time</caption>
          <thead>
            <tr>
              <th scope="col">Day</th>
              {times.map((time) => (
                <th key={time} scope="col">
                  {clockText(`0000-00-00T${time}`, clock)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {datesOf(cells).map((date) => (
              <tr key={date}>
                <th scope="row">{dateText(date)}</th>
                {cells.some(({ startsAt }) => startsAt.startsWith(date)) ? (
                  times.map((time) => {
                    const cell = cells.find(({ startsAt }) => startsAt === `${date}T${time}`);
                    return (
                      <td key={time}>
                        {cell ? (
                          <Cell trip={draft.trip} cell={cell} isChosen={cell === chosen} press={press} />
                        ) : null}
                      </td>
                    );
                  })
                ) : (
                  <td colSpan={times.length} className={`soft ${styles.rest}`}>
                    Day of rest
                  </td>
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {chosen ? (
        <Choices draft={draft} cell={chosen} isSwapping={isSwapping} setSwapping={setSwapping} />
      ) : (
        <p className={styles.how}>Choose a dive to change its site, swap it, lock it or drop it.</p>
      )}
    </>
  );
}

/** "30, 20, 10 m" for a dive of several levels. */
function depthsText(dive: Dive, units: System): string {
  const { sign } = unitOf('depth', units);
  const depths = (dive.legs ?? [dive]).map(({ depthM }) => depthText(depthM, units).replace(` ${sign}`, ''));
  return `${depths.join(', ')} ${sign}`;
}

const STATES = { drafted: '', locked: 'locked', dropped: 'dropped', 'left out': 'left out' } as const;

function Cell(props: {
  readonly trip: Trip;
  readonly cell: DraftCell;
  readonly isChosen: boolean;
  readonly press: (cell: DraftCell) => void;
}): ReactNode {
  const { trip, cell, isChosen, press } = props;
  const units = useDesk(({ settings }) => settings.units);
  const dive = trip.dives.find(({ id }) => id === cell.diveId);
  return (
    <button
      type="button"
      className={styles.cell}
      data-state={cell.state}
      aria-pressed={isChosen}
      {...(cell.why === null ? {} : { title: cell.why })}
      onClick={() => press(cell)}
    >
      {dive ? (
        <>
          <span className="figure">
            {depthsText(dive, units)}, {minutesText(dive.bottomMin, 'near')}
          </span>{' '}
          <span className={styles.site}>{siteOf(trip, dive)?.name}</span>
        </>
      ) : null}
      {cell.state === 'drafted' ? null : <span className={styles.state}> {STATES[cell.state]}</span>}
    </button>
  );
}

/** What can be said of one dive of the draft; the others are drafted around it. */
function Choices(props: {
  readonly draft: StartingTrip;
  readonly cell: DraftCell;
  readonly isSwapping: boolean;
  readonly setSwapping: (isSwapping: boolean) => void;
}): ReactNode {
  const { draft, cell, isSwapping, setSwapping } = props;
  const { startsAt, state, why } = cell;
  const clock = useDesk(({ settings }) => settings.clock);
  const cells = useStartingView(({ form }) => form.cells);
  const { sites } = draft.trip;
  const dive = draft.trip.dives.find(({ id }) => id === cell.diveId);
  const put = (choice: CellChoice | null): void => {
    setSwapping(false);
    changeForm({ cells: askedOf(cells, startsAt, choice) });
  };
  const isAsked = cells.some((each) => each.startsAt === startsAt);
  return (
    <div className={styles.choices} role="group" aria-label="The chosen dive">
      <p>
        <strong>
          {dateText(startsAt.slice(0, 10), true)}, {clockText(startsAt, clock)}
        </strong>
        {why === null ? '' : `: ${why}`}
      </p>
      <label className={styles.pick}>
        Site
        <select
          value={dive ? (siteOf(draft.trip, dive)?.name ?? '') : ''}
          onChange={(event) => put(siteAsk(event.target.value))}
        >
          {dive ? null : <option value="">none</option>}
          {sites.map(({ id, name }) => (
            <option key={id} value={name}>
              {name}
            </option>
          ))}
        </select>
      </label>
      {dive ? (
        <>
          <button
            type="button"
            className="button"
            aria-pressed={isSwapping}
            onClick={() => setSwapping(!isSwapping)}
          >
            {isSwapping ? 'Now choose the other dive' : 'Swap'}
          </button>
          <button
            type="button"
            className="button"
            aria-pressed={state === 'locked'}
            onClick={() => put(state === 'locked' ? null : lockOf(draft.trip, dive))}
          >
            {state === 'locked' ? 'Unlock' : 'Lock'}
          </button>
          <button type="button" className="button" onClick={() => put({ kind: 'drop' })}>
            Drop
          </button>
        </>
      ) : null}
      {isAsked && state !== 'locked' ? (
        <button type="button" className="button" onClick={() => put(null)}>
          Draft it again
        </button>
      ) : null}
    </div>
  );
}
