/** The right column of a dive: what is read against the pressure gauge, and then the way out. */
import type { Block } from '../layout';
import type { CardDive, CardFigure } from './content';
import {
  baselineMm,
  blockOf,
  enclosure,
  put,
  putOn,
  stroke,
  TYPES,
  widthMm,
  type Draw,
  type Pen,
  type Type,
} from './pen';

const ROW = 7.1;
const CAPTION = 3.2;

/** Two lines of caption, in the middle of a row. */
function captions(
  pen: Pen,
  texts: readonly (readonly [string, Type])[],
  y: number,
  row: number,
): readonly Draw[] {
  const top = y + (row - texts.length * CAPTION) / 2;
  return texts.map(([text, type], i) => put(pen, text, type, { x: 0, y: top + i * CAPTION, pitch: CAPTION }));
}

/** Turn, minimum or MOD: label and unit, or the second unit's figure, beside the figure. */
function gasRow(
  pen: Pen,
  { caption, figures, instead }: CardFigure,
  isDepth: boolean,
  y: number,
  width: number,
): readonly Draw[] {
  const [first, second] = figures;
  if (first === undefined) {
    const type = TYPES.dataBold;
    return [
      ...captions(pen, [[caption, TYPES.caption]], y, ROW),
      putOn(pen, instead, type, { x: width, baseline: baselineMm(type[1], y, ROW), align: 'right' }),
    ];
  }
  const below: readonly [string, Type] =
    second === undefined
      ? [first.unit, TYPES.caption]
      : [`${second.value} ${second.unit}`, isDepth ? TYPES.dataSlant : TYPES.data];
  return [
    ...captions(pen, [[caption, TYPES.caption], below], y, ROW),
    putOn(pen, first.value, isDepth ? TYPES.bigDepth : TYPES.big, {
      x: width,
      baseline: baselineMm(TYPES.big[1], y, ROW),
      align: 'right',
    }),
  ];
}

/** Room, with the limit it runs into. */
function roomRow(pen: Pen, { room, isTight }: CardDive, y: number, width: number): readonly Draw[] {
  const row = 7.6;
  const [first] = room.figures;
  const baseline = baselineMm(TYPES.out[1], y, row);
  const value =
    first === undefined
      ? [putOn(pen, room.instead, TYPES.dataBold, { x: width - 1, baseline, align: 'right' })]
      : [
          putOn(pen, first.value, TYPES.out, {
            x: width - (isTight ? 1 : 0) - widthMm(pen, ` ${first.unit}`, TYPES.caption),
            baseline,
            align: 'right',
          }),
          putOn(pen, ` ${first.unit}`, TYPES.caption, {
            x: width - (isTight ? 1 : 0),
            baseline,
            align: 'right',
          }),
        ];
  return [
    ...captions(
      pen,
      room.caption.split('\n').map((text) => [text, TYPES.caption] as const),
      y,
      row,
    ),
    ...value,
    ...(isTight
      ? [enclosure(pen, -1, y + 0.1, width, y + row - 0.1)]
      : [stroke(pen, [0, y], [width, y], 0.5)]),
  ];
}

/** A time, and where the dial has twelve hours, its half of the day, small behind it. */
function halves(up: string): readonly [string, string] {
  const at = up.indexOf(' ');
  return at < 0 ? [up, ''] : [up.slice(0, at), up.slice(at)];
}

function upWidth(pen: Pen, up: string): number {
  const [time, half] = halves(up);
  return widthMm(pen, time, TYPES.out) + widthMm(pen, half, TYPES.caption);
}

function upAt(pen: Pen, up: string, y: number, width: number): readonly Draw[] {
  const [time, half] = halves(up);
  const baseline = baselineMm(TYPES.out[1], y, ROW);
  const at = width - widthMm(pen, half, TYPES.caption);
  return [
    putOn(pen, time, TYPES.out, { x: at, baseline, align: 'right' }),
    ...(half === '' ? [] : [putOn(pen, half, TYPES.caption, { x: at, baseline })]),
  ];
}

export function rightColumn(pen: Pen, dive: CardDive, width: number): Block {
  const mix = 0.8;
  const rows = mix + 4.8;
  const out = rows + 3 * ROW + 0.7;
  const isBoth = dive.turn.figures.length > 1 || dive.mod.figures.length > 1;
  const units = isBoth
    ? [dive.turn.figures[0]?.unit, dive.mod.figures[0]?.unit].filter(Boolean).join(', ')
    : '';
  const draws: Draw[] = [
    put(pen, dive.mix, TYPES.mix, { x: 0, y: mix, pitch: 4.4 }),
    ...(isBoth ? [put(pen, units, TYPES.caption, { x: width, y: mix, pitch: 4.4, align: 'right' })] : []),
    ...gasRow(pen, dive.turn, false, rows, width),
    ...gasRow(pen, dive.minimum, false, rows + ROW, width),
    ...gasRow(pen, dive.mod, true, rows + 2 * ROW, width),
    ...roomRow(pen, dive, out, width),
  ];
  const wayOut = out + 7.6;
  const stopWidth = Math.max(...dive.stop.map((text) => widthMm(pen, text, TYPES.caption)));
  // Two depths and two figures of minutes leave no room beside them for a time.
  const isBeside = stopWidth + 1 + upWidth(pen, dive.up) <= width;
  draws.push(
    ...captions(
      pen,
      dive.stop.map((text) => [text, TYPES.caption] as const),
      wayOut,
      ROW,
    ),
  );
  const up = isBeside ? wayOut : wayOut + ROW - 0.4;
  draws.push(...upAt(pen, dive.up, up, width));
  const end = up + ROW;
  if (dive.legs === null || dive.wayUp === '') return blockOf(pen, end, draws);
  draws.push(put(pen, dive.wayUp, TYPES.caption, { x: width, y: end, pitch: CAPTION, align: 'right' }));
  return blockOf(pen, end + CAPTION, draws);
}
