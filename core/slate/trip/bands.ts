/** The two bands beneath the water of a strip on paper: nitrogen on going straight up, and the clocks of oxygen. */
import type { TimelinePoint } from '../../ledger/timeline';
import { bare, said, type Said } from '../../words/said';
import { area, polyline, straight, type Mark, type Point, type TextStyle } from '../layout';
import { GUTTER_GAP_PT, SUM, SUM_PT, xOf, type StripContext } from './drawing';
import { DAY_MIN } from './scale';
import { thinned } from './thinned';

const BAND: TextStyle = { font: 'name', sizePt: 12 };

/** Height of the name of a band, points. */
export const BAND_PT = 16;

/** Light enough for the limit to stand out against, dark enough for a poor printer. */
const NITROGEN_GREY = 0.8;

/** The oxygen band ends at a multiple of this share, so that its scale has a round number. */
const OXYGEN_STEP = 0.25;

function curve(
  context: StripContext,
  points: readonly TimelinePoint[],
  of: (point: TimelinePoint) => number,
  top: number,
  x: number,
  y: number,
  heightPt: number,
): readonly Point[] {
  return thinned(
    points.map((point) => ({
      x: x + xOf(context, point.atMin),
      y: y + heightPt * (1 - Math.min(1, Math.max(0, of(point) / top))),
    })),
  );
}

/** Runs of points for which a figure exists: a clock that cannot be known leaves a gap, not a zero. */
function known(
  points: readonly TimelinePoint[],
  of: (point: TimelinePoint) => number | null,
): readonly (readonly TimelinePoint[])[] {
  const runs: TimelinePoint[][] = [[]];
  for (const point of points) {
    if (of(point) === null) runs.push([]);
    else runs[runs.length - 1]!.push(point);
  }
  return runs.filter((run) => run.length > 1);
}

function pointsOf({ drawing, plan }: StripContext): readonly TimelinePoint[] {
  const from = (drawing.scale.firstDay + plan.first) * DAY_MIN;
  const to = from + plan.count * DAY_MIN;
  return drawing.points.filter(({ atMin }) => atMin >= from && atMin <= to);
}

/** Name of a band and what it shows, as much as there is room for. */
function bandHead(context: StripContext, name: Said, about: Said, x: number, y: number): readonly Mark[] {
  const { set, words, widthPt } = context;
  const title = words(name);
  const wide = set.width(title, BAND) + 8;
  const text = words(about);
  return [
    ...set.text(title, BAND, wide).at(x, y),
    ...(set.width(text, SUM) + wide <= widthPt
      ? set.text(text, SUM, widthPt - wide).at(x + wide, y + 3)
      : []),
  ];
}

function scaleMarks(
  context: StripContext,
  marks: readonly (readonly [text: Said, y: number])[],
  x: number,
  footY: number,
): readonly Mark[] {
  const { set, words, gutterPt, widthPt } = context;
  const style: TextStyle = { ...SUM, align: 'right' };
  return [
    ...marks.flatMap(([text, y]) =>
      set.text(words(text), style, gutterPt - GUTTER_GAP_PT).at(x - gutterPt, y - SUM_PT / 2),
    ),
    straight(x, footY, x + widthPt, footY, 0.6),
  ];
}

/** The nitrogen band: the share of the limit on surfacing, moment by moment. */
export function nitrogenMarks(context: StripContext, x: number, y: number): readonly Mark[] {
  const { plan, widthPt, drawing } = context;
  if (plan.nitrogenPt === 0) return [];
  const high = plan.nitrogenPt - BAND_PT;
  const top = y + BAND_PT;
  const foot = top + high;
  const most = 1.02 * Math.max(1.05, ...drawing.points.map(({ fractionOfLimit }) => fractionOfLimit));
  const line = curve(
    context,
    pointsOf(context),
    ({ fractionOfLimit }) => fractionOfLimit,
    most,
    x,
    top,
    high,
  );
  const limitY = foot - high / most;
  return [
    ...bandHead(
      context,
      said`Nitrogen`,
      said`were the diver to go straight up; dashed, the limit on surfacing`,
      x,
      y,
    ),
    ...(line.length < 2
      ? []
      : [
          area(
            [{ x: line[0]!.x, y: foot }, ...line, { x: line[line.length - 1]!.x, y: foot }],
            NITROGEN_GREY,
          ),
          polyline(line, 0.8),
        ]),
    straight(x, limitY, x + widthPt, limitY, 0.9, [6, 2]),
    ...scaleMarks(
      context,
      [
        [said`limit`, limitY],
        [said`0`, foot],
      ],
      x,
      foot,
    ),
  ];
}

/** The oxygen band: the CNS clock of the dives, and dashed that of 24 hours. */
export function oxygenMarks(context: StripContext, x: number, y: number): readonly Mark[] {
  const { plan, drawing } = context;
  if (plan.oxygenPt === 0) return [];
  const high = plan.oxygenPt - BAND_PT;
  const top = y + BAND_PT;
  const foot = top + high;
  const peak = Math.max(...drawing.points.map(({ cns, cnsDay }) => Math.max(cns ?? 0, cnsDay ?? 0)));
  const most = Math.max(2, Math.ceil(peak / OXYGEN_STEP)) * OXYGEN_STEP;
  const lines = (
    of: (point: TimelinePoint) => number | null,
    widthPt: number,
    dash?: readonly [number, number],
  ) =>
    known(pointsOf(context), of).map((run) =>
      polyline(
        curve(context, run, (point) => of(point)!, most, x, top, high),
        widthPt,
        dash,
      ),
    );
  return [
    ...bandHead(context, said`Oxygen`, said`CNS clock; dashed, that of 24 h`, x, y),
    ...lines(({ cns }) => cns, 1),
    ...lines(({ cnsDay }) => cnsDay, 0.8, [3, 2]),
    ...scaleMarks(
      context,
      [
        [said`${bare('shareMet', most)} %`, top],
        [said`0`, foot],
      ],
      x,
      foot,
    ),
  ];
}
