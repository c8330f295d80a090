import { wallDate } from '../words/calendar';
import type { DiverLedger, Entry } from '../ledger/ledger-types';
import { timelineOf, type Steps, type TimelinePoint } from '../ledger/timeline';
import type { Trip } from '../document/types';
import { dateText, divesText, diveDepths, down, joined, percentUp, up, type SlateUnits } from './figures';
import {
  area,
  polyline,
  straight,
  type Block,
  type Mark,
  type Point,
  type Setter,
  type TextStyle,
} from './layout';
import { depthLine } from './profile-line';

const DAY_MIN = 1440;

/** Share of a day's width that belongs to its diving hours; the night gets the rest. */
const DAYTIME_SHARE = 0.84;

/** White around the first and the last dive of the diving hours, minutes. */
const EDGE_MIN = 45;

/** Light enough for the limit to stand out against, dark enough for a poor printer. */
const NITROGEN_GREY = 0.8;

/** Finer is not told apart on a trip printed across a page. */
const PRINTED_STEPS: Steps = { waterMin: 2, surfaceMin: 5 };

/** The oxygen band ends at a multiple of this share, so that its scale has a round number. */
const OXYGEN_STEP = 0.25;

/** Time along the page: every day equally wide, its diving hours most of it. Strictly rising. */
export interface TimeScale {
  readonly firstDay: number;
  readonly days: number;
  /** Position of a moment, 0 at the left end to 1 at the right. */
  readonly at: (min: number) => number;
}

/**
 * The scale of a trip: from the first day of its dives to the last, those that are not made included, as their
 * days have a heading too.
 * @param entries at least one
 */
export function timeScale(entries: readonly Entry[]): TimeScale {
  const dayOf = (min: number): number => Math.floor(min / DAY_MIN);
  const firstDay = dayOf(Math.min(...entries.map((entry) => entry.startMin)));
  const days = dayOf(Math.max(...entries.map((entry) => entry.surfacesMin))) - firstDay + 1;
  const starts = entries.map((entry) => entry.startMin - dayOf(entry.startMin) * DAY_MIN);
  const ends = entries.map((entry) => Math.min(DAY_MIN, entry.surfacesMin - dayOf(entry.startMin) * DAY_MIN));
  const from = Math.max(0, Math.min(...starts) - EDGE_MIN);
  const to = Math.min(DAY_MIN, Math.max(...ends) + EDGE_MIN);
  const night = DAY_MIN - (to - from);
  const dayShare = night <= 0 ? 1 : DAYTIME_SHARE;
  const before = night <= 0 ? 0 : ((1 - dayShare) * from) / night;
  return {
    firstDay,
    days,
    at: (min) => {
      const day = dayOf(min) - firstDay;
      const time = min - dayOf(min) * DAY_MIN;
      const inDay =
        time < from
          ? (time / Math.max(from, 1)) * before
          : time <= to
            ? before + ((time - from) / (to - from)) * dayShare
            : before + dayShare + ((time - to) / (DAY_MIN - to)) * (1 - dayShare - before);
      return (day + inDay) / days;
    },
  };
}

const NITROGEN_TITLES = [
  'Nitrogen on surfacing, if the diver went straight up; dashed line the limit',
  'Nitrogen on surfacing; dashed, the limit',
  'Nitrogen',
];
const OXYGEN_TITLES = ['Oxygen carried: CNS clock; dotted, the 24 h clock', 'CNS; dotted, 24 h', 'CNS'];

/** Lines of the heading of a day, and how far they stand off its left edge, points. */
const DAY_LINES = 3;
const DAY_INSET_PT = 2;

