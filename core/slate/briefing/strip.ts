/** The day as a strip: the clock across, depth down, drawn as in the window. */
import { runtimeMin, type Leg } from '../../profile';
import { M_PER_FOOT } from '../../units';
import { span, said } from '../../words/said';
import type { Words } from '../../words/reader';
import { polyline, straight, type Block, type Mark, type Point, type Setter } from '../layout';
import { depthLine } from '../profile-line';
import { styleOf, TYPES, widthOf, type Type } from '../sheet/parts';
import type { BriefDive } from './one-dive';

/** Heights, points. */
const HEAD = 17;
const PLOT = 46;

/** Lines between which nothing is drawn are no closer than this. */
const LEAST_PITCH = 11;

/** Before the first dive and after the last, minutes. */
const EDGE_MIN = 12;

const NUMBER: Type = ['bold', 13];

interface Scale {
  readonly xOf: (min: number) => number;
  readonly yOf: (depthM: number) => number;
}

/** Depths that have a line, in metres, and how they are written. */
function depthLines(
  deepestM: number,
  isFeet: boolean,
): readonly (readonly [depthM: number, label: string])[] {
  const inM = isFeet ? M_PER_FOOT : 1;
  const steps = isFeet ? [30, 60, 120] : [10, 20, 40];
  const step = steps.find((each) => (PLOT * each * inM) / deepestM >= LEAST_PITCH) ?? steps.at(-1)!;
  const count = Math.floor((deepestM * 0.95) / (step * inM));
  return Array.from({ length: count }, (_, i) => [(i + 1) * step * inM, String((i + 1) * step)] as const);
}

/** A dive: the bottom heavy, the way up dotted, stops thin. */
function profile(legs: readonly Leg[], startMin: number, { xOf, yOf }: Scale): readonly Mark[] {
  const line = depthLine(legs, (min) => xOf(startMin + min), yOf);
  const marks: Mark[] = [];
  legs.forEach(({ kind }, i) => {
    const points: readonly Point[] = [line[i]!, line[i + 1]!];
    if (kind === 'level' || kind === 'travel') marks.push(polyline(points, 2.6));
    else if (kind === 'ascent') marks.push(polyline(points, 0.8, [1, 1.6]));
    else marks.push(polyline(points, 0.9));
  });
  return marks;
}

/**
 * The strip of a day, null where its words find no place beside each other.
 * @param depthUnit "m", "ft" or both
 */
export function dayStrip(
  set: Setter,
  words: Words,
  dives: readonly BriefDive[],
  depthUnit: string,
  widthPt: number,
): Block | null {
  const isFeet = depthUnit === 'ft';
  const unit = isFeet ? 'ft' : 'm';
  const deepestM = Math.max(...dives.flatMap(({ legs }) => legs.map(({ toM }) => toM)));
  const lines = depthLines(deepestM, isFeet);
  const scaleWidth = Math.max(
    ...[unit, ...lines.map(([, label]) => label)].map((each) => widthOf(set, each, TYPES.captionSlant)),
  );
  const left = scaleWidth + 8;
  const from = dives[0]!.inMin - EDGE_MIN;
  const to =
    Math.max(...dives.flatMap(({ upMin, legs, legsFromMin }) => [upMin, legsFromMin + runtimeMin(legs)])) +
    EDGE_MIN;
  const scale: Scale = {
    xOf: (min) => left + ((min - from) / (to - from)) * (widthPt - left),
    yOf: (depthM) => HEAD + (depthM / deepestM) * PLOT,
  };
  const texts: { text: string; type: Type; x: number; baseline: number }[] = [];
  let end = 0;
  for (const [i, { number, in: at, inMin, upMin }] of dives.entries()) {
    const x = scale.xOf(inMin);
    const wide = widthOf(set, `${number} `, NUMBER);
    const right = x + wide + widthOf(set, at, TYPES.dataBold);
    if (x < end || right > widthPt) return null;
    texts.push({ text: number, type: NUMBER, x, baseline: HEAD - 5 });
    texts.push({ text: at, type: TYPES.dataBold, x: x + wide, baseline: HEAD - 5 });
    end = right + 6;
    const next = dives[i + 1];
    if (next === undefined) continue;
    const interval = words(said`${span(next.inMin - upMin, 'down')}`);
    const [a, b] = [scale.xOf(upMin), scale.xOf(next.inMin)];
    const long = widthOf(set, interval, TYPES.caption);
    if (next.inMin > upMin && b - a >= long + 8) {
      texts.push({ text: interval, type: TYPES.caption, x: (a + b - long) / 2, baseline: HEAD + 10 });
    }
  }
  const base = HEAD + PLOT;
  return {
    heightPt: base + 5,
    at: (x, y) => [
      ...texts.flatMap(({ text, type, x: at, baseline }) =>
        set.line(text, styleOf(type), x + at, y + baseline),
      ),
      ...set.line(unit, styleOf(TYPES.captionSlant), x, y + HEAD + 3),
      ...lines.flatMap(([depthM, label]) => [
        ...set.line(label, styleOf(TYPES.captionSlant), x, y + scale.yOf(depthM) + 3),
        straight(x + left - 4, y + scale.yOf(depthM), x + widthPt, y + scale.yOf(depthM), 0.4, [0.5, 3.5]),
      ]),
      straight(x + left - 4, y + HEAD, x + widthPt, y + HEAD, 1.6),
      ...dives.flatMap(({ legs, legsFromMin }) =>
        profile(legs, legsFromMin, {
          xOf: (min) => x + scale.xOf(min),
          yOf: (depthM) => y + scale.yOf(depthM),
        }),
      ),
    ],
  };
}
