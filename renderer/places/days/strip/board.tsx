/** The board above the waterline: each day's dives, in the order of the lines below. */
import { memo, type MouseEvent, type ReactNode } from 'react';
import { showEvening } from '../../../actions/evening';
import { chooseDives, chooseRange, toggleDive } from '../../../actions/view';
import { leaveField } from '../../../parts/keep-focus';
import { useDesk } from '../../../store/store';
import { isSame } from '../../../../core/same';
import type { BoardDay, BoardRow } from './board-view';
import styles from './board.module.css';
import { headSentence, type DayView } from './day-view';
import type { StripForm } from './strip-form';

const DAY_MIN = 1440;

interface BoardProps {
  readonly days: readonly DayView[];
  readonly board: readonly BoardDay[];
  readonly form: StripForm;
  readonly dayWidthPx: number;
  readonly heightPx: number;
  /** Shows the day of a moment over the width of the page. */
  readonly goToDay: (ofMin: number) => void;
}

export function Board(props: BoardProps): ReactNode {
  const { days, board, form, dayWidthPx, heightPx, goToDay } = props;
  return (
    <div
      className={styles.board}
      data-form={form}
      style={{ height: heightPx }}
      onClick={onRow}
      role="presentation"
    >
      {board.map((day, i) => (
        <Day
          key={day.day}
          day={day}
          sentence={headSentence(days[i]!)}
          widthPx={dayWidthPx}
          form={form}
          before={form === 'day' ? (board[i - 1]?.title ?? '') : ''}
          after={form === 'day' ? (board[i + 1]?.title ?? '') : ''}
          goToDay={goToDay}
        />
      ))}
    </div>
  );
}

/** A row is its dive, for a pointer: keys and readers have the line below. */
function onRow(event: MouseEvent<HTMLElement>): void {
  if (!(event.target instanceof Element)) return;
  const id = event.target.closest('[data-dive]')?.getAttribute('data-dive');
  if (id === undefined || id === null) return;
  leaveField();
  if (event.shiftKey) chooseRange(id);
  else if (event.ctrlKey || event.metaKey) toggleDive(id);
  else chooseDives([id]);
  const line = document.querySelector(`[role="option"][data-dive="${CSS.escape(id)}"]`);
  if (line instanceof SVGElement) line.focus({ preventScroll: true });
}

interface DayProps {
  readonly day: BoardDay;
  readonly sentence: string;
  readonly widthPx: number;
  readonly form: StripForm;
  /** The days beside it where it fills the page alone; else empty. */
  readonly before: string;
  readonly after: string;
  readonly goToDay: (ofMin: number) => void;
}

const Day = memo(function Day(props: DayProps): ReactNode {
  const { day, sentence, widthPx, form, before, after, goToDay } = props;
  return (
    <div className={styles.day} style={{ width: widthPx }}>
      <div className={styles.top}>
        <button
          type="button"
          className={styles.head}
          data-part="day head"
          title={`${sentence}. Select its dives`}
          disabled={day.diveIds.length === 0}
          onClick={() => chooseDives(day.diveIds)}
        >
          <span className={styles.said}>
            <span className={styles.title} data-part="day title">
              {day.title}
            </span>{' '}
            {day.summary !== '' && <span>{day.summary}</span>}
          </span>
        </button>
        <BesideDay title={before} atMin={(day.day - 1) * DAY_MIN} goTo={goToDay} arrow="before" />
        <BesideDay title={after} atMin={(day.day + 1) * DAY_MIN} goTo={goToDay} arrow="after" />
        {day.log !== null && (
          <button
            type="button"
            className={day.log === 'open' ? styles.log : styles.logged}
            aria-label={`${day.log === 'open' ? 'Log' : 'logged:'} ${day.name}`}
            data-log={day.date}
            onClick={() => showEvening({ date: day.date, step: 'log' })}
          >
            {day.log === 'open' ? 'Log' : form === 'site' ? null : 'logged'}
            {day.log === 'logged' && <Tick />}
          </button>
        )}
      </div>
      <div aria-hidden="true" className={styles.rows}>
        {day.rows.map((row) => (
          <Row key={row.id} row={row} form={form} />
        ))}
        {day.more > 0 && <span className={styles.soft}>and {day.more} more</span>}
        {day.notes.map(({ text, isCare }) => (
          <span key={text} className={isCare ? styles.care : styles.note} data-part="day note">
            {isCare && form === 'least' && <Pennant />}
            {text}
          </span>
        ))}
      </div>
    </div>
  );
}, isSameDay);

/** Days are made anew at each edit: one that says the same is not drawn again. */
function isSameDay(before: DayProps, now: DayProps): boolean {
  return (
    before.widthPx === now.widthPx &&
    before.form === now.form &&
    before.before === now.before &&
    before.after === now.after &&
    before.goToDay === now.goToDay &&
    before.sentence === now.sentence &&
    isSame(before.day, now.day)
  );
}

interface BesideDayProps {
  readonly title: string;
  readonly atMin: number;
  readonly goTo: (ofMin: number) => void;
  readonly arrow: 'before' | 'after';
}

/** To the day before or after, where one day is shown at a time. */
function BesideDay({ title, atMin, goTo, arrow }: BesideDayProps): ReactNode {
  if (title === '') return null;
  return (
    <button type="button" className={styles.beside} onClick={() => goTo(atMin)}>
      {arrow === 'before' ? `← ${title}` : `${title} →`}
    </button>
  );
}

function Tick(): ReactNode {
  return (
    <svg className={styles.mark} viewBox="0 0 10 10">
      <path className={styles.stroke} d="M1 6l3 3 5-8" />
    </svg>
  );
}

const STATE_PATHS = { missed: 'M1 1l7 7M8 1l-7 7', added: 'M1 5h8M5 1v8' } as const;

function StateMark({ state }: { readonly state: keyof typeof STATE_PATHS }): ReactNode {
  return (
    <svg className={styles.mark} viewBox="0 0 10 10" data-part={state}>
      <path className={styles.stroke} d={STATE_PATHS[state]} />
    </svg>
  );
}

function Pennant(): ReactNode {
  return (
    <svg className={styles.mark} viewBox="0 0 9 10">
      <path className={styles.pennant} d="M1 10V0l7 2.8L1 5.6" />
    </svg>
  );
}

function Row({ row, form }: { readonly row: BoardRow; readonly form: StripForm }) {
  const isChosen = useDesk(({ selection }) => selection.diveIds.includes(row.id));
  const hasRing = row.mark === 'tightest' && form === 'room';
  return (
    <div
      className={styles.row}
      data-dive={row.id}
      data-chosen={isChosen || undefined}
      data-past={row.mark === 'past' || undefined}
      data-tightest={row.mark === 'tightest' || undefined}
      data-absent={row.isAbsent || undefined}
      data-state={row.state}
      title={row.name}
    >
      {(row.state === 'missed' || row.state === 'added') && <StateMark state={row.state} />}
      {row.mark === 'past' && <Pennant />}
      {hasRing && (
        <svg className={styles.mark} viewBox="0 0 10 10">
          <circle className={styles.ring} cx={5} cy={5} r={4} />
        </svg>
      )}
      {form !== 'site' && <b className={styles.start}>{row.start}</b>}
      <span className={styles.site}>{row.site}</span>
      {form === 'room' && <span className={styles.room}>{row.room}</span>}
    </div>
  );
}
