/** A dive on a page of its own: the same order, about twice the size. */
import { beside, space, stack, type Block } from '../layout';
import { airLine, inParts, warningLines, type Way } from './block';
import type { CardDive, CardFigure } from './content';
import { gridBlock, type GridType } from './grid';
import { profile, runLine } from './left';
import {
  baselineMm,
  blockOf,
  enclosure,
  put,
  putOn,
  stroke,
  widthMm,
  type Draw,
  type Pen,
  type Type,
} from './pen';
import { partsOn, partsWidth, type Part } from './row';

const CAPTION: Type = ['text', 10];
const DATA: Type = ['text', 13];
const GRID: GridType = {
  title: CAPTION,
  head: CAPTION,
  depth: ['boldSlant', 13],
  cell: ['text', 13, 'semi'],
  captionPitch: 4,
  pitch: 5.1,
};

function withHalf(clock: string, sizePt: number): readonly Part[] {
  const at = clock.indexOf(' ');
  return at < 0
    ? [[clock, ['bold', sizePt]]]
    : [
        [clock.slice(0, at), ['bold', sizePt]],
        [clock.slice(at), CAPTION],
      ];
}

/** A dive of one level: depth and run time as large as they are found, the clock beside them or below. */
function square(pen: Pen, dive: CardDive, width: number): Block {
  const { depth, run, clock } = dive.levels[0]!;
  const [first, second] = depth;
  const depthParts: readonly Part[] = [
    [first!.value, ['boldSlant', 54]],
    [` ${first!.unit}`, CAPTION],
  ];
  const runParts: readonly Part[] = [
    [run.value, ['bold', 54]],
    [` ${run.unit}`, CAPTION],
  ];
  const clockParts = withHalf(clock, 31);
  const clockAt = width - partsWidth(pen, clockParts);
  const runAt = Math.max(32, partsWidth(pen, depthParts) + 3);
  const isBeside = runAt + partsWidth(pen, runParts) + 2 <= clockAt;
  const baseline = baselineMm(54, 4.8, 15.6);
  const below = baselineMm(31, 20.4, 11);
  const height = 20.4 + (isBeside ? 0 : 11);
  const draws: Draw[] = [
    put(pen, dive.depthCaption, CAPTION, { x: 0, y: 0.8, pitch: 4 }),
    put(pen, dive.leaveCaption, CAPTION, { x: runAt, y: 0.8, pitch: 4 }),
    ...partsOn(pen, depthParts, 0, baseline),
    ...partsOn(pen, runParts, runAt, baseline),
    ...partsOn(pen, clockParts, clockAt, isBeside ? baseline : below),
  ];
  if (second === undefined) return blockOf(pen, height, draws);
  const words = `${second.value} ${second.unit}`;
  return blockOf(pen, height + 5, [
    ...draws,
    put(pen, words, ['textSlant', 12], { x: 0, y: height, pitch: 5 }),
  ]);
}

