/** The left column of a dive: what is read against depth gauge and watch. */
import { depthLine } from '../profile-line';
import { polyline, stack, type Block } from '../layout';
import { runtimeMin, type Leg } from '../../profile';
import type { CardDive, CardLevel, Station } from './content';
import { gridBlock } from './grid';
import { baselineMm, blockOf, put, putOn, stroke, TYPES, widthMm, type Draw, type Pen } from './pen';

/** Pitches, millimetres. */
const CAPTION = 3.6;
const ROW = 7.1;
const LINE = 4.3;

/** Where the columns of a row begin, and what has a line of its own below it. */
interface Columns {
  readonly run: number;
  readonly clock: number;
  /** Width of the figure of the run time, so that minutes stand under minutes. */
  readonly figure: number;
  /** Minutes are named behind each figure, or once in the caption. */
  readonly hasUnit: boolean;
  readonly below: 'nothing' | 'limit' | 'clock and limit';
}

/** A time on a dial of twelve hours has its half of the day set small behind it, as a unit. */
function clockParts(clock: string): readonly [string, string] {
  const at = clock.indexOf(' ');
  return at < 0 ? [clock, ''] : [clock.slice(0, at), clock.slice(at)];
}

function clockWidth(pen: Pen, clock: string): number {
  const [time, half] = clockParts(clock);
  return widthMm(pen, time, TYPES.clock) + widthMm(pen, half, TYPES.caption);
}

function depthWidth(pen: Pen, { depth }: CardLevel): number {
  const [first, second] = depth;
  const more =
    second === undefined ? 0 : 1.6 + widthMm(pen, `${second.value} ${second.unit}`, TYPES.dataSlant);
  return widthMm(pen, first!.value, TYPES.bigDepth) + more;
}

function runWidth(pen: Pen, levels: readonly CardLevel[]): number {
  return Math.max(...levels.map(({ run }) => widthMm(pen, run.value, TYPES.big)));
}

/** White between columns that are set closer than usual. */
const CLOSE = 1.1;

/** Where a row takes two lines, the run time begins here. */
const SPLIT_RUN = 22;

/**
 * The usual columns where everything fits them; else closer ones, then without the unit, then with the limit below;
 * where not even that fits, the clock goes below as well.
 */
function columnsOf(pen: Pen, { levels, depthCaption }: CardDive, width: number): Columns {
  const depth = Math.max(...levels.map((level) => depthWidth(pen, level)));
  const figure = runWidth(pen, levels);
  const unit = widthMm(pen, ` ${levels[0]!.run.unit}`, TYPES.caption);
  const clock = Math.max(...levels.map((level) => clockWidth(pen, level.clock)));
  const limit = Math.max(...levels.map((level) => widthMm(pen, level.limit, TYPES.data)));
  const usual = {
    run: 14,
    clock: 30,
    figure: Math.max(8.6, figure),
    hasUnit: true,
    below: 'nothing',
  } as const;
  if (
    depth <= usual.run - 0.6 &&
    usual.run + usual.figure + unit <= usual.clock - 0.5 &&
    usual.clock + clock + 1.5 + limit <= width
  ) {
    return usual;
  }
  const first = Math.max(depth, widthMm(pen, depthCaption, TYPES.caption));
  const ways = [
    [true, 'nothing'],
    [false, 'nothing'],
    [true, 'limit'],
    [false, 'limit'],
  ] as const;
  for (const [hasUnit, below] of ways) {
    const middle = figure + (hasUnit ? unit : 0);
    const parts = first + middle + clock + (below === 'nothing' ? limit : 0);
    const gap = (width - parts) / (below === 'nothing' ? 3 : 2);
    if (gap < CLOSE) continue;
    const white = Math.min(gap, 3);
    const run = first + white;
    return { run, figure, clock: run + middle + white, hasUnit, below };
  }
  return { run: SPLIT_RUN, figure, clock: SPLIT_RUN, hasUnit: true, below: 'clock and limit' };
}

function clockAt(pen: Pen, clock: string, x: number, baseline: number): readonly Draw[] {
  const [time, half] = clockParts(clock);
  const after = x + widthMm(pen, time, TYPES.clock);
  return [
    putOn(pen, time, TYPES.clock, { x, baseline }),
    ...(half === '' ? [] : [putOn(pen, half, TYPES.caption, { x: after, baseline })]),
  ];
}

function depthAt(pen: Pen, { depth }: CardLevel, baseline: number): readonly Draw[] {
  const [first, second] = depth;
  const after = widthMm(pen, first!.value, TYPES.bigDepth) + 1.6;
  return [
    putOn(pen, first!.value, TYPES.bigDepth, { x: 0, baseline }),
    ...(second === undefined
      ? []
      : [putOn(pen, `${second.value} ${second.unit}`, TYPES.dataSlant, { x: after, baseline })]),
  ];
}

function runAt(
  pen: Pen,
  { run }: CardLevel,
  right: number,
  baseline: number,
  hasUnit: boolean,
): readonly Draw[] {
  return [
    putOn(pen, run.value, TYPES.big, { x: right, baseline, align: 'right' }),
    ...(hasUnit ? [putOn(pen, ` ${run.unit}`, TYPES.caption, { x: right, baseline })] : []),
  ];
}

