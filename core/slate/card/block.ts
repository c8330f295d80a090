/** A dive on a card: above its waterline what is wanted at the surface, below it what is wanted under water. */
import { beside, space, stack, tagged, type Block } from '../layout';
import type { CardDive } from './content';
import { gridBlock } from './grid';
import { leftColumn } from './left';
import type { Measure } from './measure';
import { baselineMm, blockOf, lines, put, putOn, stroke, TYPES, widthMm, type Pen } from './pen';
import { rightColumn } from './right';

/** A site's name over this takes lines of its own, millimetres. */
const LONG_SITE = 45;

const NUMBER = 6.5;

/** Number, site, time of entry; interval and earliest entry small at the right. */
export function airLine(pen: Pen, dive: CardDive, width: number): Block {
  const site = widthMm(pen, dive.site, TYPES.site);
  const inside = widthMm(pen, dive.in, TYPES.dataBold);
  const surface = Math.max(...dive.surface.map((text) => widthMm(pen, text, TYPES.caption)));
  const number = `${dive.number}`;
  const left = Math.max(NUMBER, widthMm(pen, number, TYPES.number) + 2);
  if (site <= LONG_SITE && left + site + 2 + inside + 2 + surface <= width) {
    const height = 7.2;
    const baseline = baselineMm(TYPES.number[1], 0.9, 5.4);
    const captions = dive.surface.map((text, i) =>
      put(pen, text, TYPES.caption, {
        x: width,
        y: height - 0.8 - 3.2 * (dive.surface.length - i),
        pitch: 3.2,
        align: 'right',
      }),
    );
    return blockOf(pen, height, [
      tagged(
        blockOf(pen, 0, [
          putOn(pen, number, TYPES.number, { x: 0, baseline }),
          putOn(pen, dive.site, TYPES.site, { x: left, baseline }),
        ]),
        { is: 'H2' },
      ).at,
      putOn(pen, dive.in, TYPES.dataBold, { x: left + site + 2, baseline }),
      ...captions,
    ]);
  }
  const words = dive.surface.join(', ');
  const isBeside = left + inside + 2 + widthMm(pen, words, TYPES.caption) <= width;
  return stack([
    space(0.6 * pen.mm),
    tagged(
      beside([
        { block: blockOf(pen, 5.4, [put(pen, number, TYPES.number, { x: 0, y: 0, pitch: 5.4 })]), x: 0 },
        { block: lines(pen, dive.site, TYPES.site, width - left, 5), x: left * pen.mm },
      ]),
      { is: 'H2' },
    ),
    blockOf(pen, isBeside ? 4.8 : 8.4, [
      put(pen, dive.in, TYPES.dataBold, { x: left, y: 0, pitch: 4.4 }),
      put(pen, words, TYPES.caption, { x: width, y: isBeside ? 0 : 4.4, pitch: 4.4, align: 'right' }),
    ]),
  ]);
}

/** Cautions to stop for and stops that are required, before everything else. */
export function warningLines(pen: Pen, dive: CardDive, width: number): readonly Block[] {
  if (dive.warnings.length === 0) return [];
  const texts = dive.warnings.map((text) => lines(pen, text, TYPES.dataBold, width, 4.3));
  return [space(0.6 * pen.mm), ...texts, blockOf(pen, 0.6, [stroke(pen, [0, 0.4], [width, 0.4], 0.5)])];
}

/** White over a dive, millimetres. */
const ABOVE = 1.6;

export function waterline(pen: Pen, width: number): Block {
  return blockOf(pen, 0.3, [stroke(pen, [0, 0], [width, 0], 1.6)]);
}

/** The two columns under a waterline. */
function columns(pen: Pen, dive: CardDive, measure: Measure, hasGrid: boolean): Block {
  const { left, rule, second, right } = measure;
  const gauges = leftColumn(pen, dive, left, hasGrid);
  const gas = rightColumn(pen, dive, right);
  const height = Math.max(gauges.heightPt, gas.heightPt) / pen.mm;
  return beside([
    { block: gauges, x: 0 },
    { block: gas, x: second * pen.mm },
    { block: blockOf(pen, height, [stroke(pen, [rule, 0.8], [rule, height], 0.5)]), x: 0 },
  ]);
}

/** A way in which a dive may stand on faces: its parts in order, each on a face of its own where there are several. */
export type Way = () => readonly Block[];

/** Something of a dive under the line that says which one it is. */
function under(pen: Pen, dive: CardDive, width: number, parts: readonly Block[]): Block {
  return stack([space(ABOVE * pen.mm), airLine(pen, dive, width), waterline(pen, width), ...parts]);
}

/** Levels on a face of their own, where a dive has so many that they do not all find place on one. */
const LEVELS_A_FACE = 5;

/** Parts of a list, each with so many of it at most. */
export function inParts<T>(list: readonly T[], most: number): readonly (readonly T[])[] {
  return Array.from({ length: Math.ceil(list.length / most) }, (_, i) =>
    list.slice(i * most, (i + 1) * most),
  );
}

/**
 * The ways in which a dive may stand on faces, the first that fits to be taken: in one block; the grid on the next face;
 * cautions, plan and grid each on their own; the levels and cautions too on several. Nothing is set smaller for it.
 */
export function diveWays(pen: Pen, dive: CardDive, measure: Measure): readonly Way[] {
  const { width } = measure;
  const block = (parts: readonly Block[]): readonly Block[] =>
    parts.length === 0 ? [] : [under(pen, dive, width, parts)];
  const warnings = (): readonly Block[] => warningLines(pen, dive, width);
  const plan = (): Block => columns(pen, dive, measure, false);
  const grid = (): readonly Block[] => block(dive.grid === null ? [] : [gridBlock(pen, dive.grid, width)]);
  return [
    () => block([...warnings(), columns(pen, dive, measure, true)]),
    () => [...block([...warnings(), plan()]), ...grid()],
    () => [...block(warnings()), ...block([plan()]), ...grid()],
    () => [
      ...dive.warnings.flatMap((text) => block(warningLines(pen, { ...dive, warnings: [text] }, width))),
      ...inParts(dive.levels, LEVELS_A_FACE).flatMap((levels) =>
        block([columns(pen, { ...dive, levels }, measure, false)]),
      ),
      ...grid(),
    ],
  ];
}

/** The least and the most a line to write on is high, millimetres. */
export const WRITE_LEAST = 5.6;
const WRITE_MOST = 8;

/** Lines to write on in a height: the first asks what the evening wants to know. */
export function writeLines(pen: Pen, asDived: readonly string[], width: number, heightPt: number): Block {
  const free = heightPt / pen.mm;
  const count = Math.max(0, Math.floor(free / WRITE_LEAST + 1e-6));
  const fitting = Math.min(count, Math.max(1, Math.ceil(free / WRITE_MOST)));
  const pitch = fitting === 0 ? 0 : Math.min(WRITE_MOST, free / fitting);
  const draws = Array.from({ length: fitting }, (_, i) =>
    stroke(pen, [0, (i + 1) * pitch - 0.3], [width, (i + 1) * pitch - 0.3], 0.7, [0.8, 3.2]),
  );
  const caption = { y: pitch - 4.6, pitch: 4 };
  const [first, ...units] = asDived;
  if (fitting > 0 && first !== undefined) {
    draws.push(put(pen, first, TYPES.caption, { x: 0, ...caption }));
    units.forEach((unit, i) =>
      draws.push(
        put(pen, unit, TYPES.caption, { x: width - 18 * (units.length - 1 - i), ...caption, align: 'right' }),
      ),
    );
  }
  return blockOf(pen, free, draws);
}
