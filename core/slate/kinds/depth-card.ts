/** Depth cards: what each mix on board is by depth, for the most careful of those chosen. */
import { failure, type Result } from '../../result';
import { depthCard, type DepthCard, type DepthCardRow } from '../../mixes/depth-card';
import { cardNotesSaid, isDense, isTooDense } from '../../mixes/depth-card-words';
import { mixO2 } from '../../ledger/mix-choice';
import { shown, wordsOf, inOneSystem, type Reader, type Words } from '../../words/reader';
import { bare, figure, said, type Figure, type Said } from '../../words/said';
import { mixSaid } from '../../words/terms';
import { footBlock } from '../card-foot';
import { cardSheets, papersOf, spaceOf, type CardPages, type Face, type FaceSpace } from '../card-sheets';
import { waterline } from '../card/block';
import {
  blockOf,
  enclosure,
  lines,
  penOf,
  put,
  putOn,
  stroke,
  TYPES,
  widthMm,
  type Draw,
  type Pen,
  type Type,
} from '../card/pen';
import { noMixes, paperTooSmall } from '../faults';
import { KIND_NAMES } from '../names';
import { beside, space, stack, tagged, type Block, type Setter } from '../layout';
import { slanted, unmarked } from '../markup';
import { slateReader } from '../reading';
import type { SlateRequest, SlateTrouble } from '../request';

const MIX: Type = ['bold', 30];
const DEPTH: Type = ['boldSlant', 17];
const LIMIT: Type = ['bold', 15];
const PLAIN: Type = ['text', 15];
const SLANT: Type = ['textSlant', 15];

/** Heights in millimetres of a face of A6. */
const HEAD = 12;
const ROW = 6.7;
const CAPTION = 3.6;
const MARK = 5;
/** Between a figure and the same in the other system of units. */
const BETWEEN = 1.3;

/** Less than this and the columns touch, millimetres of a face of A6. */
const LEAST_WIDTH = 78;

/** Where the density stands among the columns. */
const DENSITY = 1;

interface Column {
  readonly head: readonly [string, string];
  /** Rounded the careful way, one figure a system of units. */
  readonly of: (row: DepthCardRow) => Figure | Said;
  readonly type: Type;
}

/** A figure in every system the reader has, and without its unit, which the head of the column says. */
function cellText(reader: Reader, words: Words, of: Figure | Said): readonly string[] {
  if (of.is === 'said') return [words(of)];
  return shown(of, reader).map(({ value }) => value);
}

function unitsOf(reader: Reader, of: Figure): string {
  return shown(of, reader)
    .map(({ unit }) => unit)
    .join(', ');
}

function columnsOf(reader: Reader, words: Words): readonly Column[] {
  const min = unitsOf(reader, figure('minutesLeft', 0));
  return [
    {
      head: [words(said`PO2`), unitsOf(reader, figure('po2Met', 1))],
      of: ({ po2Bar }) => figure('po2Met', po2Bar),
      type: PLAIN,
    },
    {
      head: [words(said`density`), unitsOf(reader, figure('densityMet', 1))],
      of: ({ densityGL }) => figure('densityMet', densityGL),
      type: PLAIN,
    },
    {
      head: [words(said`EAD`), unitsOf(reader, figure('depthSet', 0))],
      of: ({ eadM }) => figure('depthCounted', eadM),
      type: SLANT,
    },
    {
      head: [words(said`no-stop,`), words(said`first dive, ${min}`)],
      of: ({ noStopMin }) => (noStopMin === null ? said`no limit` : figure('minutesLeft', noStopMin)),
      type: LIMIT,
    },
    {
      head: [words(said`CNS 100 %`), words(said`after, ${min}`)],
      of: ({ cnsMin }) => (cnsMin === null ? said`–` : figure('minutesLeft', cnsMin)),
      type: PLAIN,
    },
  ];
}

/** Where a text ends at the right, of one system large and of a second one small behind it. */
function figureAt(
  pen: Pen,
  texts: readonly string[],
  type: Type,
  right: number,
  baseline: number,
): readonly Draw[] {
  const small: Type = [type[0] === 'boldSlant' || type[0] === 'textSlant' ? 'textSlant' : 'text', 11];
  const [first, second] = texts;
  const at = right - (second === undefined ? 0 : widthMm(pen, second, small) + BETWEEN);
  return [
    putOn(pen, first!, type, { x: at, baseline, align: 'right' }),
    ...(second === undefined ? [] : [putOn(pen, second, small, { x: right, baseline, align: 'right' })]),
  ];
}

/** Right ends of the columns after the depth: what is over goes between them in equal parts. */
function rightsOf(widths: readonly number[], from: number, width: number): readonly number[] {
  const free = (width - from - widths.reduce((sum, each) => sum + each, 0)) / widths.length;
  let right = from;
  return widths.map((each) => (right += each + free));
}