/** The rows of the levels under their captions. */
function levelRows(pen: Pen, dive: CardDive, width: number): Block {
  const { run, clock, figure, hasUnit, below } = columnsOf(pen, dive, width);
  const caption = { y: 0.5, pitch: CAPTION };
  const leave = hasUnit ? dive.leaveCaption : dive.leaveCaptionWithUnit;
  const leaveEnd = run + widthMm(pen, leave, TYPES.caption);
  const hasHead =
    below === 'nothing' && width - widthMm(pen, dive.limitCaption, TYPES.caption) > leaveEnd + 1;
  const draws: Draw[] = [
    put(pen, dive.depthCaption, TYPES.caption, { x: 0, ...caption }),
    put(pen, leave, TYPES.caption, { x: run, ...caption }),
  ];
  if (hasHead && dive.levels.some(({ limit }) => limit !== '')) {
    draws.push(put(pen, dive.limitCaption, TYPES.caption, { x: width, ...caption, align: 'right' }));
  }
  let y = 0.5 + CAPTION;
  for (const level of dive.levels) {
    const limit =
      below === 'nothing' || level.limit === '' ? level.limit : `${dive.limitShort} ${level.limit}`;
    const first = baselineMm(TYPES.big[1], y, ROW);
    const isSplit = below === 'clock and limit';
    const right = isSplit ? run + widthMm(pen, level.run.value, TYPES.big) : run + figure;
    draws.push(...depthAt(pen, level, first), ...runAt(pen, level, right, first, hasUnit));
    if (isSplit) y += ROW;
    const second = baselineMm(TYPES.big[1], y, ROW);
    draws.push(...clockAt(pen, level.clock, clock, second));
    y += ROW;
    const isBeside =
      below !== 'limit' &&
      clock + clockWidth(pen, level.clock) + 1 + widthMm(pen, limit, TYPES.data) <= width;
    if (isBeside) {
      draws.push(putOn(pen, limit, TYPES.data, { x: width, baseline: second, align: 'right' }));
    } else {
      draws.push(put(pen, limit, TYPES.data, { x: width, y, pitch: LINE, align: 'right' }));
      y += LINE;
    }
  }
  return blockOf(pen, y, draws);
}

/** Shares of the stretches between stations: the first is the longest, and none to scale, as it is only read. */
const STRETCHES = [2.2, 1, 1] as const;

/** The line from the surface to the surface: bar, dots and a thin line mean what they do in the window. */
export function runLine(pen: Pen, stations: readonly Station[], width: number): Block {
  const widths = stations.map(({ run, name }) =>
    Math.max(widthMm(pen, run, TYPES.station), widthMm(pen, name, TYPES.caption)),
  );
  const stretches = stations.slice(1).map((_, i) => (stations.length === 3 && i === 1 ? 1 : STRETCHES[i]!));
  const free = width - widths.reduce((sum, each) => sum + each, 0) - 2 * stretches.length;
  const whole = stretches.reduce((sum, each) => sum + each, 0);
  const draws: Draw[] = [];
  let x = 0;
  for (const [i, { run, name }] of stations.entries()) {
    const isLast = i === stations.length - 1;
    const at = isLast ? ({ x: width, align: 'right' } as const) : { x };
    draws.push(
      put(pen, run, TYPES.station, { ...at, y: 0.9, pitch: 4.4 }),
      put(pen, name, TYPES.caption, { ...at, y: 5.3, pitch: 3.4 }),
    );
    if (isLast) break;
    // The stretch begins behind the figure, not behind the word below it.
    const from = x + widthMm(pen, run, TYPES.station) + 1;
    x += widths[i]! + 2 + (free * stretches[i]!) / whole;
    const next = stations[i + 1]!;
    const to = i + 2 === stations.length ? width - widthMm(pen, next.run, TYPES.station) - 1 : x - 1;
    draws.push(
      i === 0
        ? stroke(pen, [from, 3.2], [to, 3.2], 2.6)
        : i === 1
          ? stroke(pen, [from, 3.2], [to, 3.2], 1.3, [1.3, 1.6])
          : stroke(pen, [from, 3.2], [to, 3.2], 0.8),
    );
  }
  return blockOf(pen, 8.7, draws);
}

/** Strokes of the profile, points: what is dived at, a stop, the ways between. */
const LEG_PT = { level: 2.7, stop: 1.7, descent: 1, travel: 1, ascent: 1 } as const;

/** The profile to scale in time, the surface above it. */
export function profile(pen: Pen, legs: readonly Leg[], width: number, height: number): Block {
  const deepest = Math.max(...legs.map(({ fromM, toM }) => Math.max(fromM, toM)));
  const whole = runtimeMin(legs);
  const xOf = (min: number): number => 0.5 + (min / whole) * (width - 1);
  const yOf = (depthM: number): number => 0.6 + (depthM / deepest) * (height - 1.6);
  const points = depthLine(legs, xOf, yOf);
  return blockOf(pen, 0.4 + height, [
    stroke(pen, [0, 0.7], [width, 0.7], 0.7),
    (x, y) =>
      legs.map((leg, i) =>
        polyline(
          [points[i]!, points[i + 1]!].map((point) => ({
            x: x + point.x * pen.mm,
            y: y + (0.4 + point.y) * pen.mm,
          })),
          LEG_PT[leg.kind] * pen.scale,
          leg.kind === 'ascent' ? [1.4 * pen.scale, 1.7 * pen.scale] : undefined,
        ),
      ),
  ]);
}

/** Height of the profile, millimetres. */
const PROFILE = 6.4;

export function leftColumn(pen: Pen, dive: CardDive, width: number, hasGrid: boolean): Block {
  const parts = [levelRows(pen, dive, width)];
  if (dive.legs !== null) parts.push(profile(pen, dive.legs, width, PROFILE));
  else if (dive.stations.length > 0) parts.push(runLine(pen, dive.stations, width));
  if (dive.grid !== null && hasGrid) parts.push(gridBlock(pen, dive.grid, width));
  return stack(parts);
}