/** Several levels, each on its row; the limit below where the row has no room for it. */
function levels(pen: Pen, dive: CardDive, width: number): Block {
  const depth: Type = ['boldSlant', 36];
  const run: Type = ['bold', 36];
  const depthWidth = Math.max(...dive.levels.map((level) => widthMm(pen, level.depth[0]!.value, depth)));
  const runWidth = Math.max(...dive.levels.map((level) => widthMm(pen, level.run.value, run)));
  const unit = widthMm(pen, ` ${dive.levels[0]!.run.unit}`, CAPTION);
  const clock = Math.max(...dive.levels.map((level) => partsWidth(pen, withHalf(level.clock, 27))));
  const limit = Math.max(...dive.levels.map((level) => widthMm(pen, level.limit, DATA)));
  const first = Math.max(depthWidth, widthMm(pen, dive.depthCaption, CAPTION)) + 3;
  const runEnd = first + runWidth;
  const clockAt = runEnd + unit + 3;
  const isBeside = clockAt + clock + 2 + limit <= width;
  const draws: Draw[] = [
    put(pen, dive.depthCaption, CAPTION, { x: 0, y: 0.8, pitch: 4 }),
    put(pen, dive.leaveCaption, CAPTION, { x: first, y: 0.8, pitch: 4 }),
  ];
  if (
    isBeside &&
    first + widthMm(pen, dive.leaveCaption, CAPTION) + 1 <= width - widthMm(pen, dive.limitCaption, CAPTION)
  ) {
    draws.push(put(pen, dive.limitCaption, CAPTION, { x: width, y: 0.8, pitch: 4, align: 'right' }));
  }
  let y = 4.8;
  for (const level of dive.levels) {
    const baseline = baselineMm(36, y, 10.8);
    const second = level.depth[1];
    draws.push(
      putOn(pen, level.depth[0]!.value, depth, { x: 0, baseline }),
      putOn(pen, level.run.value, run, { x: runEnd, baseline, align: 'right' }),
      putOn(pen, ` ${level.run.unit}`, CAPTION, { x: runEnd, baseline }),
      ...partsOn(pen, withHalf(level.clock, 27), clockAt, baseline),
    );
    y += 10.8;
    if (isBeside) draws.push(putOn(pen, level.limit, DATA, { x: width, baseline, align: 'right' }));
    if (second !== undefined) {
      draws.push(put(pen, `${second.value} ${second.unit}`, ['textSlant', 12], { x: 0, y, pitch: 5 }));
    }
    if (!isBeside) {
      draws.push(
        put(pen, `${dive.limitHere} ${level.limit}`, DATA, { x: width, y, pitch: 5, align: 'right' }),
      );
    }
    if (second !== undefined || !isBeside) y += 5;
  }
  return blockOf(pen, y, draws);
}

/** Turn, minimum and MOD, each in a third of the width. */
function gas(pen: Pen, dive: CardDive, width: number): Block {
  const cells: readonly (readonly [CardFigure, Type])[] = [
    [dive.turn, ['bold', 40]],
    [dive.minimum, ['bold', 40]],
    [{ ...dive.mod, caption: `${dive.mod.caption}, ${dive.mix}` }, ['boldSlant', 40]],
  ];
  const isBoth = dive.mod.figures.length > 1;
  const parts = cells.map(([{ figures, instead }, type]): readonly Part[] =>
    figures[0] === undefined
      ? [[instead, ['bold', 13]]]
      : [
          [figures[0].value, type],
          [` ${figures[0].unit}`, CAPTION],
        ],
  );
  const wide = parts.map((part, i) =>
    Math.max(partsWidth(pen, part), widthMm(pen, cells[i]![0].caption, CAPTION)),
  );
  const gap = (width - wide.reduce((sum, each) => sum + each, 0)) / 2;
  // Without room between them each takes a line of its own.
  const isRow = gap >= 1.5;
  const lefts = isRow ? [0, wide[0]! + gap, width - wide[2]!] : [0, 0, 0];
  const height = 4 + 11.8 + (isBoth ? 4.4 : 0);
  const blocks = cells.map(([{ caption, figures }, type], i) => {
    const second = figures[1];
    return blockOf(pen, height, [
      put(pen, caption, CAPTION, { x: lefts[i]!, y: 0, pitch: 4 }),
      ...partsOn(pen, parts[i]!, lefts[i]!, baselineMm(40, 4, 11.8)),
      ...(second === undefined
        ? []
        : [
            put(pen, `${second.value} ${second.unit}`, [type[0] === 'bold' ? 'text' : 'textSlant', 12], {
              x: lefts[i]!,
              y: 15.8,
              pitch: 4.4,
            }),
          ]),
    ]);
  });
  return isRow ? beside(blocks.map((block) => ({ block, x: 0 }))) : stack(blocks);
}