interface Setting {
  readonly pen: Pen;
  readonly reader: Reader;
  readonly words: Words;
  readonly width: number;
}

function headBlock({ pen, reader, words, width }: Setting, card: DepthCard): Block {
  const mods = shown(figure('depthLimit', card.modM), reader);
  const baseline = 9.6;
  const unit = ` ${mods[0]!.unit}`;
  const second = mods[1] === undefined ? '' : `, ${mods[1].value} ${mods[1].unit}`;
  const tail = widthMm(pen, second, TYPES.dataSlant);
  const units = widthMm(pen, unit, ['boldSlant', 13]);
  const value = widthMm(pen, mods[0]!.value, ['boldSlant', 26]);
  const end = width - tail - units;
  const name = putOn(pen, words(mixSaid(mixO2(card.mix))), MIX, { x: 0, baseline });
  const mod = blockOf(pen, HEAD, [
    putOn(pen, words(said`MOD`), TYPES.data, { x: end - value - 1.4, baseline, align: 'right' }),
    putOn(pen, mods[0]!.value, ['boldSlant', 26], { x: end, baseline, align: 'right' }),
    putOn(pen, unit, ['boldSlant', 13], { x: end, baseline }),
    ...(second === '' ? [] : [putOn(pen, second, TYPES.dataSlant, { x: width - tail, baseline })]),
  ]);
  return stack([
    beside([
      { block: tagged(blockOf(pen, HEAD, [name]), { is: 'H1' }), x: 0 },
      { block: mod, x: 0 },
    ]),
    waterline(pen, width),
  ]);
}

/** A dotted line with its reason in it: a danger, as round a rock on a chart. */
function markLine({ pen, words, width }: Setting, says: Said): Block {
  const text = words(says);
  const wide = widthMm(pen, text, ['bold', 11]);
  const y = MARK / 2;
  return blockOf(pen, MARK, [
    stroke(pen, [0, y], [4, y], 1.2, [1.2, 1.8]),
    put(pen, text, ['bold', 11], { x: 5.5, y: 0, pitch: MARK }),
    stroke(pen, [7 + wide, y], [width, y], 1.2, [1.2, 1.8]),
  ]);
}

function rowsBlocks(
  setting: Setting,
  card: DepthCard,
): { readonly head: Block; readonly rows: readonly Block[] } {
  const { pen, reader, words, width } = setting;
  const columns = columnsOf(reader, words);
  const trouble = words(said`only to get out of trouble`);
  const depthOf = ({ depthM }: DepthCardRow): readonly string[] =>
    shown(figure('depthSet', depthM), reader).map(({ value }) => value);
  const cells = card.rows.map((row) => columns.map(({ of }) => cellText(reader, words, of(row))));
  const wide = (texts: readonly string[], type: Type): number =>
    widthMm(pen, texts[0]!, type) +
    (texts[1] === undefined ? 0 : widthMm(pen, texts[1], TYPES.data) + BETWEEN);
  const widths = columns.map(({ head, type }, c) =>
    Math.max(
      ...head.map((text) => widthMm(pen, text, TYPES.caption)),
      ...cells.map((row) => wide(row[c]!, row[c]![0] === words(said`no limit`) ? TYPES.dataBold : type)),
    ),
  );
  const depthWidth = Math.max(
    widthMm(pen, words(said`depth`), TYPES.caption),
    ...card.rows.map((row) => wide(depthOf(row), DEPTH)),
  );
  const rights = rightsOf(widths, depthWidth, width);
  const unit = unitsOf(reader, figure('depthSet', 0));
  const headCell = (texts: readonly string[], x: number, align: 'left' | 'right', column: number): Block =>
    tagged(
      blockOf(
        pen,
        2 * CAPTION,
        texts.map((text, i) => put(pen, text, TYPES.caption, { x, y: i * CAPTION, pitch: CAPTION, align })),
      ),
      { is: 'TH', row: 0, column },
    );
  const over = (blocks: readonly Block[], heightMm: number): Block => ({
    heightPt: heightMm * pen.mm,
    at: (x, y) => blocks.flatMap((block) => block.at(x, y)),
  });
  const head = over(
    [
      headCell([words(said`depth`), unit], 0, 'left', 0),
      ...columns.map((column, c) => headCell(column.head, rights[c]!, 'right', c + 1)),
    ],
    2 * CAPTION + 0.8,
  );
  const rows = card.rows.map((row, r) => {
    const baseline = ROW / 2 + 2.1;
    const depth = depthOf(row);
    const line = stroke(pen, [0, 0], [width, 0], 0.4);
    const drawn = (draws: readonly Draw[], column: number): Block =>
      tagged(blockOf(pen, ROW, draws), { is: column === 0 ? 'TH' : 'TD', row: r + 1, column });
    const small: Type = TYPES.data;
    const first = drawn(
      [
        putOn(pen, depth[0]!, DEPTH, { x: 0, baseline }),
        ...(depth[1] === undefined
          ? []
          : [
              putOn(pen, depth[1], TYPES.dataSlant, {
                x: widthMm(pen, depth[0]!, DEPTH) + BETWEEN,
                baseline,
              }),
            ]),
      ],
      0,
    );
    const told = row.isPastMod ? 2 : columns.length;
    const figures = columns.slice(0, told).map((column, c) => {
      const isWord = column.of(row).is === 'said' && cells[r]![c]![0] !== '–';
      const type = isWord ? TYPES.dataBold : c === DENSITY && isDense(row) ? LIMIT : column.type;
      return drawn(figureAt(pen, cells[r]![c]!, type, rights[c]!, baseline), c + 1);
    });
    const right = rights[DENSITY]!;
    const danger = isTooDense(row)
      ? [enclosure(pen, right - widthMm(pen, cells[r]![DENSITY]![0]!, LIMIT) - 1, 0.8, right + 1, ROW - 0.4)]
      : [];
    const instead = row.isPastMod
      ? [drawn([putOn(pen, trouble, small, { x: width, baseline, align: 'right' })], 3)]
      : [];
    return over([blockOf(pen, ROW, [line, ...danger]), first, ...figures, ...instead], ROW);
  });
  return { head, rows };
}

