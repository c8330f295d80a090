/** What the board above the waterline says of each day, by the width that a day has. */
import { wallText } from '../../../../core/words/calendar';
import { clockText, dateText, hoursText } from '../../../figures/format';
import { divesByDay, type DayView } from './day-view';
import type { DiveView } from './dive-view';
import { hasMinutes } from './dive-view';
import { MOST_ROWS, type StripForm } from './strip-form';
import type { Reader } from './strip-words';
import { textWidth } from './text-width';

/** How a row is marked: told by shape in the row, and by its words. */
export type RowMark = 'past' | 'tightest' | null;

/** One dive of the board. */
export interface BoardRow {
  readonly id: string;
  readonly start: string;
  readonly site: string;
  /** "4", "−2", or "past"; empty where nothing limits the dive. */
  readonly room: string;
  readonly mark: RowMark;
  readonly isAbsent: boolean;
  readonly state: 'ahead' | 'dived' | 'missed' | 'added';
  readonly name: string;
}

/** A line of a day that is no dive. */
export interface BoardNote {
  readonly text: string;
  readonly isCare: boolean;
}

export interface BoardDay {
  readonly day: number;
  readonly date: string;
  /** As long as there is room for. */
  readonly title: string;
  /** In full, for those who hear it. */
  readonly name: string;
  /** Beside the title, as much as there is room for. */
  readonly summary: string;
  /** Every dive of it is known as it was: `logged`; `open` where it is time to log it. */
  readonly log: 'logged' | 'open' | null;
  readonly rows: readonly BoardRow[];
  /** Dives that have no row. */
  readonly more: number;
  readonly notes: readonly BoardNote[];
  readonly diveIds: readonly string[];
}

const TITLE_PX = 14;
const ROW_PX = 12;
const GAP_PX = 10;
const INSET_PX = 8;

export interface BoardSource {
  readonly days: readonly DayView[];
  readonly views: readonly DiveView[];
  readonly form: StripForm;
  /** Pixels at 100 % text. */
  readonly dayWidthPx: number;
  readonly flyAfterMin: number | null;
  readonly flightMin: number | null;
  /** The clock, where the trip is under way. */
  readonly todayMin: number | null;
  readonly reader: Reader;
}

/** The first that fits beside the title. */
function fitting(title: string, wanted: readonly string[], widthPx: number): string {
  const leftPx = widthPx - INSET_PX - GAP_PX - textWidth(title, 'sansBold', TITLE_PX);
  return wanted.find((text) => textWidth(text, 'condensed', ROW_PX) <= leftPx) ?? '';
}

function titleOf(date: string, isFirst: boolean, form: StripForm, widthPx: number): string {
  const short = dateText(date);
  if (form === 'least') return short;
  const long = dateText(date, true);
  const isWanted = isFirst || date.endsWith('-01') || form === 'day';
  const fits = (text: string): boolean => textWidth(text, 'sansBold', TITLE_PX) <= widthPx - INSET_PX;
  if (isWanted && fits(long)) return long;
  // Beside the button of a narrow day there is room for the number of the day alone.
  return fits(short) ? short : String(Number(date.slice(-2)));
}

function rowOf(view: DiveView): BoardRow {
  const { room } = view;
  return {
    id: view.id,
    start: view.startText,
    site: view.siteName,
    room: room === null || view.isAsDived ? '' : hasMinutes(room) ? room.replace(/ min$/, '') : 'past',
    mark: view.isPast ? 'past' : view.isTightestOfTrip ? 'tightest' : null,
    isAbsent: view.isAbsent,
    state: view.isMissed ? 'missed' : view.isAdded ? 'added' : view.isAsDived ? 'dived' : 'ahead',
    name: view.name,
  };
}

/** "4 dives"; past a limit that comes first, as there is room for one of them alone. */
function leastSummary(dives: readonly DiveView[]): { readonly text: string; readonly isCare: boolean } {
  const past = dives.filter((view) => view.isPast).length;
  if (past > 0) return { text: `${past} over`, isCare: true };
  return { text: dives.length === 1 ? '1 dive' : `${dives.length} dives`, isCare: false };
}

/** From here on a day has room for "No flying before 10:20 pm", pixels at text size 1. */
const WORDY_PX = 135;

