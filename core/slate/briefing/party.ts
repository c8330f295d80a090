/** Who dives with whom, in order of entry, with the pressures of each dive; and the roll to call. */
import type { Words } from '../../words/reader';
import { said, type Said } from '../../words/said';
import { HEADS } from '../../words/terms';
import {
  beside,
  rule,
  space,
  stack,
  straight,
  tagged,
  type Block,
  type CellTag,
  type Mark,
  type Setter,
} from '../layout';
import {
  LEADING,
  lineOf,
  paragraph,
  sectionHead,
  styleOf,
  TYPES,
  widthOf,
  type Section,
} from '../sheet/parts';
import type { BriefDay } from './content';
import type { BriefCell, BriefDiver } from './pressures';

/** White on either side of the line before a dive, and between its figures. */
const SIDE = 6;
const INNER = 9;

/** A name breaks into lines no narrower than this. */
const NAME_LEAST = 84;
const NAME_USUAL = 110;

/** White above and below a row. */
const PAD = 1.6;

/** A dive's columns in the table. */
interface DiveColumn {
  readonly index: number;
  readonly number: string;
  readonly mix: number;
  readonly turn: number;
  readonly minimum: number;
  readonly width: number;
}

function columnOf(set: Setter, words: Words, day: BriefDay, index: number): DiveColumn {
  const cells = day.groups.flatMap(({ divers }) => divers.map((diver) => diver.cells[index]!));
  const wide = (texts: readonly string[], type: (typeof TYPES)[keyof typeof TYPES]): number =>
    Math.max(0, ...texts.map((text) => widthOf(set, text, type)));
  const figures = cells.filter((cell) => !('instead' in cell)) as Exclude<BriefCell, { instead: string }>[];
  const mix = day.dives[index]!.hasMixes
    ? wide(
        figures.map((cell) => cell.mix),
        TYPES.data,
      ) + INNER
    : 0;
  const number = day.dives[index]!.number;
  const head = widthOf(set, words(HEADS.turn), TYPES.caption);
  const turn = Math.max(
    wide(
      figures.flatMap((cell) => cell.turn),
      TYPES.dataBold,
    ),
    head + (mix === 0 ? widthOf(set, number, TYPES.dataBold) + 6 : 0),
  );
  const minimum = Math.max(
    wide(
      figures.flatMap((cell) => cell.minimum),
      TYPES.data,
    ),
    widthOf(set, words(HEADS.minimum), TYPES.caption),
  );
  const instead = wide(
    cells.flatMap((cell) => ('instead' in cell ? [cell.instead] : [])),
    TYPES.data,
  );
  const least = Math.max(instead, mix + turn + INNER + minimum);
  return { index, number, mix, turn: least - minimum - INNER - mix, minimum, width: 2 * SIDE + least };
}

/** Columns in as many tables as the width asks for, alike in number as far as they can be. */
function chunksOf<Column extends { readonly width: number }>(
  columns: readonly Column[],
  widthPt: number,
): readonly (readonly Column[])[] {
  // Columns differ in width: one table where they fit together, whatever the widest of them is.
  if (columns.reduce((sum, { width }) => sum + width, 0) <= widthPt + 1e-6) return [columns];
  const greatest = Math.max(...columns.map(({ width }) => width));
  const most = Math.max(1, Math.floor(widthPt / greatest));
  const each = Math.ceil(columns.length / Math.ceil(columns.length / most));
  const chunks: (readonly Column[])[] = [];
  for (let i = 0; i < columns.length; i += each) chunks.push(columns.slice(i, i + each));
  return chunks;
}

/** A line down the left of each dive, as high as the row. */
function withLines(row: Block, xs: readonly number[]): Block {
  return {
    heightPt: row.heightPt,
    at: (x, y): readonly Mark[] => [
      ...xs.map((at) => straight(x + at, y, x + at, y + row.heightPt, 0.4)),
      ...row.at(x, y),
    ],
  };
}

interface Table {
  readonly set: Setter;
  readonly words: Words;
  readonly nameWidth: number;
  /** Null: the cylinder stands under the name. */
  readonly cylinder: { readonly x: number; readonly width: number } | null;
  readonly columns: readonly DiveColumn[];
  readonly starts: readonly number[];
  readonly width: number;
}