/** The faces of one mix: on as many as its rows need, each with the head again. */
function facesOf(
  setting: Setting,
  card: DepthCard,
  face: FaceSpace,
  mark: string,
  notes: string,
): readonly Face[] | null {
  const { pen, words, width } = setting;
  const head = headBlock(setting, card);
  const table = rowsBlocks(setting, card);
  const note = stack([space(1.2 * pen.mm), lines(pen, notes, TYPES.caption, width, CAPTION)]);
  const foot = footBlock(pen, words, 'both', mark, width);
  const modLine = markLine(
    setting,
    said`MOD ${slanted(figure('depthLimit', card.modM))}, PO2 ${bare('po2Limit', card.workingBar)}`,
  );
  const end =
    card.ownDepthM === null
      ? []
      : [markLine(setting, said`own depth limit ${slanted(figure('depthSet', card.ownDepthM))}`)];
  const firstPast = card.rows.findIndex(({ isPastMod }) => isPastMod);
  const parts = table.rows.map((row, i) => (i === firstPast ? stack([modLine, row]) : row));
  if (firstPast < 0 && card.ownDepthM === null) parts.push(modLine);
  parts.push(...end);
  const room = face.heightPt - head.heightPt - table.head.heightPt - note.heightPt - foot.heightPt;
  const groups: Block[][] = [[]];
  let used = 0;
  for (const part of parts) {
    if (part.heightPt > room) return null;
    if (used + part.heightPt > room) {
      groups.push([]);
      used = 0;
    }
    groups[groups.length - 1]!.push(part);
    used += part.heightPt;
  }
  const name = words(said`Depth card, ${mixSaid(mixO2(card.mix))}`);
  return groups.map((group, i) => {
    const body = stack([head, table.head, ...group, note]);
    const free = face.heightPt - body.heightPt - foot.heightPt;
    return {
      name: groups.length === 1 ? name : words(said`${name}, ${i + 1} of ${groups.length}`),
      body: stack([body, space(free), foot]),
    };
  });
}

/**
 * Depth cards of the mixes on board, leanest first.
 * @param mark of the plan @returns pages, or why not: no mix, or a paper that is too small
 */
export function depthCardPages(
  request: SlateRequest,
  set: Setter,
  mark: string,
): Result<CardPages, SlateTrouble> {
  const { trip, divers } = request.ledger;
  const { face } = papersOf(request);
  const front = spaceOf(face, request, false);
  const pen = penOf(set, front.scale);
  const reader = slateReader(request);
  const setting: Setting = {
    pen,
    reader,
    words: wordsOf(inOneSystem(reader)),
    width: front.widthPt / pen.mm,
  };
  const tooSmall = paperTooSmall(setting.words, face.name, KIND_NAMES.depth, null);
  if (setting.width < LEAST_WIDTH - 1e-6) return failure(tooSmall);
  if (trip.mixes.length === 0) return failure(noMixes(setting.words));
  const those = divers
    .map(({ diver }) => diver)
    .filter(({ id }) => request.diverIds === null || request.diverIds.includes(id));
  const cards = [];
  for (const mix of trip.mixes.toSorted((a, b) => mixO2(a) - mixO2(b))) {
    const card = depthCard(trip, mix, those, request.units === 'imperial' ? 'imperial' : 'metric');
    const notes = setting.words(
      cardNotesSaid(card, trip, those.length === 1, {
        depth: slanted,
        name: unmarked,
      }),
    );
    const faces = facesOf(setting, card, front, mark, notes);
    if (faces === null) return failure(tooSmall);
    cards.push(...faces.map((each) => ({ faces: [each] })));
  }
  return cardSheets(request, cards, { isFolded: false, twoSided: false });
}