/** Limit, room and the time of surfacing. */
function out(pen: Pen, dive: CardDive, width: number): Block {
  const [room] = dive.room.figures;
  const run = dive.stations[dive.stations.length - 1];
  const isOne = dive.legs === null;
  const cells: readonly (readonly [string, readonly Part[], boolean])[] = [
    ...(isOne && dive.levels[0]!.limit !== ''
      ? [[dive.limitCaption, [[dive.levels[0]!.limit, ['text', 19]]], false] as const]
      : []),
    [
      dive.room.caption.replace('\n', ' '),
      room === undefined
        ? [[dive.room.instead, ['bold', 19]]]
        : [
            [room.value, ['bold', 19]],
            [` ${room.unit}`, CAPTION],
          ],
      dive.isTight,
    ],
    [
      dive.stop.join(' '),
      isOne || run === undefined
        ? [[dive.up, ['bold', 19]]]
        : [
            [run.run, ['bold', 19]],
            [` ${dive.levels[0]!.run.unit}  `, CAPTION],
            [dive.up, ['bold', 19]],
          ],
      false,
    ],
  ];
  const wide = cells.map(([caption, parts]) =>
    Math.max(widthMm(pen, caption, CAPTION), partsWidth(pen, parts)),
  );
  const gap = (width - 2 - wide.reduce((sum, each) => sum + each, 0)) / Math.max(1, cells.length - 1);
  const isRow = gap >= 2.5;
  let x = 1;
  let y = 0;
  const draws = cells.flatMap(([caption, parts, isTight], i) => {
    const at = x;
    const top = y;
    if (isRow) x += wide[i]! + gap;
    else y += 11;
    return [
      put(pen, caption, CAPTION, { x: at, y: top + 0.2, pitch: 4 }),
      ...partsOn(pen, parts, at, baselineMm(19, top + 4.2, 6.4)),
      ...(isTight ? [enclosure(pen, at - 1, top, at + wide[i]! + 1, top + 10.6)] : []),
    ];
  });
  return blockOf(pen, isRow ? 11 : y, draws);
}

/** Levels on a page, where the plan alone is too high for one. */
const LEVELS_A_PAGE = 2;

/** A rule over a part. */
function ruled(pen: Pen, block: Block, width: number): Block {
  return stack([blockOf(pen, 0.6, [stroke(pen, [0, 0.1], [width, 0.1], 0.6)]), block]);
}

/** The ways in which a dive may have pages of its own: what is dived, and what a little more would cost. */
export function oneDive(pen: Pen, dive: CardDive, width: number): readonly Way[] {
  const isOne = dive.legs === null;
  const rows = (part: CardDive): Block => (isOne ? square(pen, part, width) : levels(pen, part, width));
  const others = (): readonly Block[] => [
    ...(dive.legs === null ? [] : [profile(pen, dive.legs, width, 9)]),
    ruled(pen, gas(pen, dive, width), width),
    ruled(pen, out(pen, dive, width), width),
  ];
  const warnings = (): readonly Block[] => warningLines(pen, dive, width);
  const more = (): readonly Block[] => [
    ...(dive.legs === null && dive.stations.length > 0 ? [runLine(pen, dive.stations, width)] : []),
    ...(dive.grid === null ? [] : [gridBlock(pen, dive.grid, width, GRID)]),
  ];
  const block = (parts: readonly Block[]): readonly Block[] =>
    parts.length === 0
      ? []
      : [
          stack([
            space(1.2 * pen.mm),
            airLine(pen, dive, width),
            blockOf(pen, 0.6, [stroke(pen, [0, 0.1], [width, 0.1], 2.2)]),
            ...parts,
          ]),
        ];
  return [
    () => block([...warnings(), rows(dive), ...others(), ...more()]),
    () => [...block([...warnings(), rows(dive), ...others()]), ...block(more())],
    () => [...block(warnings()), ...block([rows(dive), ...others()]), ...block(more())],
    () => [
      ...dive.warnings.flatMap((text) => block(warningLines(pen, { ...dive, warnings: [text] }, width))),
      ...inParts(dive.levels, LEVELS_A_PAGE).flatMap((part) => block([rows({ ...dive, levels: part })])),
      ...others().flatMap((other) => block([other])),
      ...block(more()),
    ],
  ];
}
