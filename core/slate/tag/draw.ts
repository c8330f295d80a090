/** A tag, in one of two arrangements of fixed sizes: on a large one all of it, on a low label what matters. */
import type { Words } from '../../words/reader';
import { said } from '../../words/said';
import {
  baselineMm,
  blockOf,
  enclosure,
  lines,
  put,
  putOn,
  stroke,
  TYPES,
  widthMm,
  type Draw,
  type Pen,
  type Type,
} from '../card/pen';
import type { Block } from '../layout';
import type { Tag } from './content';

/** Heights and sizes of an arrangement, millimetres and points. */
interface Form {
  readonly mixPt: number;
  readonly head: number;
  readonly rung: number;
  readonly isTall: boolean;
}

const TALL: Form = { mixPt: 30, head: 10.4, rung: 5.4, isTall: true };
const LOW: Form = { mixPt: 20, head: 8.6, rung: 4.6, isTall: false };

/** From this height on a tag has the large arrangement. */
const TALL_FROM = 44;

const CAPTION = 3.6;
const NAME = 4.7;
const WRITE = 6.4;
const GAP = 1.6;
const RUNG: Type = ['text', 11];
const RUNG_BOLD: Type = ['bold', 11];

interface Setting {
  readonly pen: Pen;
  readonly words: Words;
  readonly tag: Tag;
  readonly form: Form;
  readonly width: number;
}

/** The MOD of a cylinder that is taken in hand at depth, as large as its mix; null where it finds no place. */
function headMod(
  { pen, words, tag, form }: Setting,
  x: number,
  end: number,
  baseline: number,
): readonly Draw[] | null {
  const first = tag.headMods?.[0];
  if (first === undefined) return null;
  const type: Type = ['boldSlant', form.mixPt];
  const caption = words(said`MOD`);
  const unit = ` ${first.unit}`;
  const at = x + GAP + widthMm(pen, caption, TYPES.caption) + 0.8;
  const behind = at + widthMm(pen, first.value, type);
  if (behind + widthMm(pen, unit, TYPES.dataSlant) > end) return null;
  return [
    putOn(pen, caption, TYPES.caption, { x: x + GAP, baseline }),
    putOn(pen, first.value, type, { x: at, baseline }),
    putOn(pen, unit, TYPES.dataSlant, { x: behind, baseline }),
  ];
}

function headDraws(setting: Setting): readonly Draw[] {
  const { pen, words, tag, form, width } = setting;
  const mix: Type = ['bold', form.mixPt];
  const baseline = form.head - 2;
  const day: Type = form.isTall ? TYPES.day : RUNG_BOLD;
  const right = Math.max(widthMm(pen, tag.day, day), widthMm(pen, tag.dive, TYPES.data));
  const mixEnd = widthMm(pen, tag.mix, mix) + GAP;
  const caption = words(form.isTall ? said`cylinder` : said`no.`);
  const at = mixEnd + widthMm(pen, caption, TYPES.caption) + 0.8;
  const end = width - right - GAP;
  const room = end - at;
  const fits = tag.cylinder !== '' && widthMm(pen, tag.cylinder, TYPES.number) <= room;
  return [
    putOn(pen, tag.mix, mix, { x: 0, baseline }),
    putOn(pen, tag.day, day, { x: width, baseline: baseline - (form.isTall ? 4.6 : 4), align: 'right' }),
    putOn(pen, tag.dive, TYPES.data, { x: width, baseline, align: 'right' }),
    ...(headMod(setting, mixEnd, end, baseline) ??
      (room < 5
        ? []
        : [
            putOn(pen, caption, TYPES.caption, { x: mixEnd, baseline }),
            fits
              ? putOn(pen, tag.cylinder, TYPES.number, { x: at, baseline })
              : stroke(pen, [at, baseline + 0.6], [at + Math.min(room, 16), baseline + 0.6], 0.5),
          ])),
    stroke(pen, [0, form.head - 0.3], [width, form.head - 0.3], 1.6),
  ];
}

