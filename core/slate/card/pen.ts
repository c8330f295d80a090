import type { FaceName } from '../faces';
import { PT_PER_MM } from '../paper';
import {
  straight,
  type Block,
  type Mark,
  type Setter,
  type TextBlock,
  type TextMark,
  type TextStyle,
} from '../layout';

/** Sets a card in millimetres and points of an A6 face, at whatever size the booklet has. */
export interface Pen {
  readonly set: Setter;
  /** How many times larger than on A6. */
  readonly scale: number;
  /** Points in a millimetre of the card. */
  readonly mm: number;
}

export function penOf(set: Setter, scale: number): Pen {
  return { set, scale, mm: PT_PER_MM * scale };
}

/** A face and a size in points. */
export type Type = readonly [font: FaceName, sizePt: number, stress?: FaceName];

function styleOf({ scale }: Pen, [font, sizePt, stress]: Type): TextStyle {
  // Asked for at every word: spreading costs more than the rest of it.
  return stress === undefined ? { font, sizePt: sizePt * scale } : { font, sizePt: sizePt * scale, stress };
}

/** The sizes of a card. Source: figures of the large size are read at arm's length, 28 minutes of arc at 65 cm. */
export const TYPES = {
  big: ['bold', 22],
  bigDepth: ['boldSlant', 22],
  clock: ['bold', 17],
  number: ['bold', 17],
  out: ['bold', 15],
  station: ['bold', 13],
  mix: ['bold', 13],
  site: ['name', 13],
  who: ['name', 12.5],
  day: ['bold', 12.5],
  data: ['text', 11],
  dataBold: ['bold', 11],
  dataSlant: ['textSlant', 11],
  caption: ['text', 9],
  captionSlant: ['textSlant', 9],
  caution: ['text', 7],
} as const satisfies Record<string, Type>;

export function widthMm(pen: Pen, text: string, type: Type): number {
  return pen.set.width(text, styleOf(pen, type)) / pen.mm;
}

/** Where capitals have their middle above the baseline, as a share of the size: see layout. */
const MIDDLE = 0.36;

/** A line of type in the middle of a height, millimetres from the left, or to the left. */
export function put(
  pen: Pen,
  text: string,
  type: Type,
  at: { readonly x: number; readonly y: number; readonly pitch: number; readonly align?: 'left' | 'right' },
): (x: number, y: number) => readonly TextMark[] {
  const { set, mm } = pen;
  const style = styleOf(pen, type);
  const width = at.align === 'right' ? set.width(text, style) : 0;
  const baseline = (at.y + at.pitch / 2) * mm + MIDDLE * style.sizePt;
  return (x, y) => set.line(text, style, x + at.x * mm - width, y + baseline);
}

/** The baseline of a line in the middle of a height, millimetres. */
export function baselineMm(sizePt: number, y: number, pitch: number): number {
  return y + pitch / 2 + (MIDDLE * sizePt) / PT_PER_MM;
}

/** A line of type whose baseline is given, so that two sizes stand on one. */
export function putOn(
  pen: Pen,
  text: string,
  type: Type,
  at: { readonly x: number; readonly baseline: number; readonly align?: 'left' | 'right' },
): (x: number, y: number) => readonly TextMark[] {
  const { set, mm } = pen;
  const style = styleOf(pen, type);
  const width = at.align === 'right' ? set.width(text, style) : 0;
  return (x, y) => set.line(text, style, x + at.x * mm - width, y + at.baseline * mm);
}

/** A straight line. @param strokePt on A6 */
export function stroke(
  { mm, scale }: Pen,
  from: readonly [number, number],
  to: readonly [number, number],
  strokePt: number,
  dashPt?: readonly [number, number],
): (x: number, y: number) => readonly Mark[] {
  const dash = dashPt && ([dashPt[0] * scale, dashPt[1] * scale] as const);
  return (x, y) => [
    straight(x + from[0] * mm, y + from[1] * mm, x + to[0] * mm, y + to[1] * mm, strokePt * scale, dash),
  ];
}

/** Dots as round a rock on a chart: a danger. */
export function enclosure(
  pen: Pen,
  left: number,
  top: number,
  right: number,
  bottom: number,
): (x: number, y: number) => readonly Mark[] {
  const sides = [
    [
      [left, top],
      [right, top],
    ],
    [
      [right, top],
      [right, bottom],
    ],
    [
      [right, bottom],
      [left, bottom],
    ],
    [
      [left, bottom],
      [left, top],
    ],
  ] as const;
  const drawn = sides.map(([from, to]) => stroke(pen, from, to, 1.2, [1.2, 1.8]));
  return (x, y) => drawn.flatMap((side) => side(x, y));
}

export type Draw = (x: number, y: number) => readonly Mark[];

/** Drawings as something of a height in millimetres. */
export function blockOf({ mm }: Pen, heightMm: number, draws: readonly Draw[]): Block {
  return { heightPt: heightMm * mm, at: (x, y) => draws.flatMap((draw) => draw(x, y)) };
}

/** A text that may take several lines. */
export function lines(pen: Pen, text: string, type: Type, widthOfMm: number, pitch: number): TextBlock {
  return pen.set.text(text, { ...styleOf(pen, type), leadingPt: pitch * pen.mm }, widthOfMm * pen.mm);
}