interface Plot {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

function curve(
  points: readonly TimelinePoint[],
  scale: TimeScale,
  plot: Plot,
  of: (point: TimelinePoint) => number,
  top: number,
): readonly Point[] {
  return points.map((point) => ({
    x: plot.x + scale.at(point.atMin) * plot.width,
    y: plot.y + plot.height * (1 - Math.min(1, Math.max(0, of(point) / top))),
  }));
}

/** The longest title that fits over a band, and two marks of its scale in the gutter: zero, and `share` of `top`. */
function bandFrame(
  set: Setter,
  titles: readonly string[],
  scale: { readonly share: number; readonly top: number },
  plot: Plot,
  gutter: number,
  style: TextStyle,
): readonly Mark[] {
  const title = titles.find((text) => set.width(text, style) <= plot.width) ?? '';
  const heading = set.text(title, style, plot.width);
  const right: TextStyle = { ...style, align: 'right' };
  const upper = set.text(percentUp(scale.share), right, gutter - 4);
  const zero = set.text('0', right, gutter - 4);
  const foot = plot.y + plot.height;
  const y = plot.y + plot.height * (1 - scale.share / scale.top);
  const zeroY = foot - zero.heightPt + 2;
  // In a low band the mark may come close to the foot: a zero there goes without saying.
  const hasZero = y + upper.heightPt / 2 <= zeroY;
  return [
    ...heading.at(plot.x, plot.y - heading.heightPt - 1),
    ...upper.at(plot.x - gutter, y - upper.heightPt / 2),
    straight(plot.x - 3, y, plot.x, y, 0.6),
    ...(hasZero ? zero.at(plot.x - gutter, zeroY) : []),
    straight(plot.x, foot, plot.x + plot.width, foot, 0.6),
  ];
}

function nitrogenMarks(
  points: readonly TimelinePoint[],
  scale: TimeScale,
  plot: Plot,
  top: number,
): readonly Mark[] {
  const line = curve(points, scale, plot, (point) => point.fractionOfLimit, top);
  const foot = plot.y + plot.height;
  const limitY = plot.y + plot.height * (1 - 1 / top);
  return [
    area([{ x: line[0]!.x, y: foot }, ...line, { x: line[line.length - 1]!.x, y: foot }], NITROGEN_GREY),
    polyline(line, 0.8),
    straight(plot.x, limitY, plot.x + plot.width, limitY, 0.8, [6, 2]),
  ];
}

/** Runs of points for which a figure exists: a clock that cannot be known leaves a gap, not a zero. */
function known(
  points: readonly TimelinePoint[],
  of: (point: TimelinePoint) => number | null,
): readonly TimelinePoint[][] {
  const runs: TimelinePoint[][] = [[]];
  for (const point of points) {
    if (of(point) === null) runs.push([]);
    else runs[runs.length - 1]!.push(point);
  }
  return runs.filter((run) => run.length > 1);
}

function oxygenMarks(
  points: readonly TimelinePoint[],
  scale: TimeScale,
  plot: Plot,
  top: number,
): readonly Mark[] {
  const single = known(points, (point) => point.cns).map((run) =>
    polyline(
      curve(run, scale, plot, (point) => point.cns!, top),
      1,
    ),
  );
  const day = known(points, (point) => point.cnsDay).map((run) =>
    polyline(
      curve(run, scale, plot, (point) => point.cnsDay!, top),
      0.8,
      [2, 2],
    ),
  );
  return [...single, ...day];
}

function leadLines(
  entries: readonly Entry[],
  scale: TimeScale,
  plot: Plot,
  deepestM: number,
): readonly Mark[] {
  return entries.map(({ legs, startMin }) =>
    polyline(
      depthLine(
        legs,
        (min) => plot.x + scale.at(startMin + min) * plot.width,
        (depthM) => plot.y + (depthM / deepestM) * plot.height,
      ),
      1,
    ),
  );
}

/** The heading of a day: as much as its width takes. */
function dayHeadings(
  set: Setter,
  mine: DiverLedger,
  scale: TimeScale,
  plot: Plot,
  style: TextStyle,
): { marks: readonly Mark[]; heightPt: number } {
  const width = plot.width / scale.days;
  const marks: Mark[] = [];
  for (const day of mine.days) {
    const index = dayIndex(day.date, mine, scale);
    const long = dateText(day.date).replace(/ \d{4}$/, '');
    const short = long.split(' ').slice(0, 2).join(' ');
    const lines: readonly { readonly choices: readonly string[]; readonly font: TextStyle['font'] }[] = [
      { font: 'bold', choices: [long, short, short.split(' ')[1]!] },
      {
        font: 'text',
        choices: [`${divesText(day.dives)}, ${up(day.bottomMin)} min`, divesText(day.dives), `${day.dives}`],
      },
      {
        font: 'text',
        choices: [`OTU ${up(day.otu)} of ${down(Math.max(0, day.otuAllowed))}`, `OTU ${up(day.otu)}`],
      },
    ];
    for (const [i, { choices, font }] of lines.entries()) {
      const inFont = { ...style, font };
      const text = choices.find((each) => set.width(each, inFont) <= width - DAY_INSET_PT * 1.5) ?? '';
      marks.push(
        ...set
          .text(text, inFont, width)
          .at(plot.x + index * width + DAY_INSET_PT, plot.y + i * style.sizePt * 1.18),
      );
    }
  }
  return { marks, heightPt: DAY_LINES * style.sizePt * 1.18 + 2 };
}

function dayIndex(date: string, mine: DiverLedger, scale: TimeScale): number {
  const entry = mine.entries.find((each) => wallDate(each.startMin) === date)!;
  return Math.floor(entry.startMin / DAY_MIN) - scale.firstDay;
}

/** What is drawn of one diver's trip, computed once for all the sizes that are tried. */
export interface TripDrawing {
  readonly mine: DiverLedger;
  readonly made: readonly Entry[];
  readonly scale: TimeScale;
  readonly points: readonly TimelinePoint[];
}

/** Prepares the drawing of a diver who makes at least one dive. Source: core/ledger/timeline.ts. */
export function tripDrawing(trip: Trip, mine: DiverLedger): TripDrawing {
  const made = mine.entries.filter((entry) => entry.isMade);
  const scale = timeScale(mine.entries);
  const lastMin = (scale.firstDay + scale.days) * DAY_MIN - 1;
  const points = timelineOf(mine, trip, lastMin, PRINTED_STEPS).points.filter(
    (point) => point.atMin >= scale.firstDay * DAY_MIN,
  );
  return { mine, made, scale, points };
}

/**
 * The trip of one diver as a drawing: days, dives to scale in depth, and the two bands unbroken beneath.
 * @param widthPt whole width @param plotPt height of each of the three plots
 */
export function tripBands(
  set: Setter,
  { mine, made, scale, points }: TripDrawing,
  units: SlateUnits,
  widthPt: number,
  plotPt: number,
  sizePt: number,
): Block {
  const style: TextStyle = { font: 'text', sizePt };
  const deepest = made.reduce((held, entry) => (entry.depthM > held.depthM ? entry : held));
  const depthLabel = joined(diveDepths(deepest, units).slice(0, 1));
  const nitrogenTop = Math.max(1.1, ...points.map((point) => point.fractionOfLimit)) * 1.02;
  const oxygenPeak = Math.max(...points.map((point) => Math.max(point.cns ?? 0, point.cnsDay ?? 0)));
  const oxygenTop = Math.max(2, Math.ceil(oxygenPeak / OXYGEN_STEP)) * OXYGEN_STEP;
  const labels = [depthLabel, percentUp(1), percentUp(oxygenTop)];
  const gutter = Math.max(...labels.map((text) => set.width(text, style))) + 6;
  const title = sizePt * 1.18 + 3;
  const headHeight = DAY_LINES * sizePt * 1.18 + 4;
  const heightPt = headHeight + 3 * plotPt + 2 * (title + 4) + 4;
  return {
    heightPt,
    at: (x, y) => {
      const left = x + gutter;
      const width = widthPt - gutter;
      const head: Plot = { x: left, y, width, height: headHeight };
      const dives: Plot = { x: left, y: y + headHeight, width, height: plotPt };
      const nitrogen: Plot = { x: left, y: dives.y + plotPt + 4 + title, width, height: plotPt };
      const oxygen: Plot = { x: left, y: nitrogen.y + plotPt + 4 + title, width, height: plotPt };
      const marks: Mark[] = [];
      for (let d = 0; d <= scale.days; d += 1) {
        const at = left + (d / scale.days) * width;
        marks.push(straight(at, y, at, dives.y + plotPt, 0.3, [1, 2]));
        for (const band of [nitrogen, oxygen])
          marks.push(straight(at, band.y, at, band.y + plotPt, 0.3, [1, 2]));
      }
      marks.push(
        ...dayHeadings(set, mine, scale, head, style).marks,
        straight(left, dives.y, left + width, dives.y, 0.8),
        ...leadLines(made, scale, dives, deepest.depthM),
        ...set
          .text(depthLabel, { ...style, align: 'right' }, gutter - 3)
          .at(x, dives.y + plotPt - sizePt * 1.18),
        ...nitrogenMarks(points, scale, nitrogen, nitrogenTop),
        ...bandFrame(set, NITROGEN_TITLES, { share: 1, top: nitrogenTop }, nitrogen, gutter, style),
        ...oxygenMarks(points, scale, oxygen, oxygenTop),
        ...bandFrame(set, OXYGEN_TITLES, { share: oxygenTop, top: oxygenTop }, oxygen, gutter, style),
      );
      return marks;
    },
  };
}
