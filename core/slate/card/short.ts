/** A dive on the short card: the plan alone, at the sizes of the day card, so that four find place on one face. */
import { beside, space, stack, tagged, type Block } from '../layout';
import { warningLines, waterline, type Way } from './block';
import type { CardDive, CardFigure, CardLevel } from './content';
import {
  baselineMm,
  blockOf,
  lines,
  put,
  putOn,
  TYPES,
  widthMm,
  type Draw,
  type Pen,
  type Type,
} from './pen';
import { partsOn, partsWidth, spread, type Part } from './row';

const ROW = 7.1;
const CAPTION = 3.6;
const LINE = 4.6;

function airLine(pen: Pen, dive: CardDive, width: number): Block {
  const number = `${dive.number}`;
  const left = Math.max(6.5, widthMm(pen, number, TYPES.number) + 2);
  const inside = widthMm(pen, dive.in, TYPES.dataBold);
  const mix = widthMm(pen, dive.mix, TYPES.mix);
  const free = width - left - inside - mix - 6;
  const site = widthMm(pen, dive.site, TYPES.site);
  const baseline = baselineMm(TYPES.number[1], 0, 5.4);
  const right = putOn(pen, dive.mix, TYPES.mix, { x: width, baseline, align: 'right' });
  if (site <= free) {
    return blockOf(pen, 6, [
      tagged(
        blockOf(pen, 0, [
          putOn(pen, number, TYPES.number, { x: 0, baseline }),
          putOn(pen, dive.site, TYPES.site, { x: left, baseline }),
        ]),
        { is: 'H2' },
      ).at,
      putOn(pen, dive.in, TYPES.dataBold, { x: left + site + 2, baseline }),
      right,
    ]);
  }
  return stack([
    tagged(
      beside([
        { block: blockOf(pen, 5.4, [putOn(pen, number, TYPES.number, { x: 0, baseline })]), x: 0 },
        { block: lines(pen, dive.site, TYPES.site, width - left, 5), x: left * pen.mm },
      ]),
      { is: 'H2' },
    ),
    blockOf(pen, 5.6, [putOn(pen, dive.in, TYPES.dataBold, { x: left, baseline: baseline - 0.4 }), right]),
  ]);
}

interface Cell {
  readonly caption: string;
  readonly figure: CardFigure;
  readonly type: Type;
}

/** A caption with the unit behind it. */
function head({ caption, figures }: CardFigure): string {
  return figures[0] === undefined ? caption : `${caption}, ${figures[0].unit}`;
}

function gasCells({ turn, minimum, mod }: CardDive): readonly Cell[] {
  return [
    { caption: head(turn), figure: turn, type: TYPES.big },
    { caption: minimum.caption, figure: minimum, type: TYPES.big },
    { caption: head(mod), figure: mod, type: TYPES.bigDepth },
  ];
}

function cellWidth(pen: Pen, { caption, figure, type }: Cell): number {
  const [first] = figure.figures;
  const value =
    first === undefined ? widthMm(pen, figure.instead, TYPES.dataBold) : widthMm(pen, first.value, type);
  return Math.max(
    value,
    widthMm(pen, caption, TYPES.caption),
    widthMm(pen, secondWords(figure.figures), TYPES.data),
  );
}

/** Turn, minimum and MOD with their captions, the last at the right edge. @param y of the captions */
function gasAt(pen: Pen, cells: readonly Cell[], rights: readonly number[], y: number): readonly Draw[] {
  const baseline = baselineMm(TYPES.big[1], y + CAPTION, ROW);
  return cells.flatMap(({ caption, figure, type }, i) => {
    const [first] = figure.figures;
    const at = { x: rights[i]!, align: 'right' } as const;
    return [
      put(pen, caption, TYPES.caption, { ...at, y, pitch: CAPTION }),
      first === undefined
        ? putOn(pen, figure.instead, TYPES.dataBold, { ...at, baseline })
        : putOn(pen, first.value, type, { ...at, baseline }),
    ];
  });
}

function clockParts(clock: string): readonly Part[] {
  const at = clock.indexOf(' ');
  return at < 0
    ? [[clock, TYPES.clock]]
    : [
        [clock.slice(0, at), TYPES.clock],
        [clock.slice(at), TYPES.caption],
      ];
}

function secondWords(figures: CardLevel['depth']): string {
  const [, second] = figures;
  return second === undefined ? '' : `${second.value} ${second.unit}`;
}

/** Where the run time ends where depths and times are short, the white before it, and from its end to the clock. */
const RUN_END = 22.6;
const RUN_GAP = 3;
const TO_CLOCK = 7.4;