function diverRow(
  { set, nameWidth, cylinder, columns, starts }: Table,
  diver: BriefDiver,
  row: number,
): Block {
  const tagOf = (column: number) => ({ is: column === 0 ? 'TH' : 'TD', row, column }) as const;
  const name = tagged(paragraph(set, diver.name, nameWidth, TYPES.person), tagOf(0));
  const own = tagged(
    paragraph(
      set,
      diver.cylinder,
      cylinder?.width ?? nameWidth,
      cylinder === null ? TYPES.caption : TYPES.data,
      cylinder === null ? LEADING.caption : LEADING.data,
    ),
    cylinder === null ? tagOf(0) : tagOf(1),
  );
  const cells = columns.map((column, i) => {
    const cell = diver.cells[column.index]!;
    const first = 2 + 3 * i;
    const x = starts[i]! + SIDE;
    if ('instead' in cell) {
      return { block: tagged(paragraph(set, cell.instead, column.width - 2 * SIDE), tagOf(first)), x };
    }
    const right = (
      text: string,
      type: typeof TYPES.data | typeof TYPES.dataBold,
      width: number,
      tag: number,
    ): Block =>
      tagged(set.text(text, styleOf(type, { leadingPt: LEADING.data, align: 'right' }), width), tagOf(tag));
    const block = beside([
      ...(column.mix === 0
        ? []
        : [{ block: tagged(paragraph(set, cell.mix, column.mix), tagOf(first)), x: 0 }]),
      {
        block: stack(cell.turn.map((text) => right(text, TYPES.dataBold, column.turn, first + 1))),
        x: column.mix,
      },
      {
        block: stack(cell.minimum.map((text) => right(text, TYPES.data, column.minimum, first + 2))),
        x: column.mix + column.turn + INNER,
      },
    ]);
    return { block, x };
  });
  const block =
    cylinder === null
      ? beside([{ block: stack([name, own]), x: 0 }, ...cells])
      : beside([{ block: name, x: 0 }, { block: own, x: cylinder.x }, ...cells]);
  return withLines(stack([space(PAD), block, space(PAD)]), starts);
}

function tableHead({ set, words, columns, starts, cylinder, width }: Table): Block {
  const caption = TYPES.caption;
  const head = lineOf(
    set,
    [
      ...(cylinder === null
        ? []
        : [
            {
              text: words(said`cylinder`),
              type: caption,
              x: cylinder.x,
              width: cylinder.width,
              tag: headTag(1),
            },
          ]),
      ...columns.flatMap((column, i) => {
        const x = starts[i]! + SIDE;
        const numberWidth = widthOf(set, column.number, TYPES.dataBold) + 1;
        return [
          { text: column.number, type: TYPES.dataBold, x, width: numberWidth, tag: headTag(2 + 3 * i) },
          {
            text: words(HEADS.turn),
            type: caption,
            x: x + numberWidth,
            width: column.mix + column.turn - numberWidth,
            align: 'right' as const,
            tag: headTag(3 + 3 * i),
          },
          {
            text: words(HEADS.minimum),
            type: caption,
            x: x + column.mix + column.turn + INNER - 2,
            width: column.minimum + 2,
            align: 'right' as const,
            tag: headTag(4 + 3 * i),
          },
        ];
      }),
    ],
    LEADING.data,
  );
  return stack([withLines(head, starts), rule(width, 0.4, 1)]);
}

/** A head of the table. */
function headTag(column: number): CellTag {
  return { is: 'TH', row: 0, column };
}

/** Sections of who dives with whom: one where the dives stand beside each other, else several. */
export function partySections(set: Setter, words: Words, day: BriefDay, width: number): readonly Section[] {
  const divers = day.groups.flatMap((group) => group.divers);
  const columns = day.dives.map((_, i) => columnOf(set, words, day, i));
  const nameNeeds = Math.max(...divers.map(({ name }) => widthOf(set, name, TYPES.person))) + 8;
  const cylinderNeeds = Math.max(...divers.map((each) => widthOf(set, each.cylinder, TYPES.data))) + 8;
  const all = columns.reduce((sum, column) => sum + column.width, 0);
  const nameMost = Math.max(NAME_LEAST, Math.min(nameNeeds, 0.36 * width));
  // A long name in two lines costs less than a second line for everybody.
  const hasCylinder = Math.min(nameNeeds, NAME_USUAL) + cylinderNeeds + all <= width;
  const left = hasCylinder ? width - all : nameMost;
  const hasOrder = day.groups.length > 1;
  const units = day.pressureUnit;
  const note = hasOrder
    ? words(said`in groups, in order of entry; turn and minimum in ${units}`)
    : words(said`turn and minimum in ${units}`);
  const chunks = chunksOf(columns, width - left);
  return chunks.map((chunk, c): Section => {
    // What is left over goes to the names.
    const used = chunk.reduce((sum, column) => sum + column.width, 0);
    const starts: number[] = [];
    let at = width - used;
    for (const column of chunk) {
      starts.push(at);
      at += column.width;
    }
    const nameWidth = (hasCylinder ? width - used - cylinderNeeds : width - used) - 4;
    const table: Table = {
      set,
      words,
      nameWidth,
      cylinder: hasCylinder ? { x: nameWidth + 4, width: cylinderNeeds - 4 } : null,
      columns: chunk,
      starts,
      width,
    };
    const heads = tableHead(table);
    let row = 0;
    const rows = day.groups.flatMap((group) => {
      const made = group.divers.map((diver) => {
        row += 1;
        return diverRow(table, diver, row);
      });
      const title =
        group.title === '' ? [] : [paragraph(set, group.title, width, TYPES.caption, LEADING.caption)];
      // The name of a group is never left alone at the foot of a page.
      const [first, ...others] = made;
      return [stack([...title, first!]), ...others, rule(width, 0.4, 1)];
    });
    const missing =
      c === chunks.length - 1
        ? day.missing.map((text) => paragraph(set, text, width, TYPES.caption, LEADING.caption))
        : [];
    return {
      head: c === 0 ? stack([sectionHead(set, words(said`Who with whom`), note, width), heads]) : heads,
      again: heads,
      rows: [...rows, ...missing],
      isWhole: true,
    };
  });
}