/** The rungs that find place beside each other, those next to the label before the others. */
function ladderOf({ pen, words, tag, form, width }: Setting): {
  readonly rungs: Tag['rungs'];
  readonly rows: readonly string[];
  readonly first: number;
  readonly isOneRow: boolean;
} {
  const { modHeads, modHead } = tag;
  const isOneRow = modHeads.length === 1 || !form.isTall;
  const rows = [words(said`I read, %`), ...(isOneRow ? [modHead] : modHeads)];
  const first = Math.max(...rows.map((text) => widthMm(pen, text, TYPES.caption))) + GAP;
  const label = tag.rungs.findIndex(({ isLabel }) => isLabel);
  const wide = ({ mods, share }: Tag['rungs'][number]): number =>
    Math.max(
      widthMm(pen, share, RUNG_BOLD),
      ...(isOneRow ? [mods.join(' / ')] : mods).map((text) => widthMm(pen, text, ['boldSlant', 11])),
    );
  for (const reach of [2, 1]) {
    const rungs = tag.rungs.filter((_, i) => Math.abs(i - label) <= reach);
    const cell = (width - first) / rungs.length;
    if (rungs.every((rung) => wide(rung) + 1.4 <= cell)) return { rungs, rows, first, isOneRow };
  }
  return { rungs: tag.rungs.filter(({ isLabel }) => isLabel), rows, first, isOneRow };
}

/** What may be read and what it is good for, the label framed, what is too rich in dots. */
function ladder(setting: Setting, y: number): readonly Draw[] {
  const { pen, form, width } = setting;
  const { rungs, rows, first, isOneRow } = ladderOf(setting);
  const cell = (width - first) / rungs.length;
  const draws: Draw[] = rows.map((text, r) =>
    put(pen, text, TYPES.caption, { x: 0, y: y + r * form.rung, pitch: form.rung }),
  );
  const foot = y + rows.length * form.rung;
  draws.push(stroke(pen, [0, y + form.rung], [width, y + form.rung], 0.4));
  for (const [i, { share, mods, isLabel, isTooRich }] of rungs.entries()) {
    const middle = first + (i + 0.5) * cell;
    const type: Type = isLabel ? RUNG_BOLD : RUNG;
    const slant: Type = ['boldSlant', 11];
    const texts = [share, ...(isOneRow ? [mods.join(' / ')] : mods)];
    for (const [r, text] of texts.entries()) {
      const set = r === 0 ? type : slant;
      const wide = widthMm(pen, text, set);
      draws.push(put(pen, text, set, { x: middle - wide / 2, y: y + r * form.rung, pitch: form.rung }));
    }
    const [left, right] = [middle - cell / 2 + 0.5, middle + cell / 2 - 0.5];
    if (isTooRich) draws.push(enclosure(pen, left, y + 0.2, right, foot - 0.2));
    else if (isLabel) {
      draws.push(
        stroke(pen, [left, y + 0.2], [right, y + 0.2], 0.9),
        stroke(pen, [right, y + 0.2], [right, foot - 0.2], 0.9),
        stroke(pen, [right, foot - 0.2], [left, foot - 0.2], 0.9),
        stroke(pen, [left, foot - 0.2], [left, y + 0.2], 0.9),
      );
    }
  }
  return draws;
}

function ladderHeight({ tag, form }: Setting): number {
  return form.rung * (1 + (form.isTall ? tag.modHeads.length : 1));
}

const READ = { caption: 3.4, figure: { tall: 11, low: 6 } } as const;