function travelNotes(day: DayView, source: BoardSource): readonly BoardNote[] {
  const { flyAfterMin, flightMin, form, reader } = source;
  const notes: BoardNote[] = [];
  const isOn = (min: number | null): min is number => min !== null && Math.floor(min / 1440) === day.day;
  const clock = (min: number): string => clockText(wallText(min), reader.clock);
  if (form === 'least') {
    if (isOn(flightMin)) notes.push({ text: `fly ${clock(flightMin)}`, isCare: false });
    return notes;
  }
  const isRoomy = form !== 'site';
  if (isOn(flyAfterMin)) {
    const at = clock(flyAfterMin);
    // A clock of twelve hours is longer by half a word than a narrow day has room for.
    if (isRoomy && (at.length <= 5 || source.dayWidthPx >= WORDY_PX))
      notes.push({ text: `No flying before ${at}`, isCare: true });
    else notes.push({ text: 'No flying', isCare: true }, { text: `before ${at}`, isCare: true });
  }
  if (isOn(flightMin))
    notes.push({ text: `${isRoomy ? 'Flight home' : 'Flight'} ${clock(flightMin)}`, isCare: false });
  return notes;
}

/** Days up to today are logged, and the first of which not all is known: that one is next. */
function logOf(
  dives: readonly DiveView[],
  isNext: boolean,
  day: DayView,
  source: BoardSource,
): BoardDay['log'] {
  if (dives.length === 0) return null;
  if (isDone(dives)) return 'logged';
  const { todayMin } = source;
  return isNext || (todayMin !== null && day.day <= Math.floor(todayMin / 1440)) ? 'open' : null;
}

function isDone(dives: readonly DiveView[]): boolean {
  return dives.every((view) => view.isAsDived || view.isMissed);
}

/** The button for it, at 100 % text; a narrow day that is logged has its tick alone. */
function logPx(log: BoardDay['log'], form: StripForm): number {
  if (log === null) return 0;
  if (log === 'open') return 34;
  return form === 'site' ? 18 : 54;
}

export function boardDays(source: BoardSource): readonly BoardDay[] {
  const { days, views, form, dayWidthPx } = source;
  const divesOn = divesByDay(views);
  const divesOf = ({ day }: DayView) => divesOn.get(day) ?? [];
  const next = days.find((day) => !isDone(divesOf(day)));
  return days.map((day, i) => {
    const dives = divesOf(day);
    const made = dives.filter((view) => !view.isAbsent && !view.isMissed);
    const notes = travelNotes(day, source);
    const hasRows = form !== 'day' && form !== 'least';
    const count = made.length === 1 ? '1 dive' : `${made.length} dives`;
    // Where rows have minutes of room at their end, the head says what they are.
    const wanted =
      form === 'day'
        ? [`${count}, ${hoursText(day.bottomMin, 'up')} in the water`]
        : form === 'room'
          ? ['min room']
          : [count];
    const log = form === 'least' ? null : logOf(dives, day === next, day, source);
    // Of a day that is logged its button says so, in the place of a summary.
    const leftPx = dayWidthPx - logPx(log, form);
    const title = titleOf(day.date, i === 0, form, leftPx);
    const isTold = form !== 'least' && made.length > 0 && log !== 'logged';
    const least = form === 'least' && made.length > 0 ? [leastSummary(made)] : [];
    return {
      day: day.day,
      date: day.date,
      title,
      name: dateText(day.date, true),
      log,
      summary: isTold ? fitting(title, wanted, leftPx) : '',
      rows: hasRows ? dives.slice(0, MOST_ROWS).map(rowOf) : [],
      more: hasRows ? Math.max(0, dives.length - MOST_ROWS) : 0,
      notes: [...least, ...notes],
      diveIds: made.map(({ id }) => id),
    };
  });
}

/** The rows that the board has room for: of the fullest day, and no more than it ever has. */
export function boardRows(days: readonly BoardDay[], form: StripForm): number {
  if (form === 'day') return 0;
  if (form === 'least') return 1;
  return Math.max(
    1,
    ...days.map(({ rows, more, notes }) =>
      Math.min(rows.length + Number(more > 0) + notes.length, MOST_ROWS + 1),
    ),
  );
}