/** A row to write into, 7 mm; a column of it, 10 mm. */
const ROLL_ROW = 19.85;
const ROLL_CELL = 28.4;

const ROLL: readonly Said[] = [said`in`, said`out`];

/** The roll: each diver of each dive, in, out, pressure; boxes to write into. */
export function rollSections(set: Setter, words: Words, day: BriefDay, width: number): readonly Section[] {
  const divers = day.groups.flatMap((group) => group.divers);
  const nameNeeds = Math.max(...divers.map(({ name }) => widthOf(set, name, TYPES.person))) + 8;
  const nameMost = Math.max(NAME_LEAST, Math.min(nameNeeds, 0.36 * width));
  const heads = [...ROLL.map((each) => words(each)), day.pressureUnit.replace(' / ', ', ')];
  const least = Math.max(
    ROLL_CELL,
    ...heads.map((head, i) => widthOf(set, head, TYPES.caption) + (i === 0 ? 14 : 6)),
  );
  const columns = day.dives.map(({ number }, index) => ({ index, number, width: 3 * least }));
  const chunks = chunksOf(columns, width - nameMost);
  return chunks.map((chunk, c): Section => {
    const nameWidth = Math.min(Math.max(nameNeeds, NAME_LEAST), width - chunk.length * 3 * least);
    const cell = (width - nameWidth) / (3 * Math.max(chunk.length, chunks[0]!.length));
    const right = nameWidth + 3 * chunk.length * cell;
    const xs = chunk.flatMap((_, i) => [0, 1, 2].map((j) => nameWidth + (3 * i + j) * cell));
    const lines = (row: Block, isWhole: (dive: number) => boolean = () => false): Block => ({
      heightPt: row.heightPt,
      at: (x, y): readonly Mark[] => [
        ...[...xs, right].flatMap((at, i) =>
          // Nothing is written into the boxes of a dive that somebody does not make.
          i % 3 !== 0 && isWhole(Math.floor(i / 3))
            ? []
            : [straight(x + at, y, x + at, y + row.heightPt, i % 3 === 0 ? 0.9 : 0.4)],
        ),
        straight(x, y + row.heightPt, x + right, y + row.heightPt, 0.4),
        ...row.at(x, y),
      ],
    });
    const head = lines(
      beside(
        chunk.flatMap(({ number }, i) =>
          heads.map((text, j) => {
            const numberWidth = j === 0 ? widthOf(set, number, TYPES.dataBold) + 4 : 0;
            const x = nameWidth + (3 * i + j) * cell + 3;
            return {
              block: lineOf(
                set,
                [
                  ...(j === 0 ? [{ text: number, type: TYPES.dataBold, x: 0, width: numberWidth }] : []),
                  { text, type: TYPES.caption, x: numberWidth, width: cell - 4 - numberWidth },
                ],
                LEADING.data,
              ),
              x,
            };
          }),
        ),
      ),
    );
    const rows = divers.map((diver) => {
      const name = paragraph(set, diver.name, nameWidth - 4, TYPES.person);
      const high = Math.max(ROLL_ROW, name.heightPt + 3);
      const instead = chunk.flatMap(({ index }, i) => {
        const each = diver.cells[index]!;
        return 'instead' in each && !each.isDived
          ? [
              {
                block: paragraph(set, each.instead, 3 * cell - 6, TYPES.caption, LEADING.caption),
                x: nameWidth + 3 * i * cell + 3,
              },
            ]
          : [];
      });
      const middle = (block: Block): Block => stack([space((high - block.heightPt) / 2), block]);
      return lines(
        {
          heightPt: high,
          at: (x, y) => [
            ...middle(name).at(x, y),
            ...instead.flatMap(({ block, x: at }) => middle(block).at(x + at, y)),
          ],
        },
        (dive) => {
          const each = diver.cells[chunk[dive]!.index]!;
          return 'instead' in each && !each.isDived;
        },
      );
    });
    const note = words(said`time in, time out, pressure out`);
    return {
      head: c === 0 ? stack([sectionHead(set, words(said`Roll call`), note, width), head]) : head,
      again: head,
      rows,
      isWhole: true,
    };
  });
}