/** The reading, or what it is for, and its MOD, large. */
function reading({ pen, words, tag, form, width }: Setting, y: number): readonly Draw[] {
  const { caption, text, isShare, mods } = tag.large!;
  const high = form.isTall ? READ.figure.tall : READ.figure.low;
  const size = form.isTall ? 30 : 16;
  const type: Type = isShare ? ['bold', size] : form.isTall ? TYPES.number : RUNG_BOLD;
  const baseline = y + READ.caption + high - 1.4;
  const half = width / 2;
  const [first, second] = mods;
  const end = half + widthMm(pen, first!.value, ['boldSlant', size]);
  const unit = ` ${first!.unit}`;
  const behind = end + widthMm(pen, unit, TYPES.dataSlant) + 1;
  return [
    put(pen, caption, TYPES.caption, { x: 0, y, pitch: READ.caption }),
    put(pen, tag.modAt, TYPES.caption, { x: half, y, pitch: READ.caption }),
    putOn(pen, text, type, { x: 0, baseline }),
    ...(isShare ? [putOn(pen, words(said` %`), TYPES.data, { x: widthMm(pen, text, type), baseline })] : []),
    putOn(pen, first!.value, ['boldSlant', size], { x: half, baseline }),
    putOn(pen, unit, TYPES.dataSlant, { x: end, baseline }),
    ...(second === undefined
      ? []
      : [putOn(pen, `${second.value} ${second.unit}`, TYPES.dataSlant, { x: behind, baseline })]),
  ];
}

/** Lines to write on: what was read, who read it, and when. */
function writing({ pen, words, tag, form, width }: Setting, y: number): readonly Draw[] {
  const parts = [
    words(tag.isAnalysed ? said`again` : said`analysed`),
    words(said`by`),
    ...(form.isTall ? [words(said`on`)] : []),
  ];
  const gap = 2;
  const cell = (width - gap * (parts.length - 1)) / parts.length;
  const baseline = baselineMm(TYPES.caption[1], y, WRITE) + 0.8;
  return parts.flatMap((text, i) => {
    const x = i * (cell + gap);
    return [
      stroke(pen, [x, y + WRITE - 0.4], [x + cell, y + WRITE - 0.4], 0.5),
      putOn(pen, text, TYPES.caption, { x, baseline }),
      ...(i === 0 ? [putOn(pen, words(said`%`), RUNG_BOLD, { x: x + cell, baseline, align: 'right' })] : []),
    ];
  });
}

/**
 * A tag inside its label.
 * @param width inside the white that is kept clear, millimetres @param height the same
 * @returns null where that does not take what has to stand on it
 */
export function tagBlock(pen: Pen, words: Words, tag: Tag, width: number, height: number): Block | null {
  const form = height >= TALL_FROM ? TALL : LOW;
  const setting: Setting = { pen, words, tag, form, width };
  const main =
    tag.large === null
      ? ladderHeight(setting)
      : READ.caption + (form.isTall ? READ.figure.tall : READ.figure.low);
  const note = lines(pen, form.isTall ? tag.note : tag.shortNote, TYPES.caption, width, CAPTION);
  const noteHeight = note.heightPt / pen.mm;
  const free = height - form.head - 0.4 - main - 0.4 - noteHeight - WRITE;
  const isNarrow =
    widthMm(pen, tag.mix, ['bold', form.mixPt]) +
      GAP +
      Math.max(
        widthMm(pen, tag.day, form.isTall ? TYPES.day : RUNG_BOLD),
        widthMm(pen, tag.dive, TYPES.data),
      ) >
    width;
  if (free < 0 || isNarrow) return null;
  const name = lines(pen, tag.diver, TYPES.who, width, NAME);
  // Never cut or set smaller: what finds no place here stands in the log.
  const nameHeight = name.heightPt / pen.mm <= free ? name.heightPt / pen.mm : 0;
  const top = form.head + 0.4 + nameHeight;
  const body = tag.large === null ? ladder(setting, top) : reading(setting, top);
  const noteY = (top + main + 0.4) * pen.mm;
  return blockOf(pen, height, [
    ...headDraws(setting),
    ...(nameHeight > 0 ? [(x: number, y: number) => name.at(x, y + form.head * pen.mm)] : []),
    ...body,
    (x, y) => note.at(x, y + noteY),
    ...writing(setting, height - WRITE),
  ]);
}