/** The plan: the levels, and beside the first of them, or below where there is no room, what the gauge is held to. */
function planRows(pen: Pen, dive: CardDive, width: number): Block {
  const cells = gasCells(dive);
  const gap = 2.4;
  const rights = [width, width, width];
  for (let i = 1; i >= 0; i -= 1) rights[i] = rights[i + 1]! - cellWidth(pen, cells[i + 1]!) - gap;
  const gasLeft = rights[0]! - cellWidth(pen, cells[0]!);
  const widest = (of: (level: CardLevel) => number): number => Math.max(...dive.levels.map(of));
  const depthWidth = widest(({ depth }) => widthMm(pen, depth[0]!.value, TYPES.bigDepth));
  const runWidth = widest(({ run }) => widthMm(pen, run.value, TYPES.big));
  const runEnd = Math.max(RUN_END, depthWidth + RUN_GAP + runWidth);
  const clockAt = runEnd + TO_CLOCK;
  const clockEnd = clockAt + widest(({ clock }) => partsWidth(pen, clockParts(clock)));
  const captionEnd = 14 + widthMm(pen, dive.leaveCaption, TYPES.caption);
  const isBeside = Math.max(clockEnd, captionEnd) + 1.2 <= gasLeft;
  const draws: Draw[] = [
    put(pen, dive.depthCaption, TYPES.caption, { x: 0, y: 0.4, pitch: CAPTION }),
    put(pen, dive.leaveCaption, TYPES.caption, { x: 14, y: 0.4, pitch: CAPTION }),
  ];
  if (isBeside) draws.push(...gasAt(pen, cells, rights, 0.4));
  let y = 0.4 + CAPTION;
  for (const [i, level] of dive.levels.entries()) {
    const baseline = baselineMm(TYPES.big[1], y, ROW);
    draws.push(
      putOn(pen, level.depth[0]!.value, TYPES.bigDepth, { x: 0, baseline }),
      putOn(pen, level.run.value, TYPES.big, { x: runEnd, baseline, align: 'right' }),
      putOn(pen, ` ${level.run.unit}`, TYPES.caption, { x: runEnd, baseline }),
      ...partsOn(pen, clockParts(level.clock), clockAt, baseline),
    );
    if (i > 0 && level.limit !== '') {
      const limit: readonly Part[] = [
        [`${dive.limitHere} `, TYPES.caption],
        [level.limit, TYPES.data],
      ];
      draws.push(...partsOn(pen, limit, width - partsWidth(pen, limit), baseline));
    }
    y += ROW;
    const second = secondWords(level.depth);
    if (second === '') continue;
    draws.push(put(pen, second, TYPES.dataSlant, { x: 0, y, pitch: 4.3 }));
    if (i === 0 && isBeside) draws.push(...secondGas(pen, cells, rights, y));
    y += 4.3;
  }
  if (isBeside) return blockOf(pen, y, draws);
  draws.push(...gasAt(pen, cells, [width / 3, (2 * width) / 3, width], y));
  y += CAPTION + ROW;
  if (secondWords(dive.mod.figures) === '') return blockOf(pen, y, draws);
  draws.push(...secondGas(pen, cells, [width / 3, (2 * width) / 3, width], y));
  return blockOf(pen, y + 4.3, draws);
}

/** The same in the other units, below. */
function secondGas(pen: Pen, cells: readonly Cell[], rights: readonly number[], y: number): readonly Draw[] {
  return cells.flatMap(({ figure, type }, i) => {
    const words = secondWords(figure.figures);
    if (words === '') return [];
    const small = type === TYPES.bigDepth ? TYPES.dataSlant : TYPES.data;
    return [put(pen, words, small, { x: rights[i]!, y, pitch: 4.3, align: 'right' })];
  });
}

/** No-stop limit, room and the way up, small: looked for only once the plan is read. */
function facts(pen: Pen, dive: CardDive, width: number): readonly Block[] {
  const [first] = dive.levels;
  const run = dive.stations[dive.stations.length - 1]?.run ?? '';
  const [room] = dive.room.figures;
  const groups: (readonly Part[])[] = [
    ...(first!.limit === ''
      ? []
      : [
          [
            [`${dive.limitAt} `, TYPES.caption],
            [first!.limit, TYPES.data],
          ] as const,
        ]),
    [
      [`${dive.room.caption.replace('\n', ' ')} `, TYPES.caption],
      [room === undefined ? dive.room.instead : room.value, TYPES.dataBold],
    ],
    [
      [`${dive.stop.join(' ')} ${run}${run === '' ? '' : ' '}`, TYPES.caption],
      [dive.up, TYPES.dataBold],
    ],
  ];
  return spread(pen, groups, width, 1.3).map((line) =>
    blockOf(
      pen,
      LINE,
      line.flatMap(({ parts, x }) => partsOn(pen, parts, x, baselineMm(TYPES.data[1], 0, LINE))),
    ),
  );
}

/** The ways in which a dive may stand on the card: in one block, or its cautions on faces of their own. */
export function shortDive(pen: Pen, dive: CardDive, width: number): readonly Way[] {
  const block = (parts: readonly Block[]): Block =>
    stack([space(2.1 * pen.mm), airLine(pen, dive, width), waterline(pen, width), ...parts]);
  const plan = (): readonly Block[] => [planRows(pen, dive, width), ...facts(pen, dive, width)];
  return [
    () => [block([...warningLines(pen, dive, width), ...plan()])],
    () => [
      ...dive.warnings.map((text) => block(warningLines(pen, { ...dive, warnings: [text] }, width))),
      block(plan()),
    ],
  ];
}
