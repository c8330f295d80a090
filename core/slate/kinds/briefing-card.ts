import { joined, NONE, words, type Figure } from '../figures';
import type { SlateDive } from '../contents';
import { rule, space, stack, table, type Block, type Column, type Setter, type TextStyle } from '../layout';
import { heading } from '../page-frame';

/** One dive of the party's day. */
export interface PartyDive {
  readonly number: number;
  readonly rows: readonly { readonly name: string; readonly dive: SlateDive }[];
}

function numbers(figures: readonly Figure[]): string {
  return figures.map((figure) => figure.value).join(' / ');
}

function unitsOf(figures: readonly Figure[]): string {
  return figures.map((figure) => figure.unit).join(' / ');
}

/** The diver with the least room of a dive; null for a single diver or where nobody has a figure. */
function tightest(dive: PartyDive): string | null {
  const known = dive.rows.filter(({ dive: each }) => each.roomMin !== null);
  if (known.length < 2) return null;
  return known.reduce((least, row) => (row.dive.roomMin! < least.dive.roomMin! ? row : least)).dive.entry
    .diver.id;
}

/** Text of one kind, or each with who has it, where divers differ. */
function shared(dive: PartyDive, of: (each: SlateDive) => string): string {
  return [...new Set(dive.rows.map((row) => of(row.dive)))].join(' or ');
}

/** A column of the card: two lines of heading, and what it says of a diver. */
interface CardColumn {
  readonly head: string;
  readonly unit: (of: SlateDive) => string;
  readonly cell: (of: SlateDive) => string;
  readonly align: 'left' | 'right';
}

function figureColumn(head: string, of: (dive: SlateDive) => readonly Figure[]): CardColumn {
  return { head, unit: (dive) => unitsOf(of(dive)), cell: (dive) => numbers(of(dive)), align: 'right' };
}

function wordColumn(head: string, of: (dive: SlateDive) => string): CardColumn {
  return { head, unit: () => '', cell: of, align: 'left' };
}

const NARROW_COLUMNS: readonly CardColumn[] = [
  wordColumn('mix', (dive) => dive.mix),
  figureColumn('MOD', (dive) => dive.mod),
  figureColumn('no-stop', (dive) => [{ value: dive.noStop.value, unit: 'min' }]),
  figureColumn('room', (dive) => [{ value: dive.room.value, unit: 'min' }]),
  figureColumn('turn', (dive) => dive.turn),
  figureColumn('min.', (dive) => dive.minimum),
];

const WIDE_COLUMNS: readonly CardColumn[] = [
  ...NARROW_COLUMNS.slice(0, 2),
  { head: 'PO2', unit: () => 'bar', cell: (dive) => dive.po2.replace(' bar', ''), align: 'right' },
  ...NARROW_COLUMNS.slice(2, 4),
  wordColumn('set by', (dive) => dive.roomLimit ?? (dive.roomMin === null ? NONE : 'no-stop limit')),
  figureColumn('fill', (dive) => dive.fill),
  ...NARROW_COLUMNS.slice(4),
];

/** The table of a card; null where names would find no place beside the figures. */
function cardTable(
  set: Setter,
  dive: PartyDive,
  which: readonly CardColumn[],
  widthPt: number,
  sizePt: number,
): readonly Block[] | null {
  const plain: TextStyle = { font: 'regular', sizePt };
  const strong: TextStyle = { font: 'bold', sizePt };
  const least = tightest(dive);
  const made = dive.rows.find((row) => row.dive.entry.isMade)?.dive ?? dive.rows[0]!.dive;
  const isLeast = dive.rows.map((row) => row.dive.entry.diver.id === least);
  const names = dive.rows.map((row, i) => (isLeast[i] === true ? `${row.name} (tightest)` : row.name));
  const body = dive.rows.map(({ dive: each }) => which.map((column) => column.cell(each)));
  const head = [which.map((column) => column.head), which.map((column) => column.unit(made))];
  const widths = which.map((_, c) =>
    Math.max(
      ...head.map((row) => set.width(row[c]!, plain)),
      ...body.map((row) => set.width(row[c]!, strong)),
    ),
  );
  const taken = widths.reduce((sum, width) => sum + width, 0);
  const leastGap = sizePt * 0.5;
  const nameWanted = Math.max(...names.map((name) => set.width(name, strong)));
  const nameWidth = Math.min(nameWanted, widthPt - taken - leastGap * which.length);
  if (nameWidth < Math.min(nameWanted, sizePt * 5)) return null;
  // Figures keep near each other and near the name, else the eye loses the row.
  const gap = Math.min(sizePt * 2, (widthPt - taken - nameWidth) / which.length);
  const columns: readonly Column[] = [
    { widthPt: nameWidth, align: 'left' },
    ...which.map((column, c): Column => ({ widthPt: widths[c]!, align: column.align })),
  ];
  const rows = [...head.map((row) => ['', ...row]), ...body.map((row, i) => [names[i]!, ...row])];
  return table(set, columns, rows, gap, (r) => (isLeast[r - 2] === true ? strong : plain));
}

/**
 * One dive of the whole party: what is planned, and each diver's mix, limits and pressures.
 * @returns null where the width takes no names beside the figures
 */
export function diveCard(set: Setter, dive: PartyDive, widthPt: number, sizePt: number): Block | null {
  const strong: TextStyle = { font: 'bold', sizePt };
  const rows =
    cardTable(set, dive, WIDE_COLUMNS, widthPt, sizePt) ??
    cardTable(set, dive, NARROW_COLUMNS, widthPt, sizePt);
  if (rows === null) return null;
  const stops = dive.rows.flatMap(({ name, dive: each }) =>
    each.stops === null
      ? []
      : [`${name}: past the limit, ${each.entry.stops === null ? '' : 'stops '}${each.stops}`],
  );
  return stack([
    heading(
      set,
      `${dive.number} ${dive.rows[0]!.dive.site}`,
      shared(dive, (each) => each.startsAt),
      widthPt,
      sizePt * 1.3,
    ),
    set.text(
      `${shared(dive, (each) => joined(each.depth))}, ${shared(dive, (each) => words(each.time))}; ` +
        `safety stop ${shared(dive, (each) => each.safetyStop)}; all up ${lastUp(dive)}`,
      { font: 'regular', sizePt },
      widthPt,
    ),
    space(sizePt * 0.3),
    ...rows,
    ...stops.map((text) => set.text(text, strong, widthPt)),
    rule(widthPt, 0.4, 4),
  ]);
}

function lastUp(dive: PartyDive): string {
  return dive.rows.reduce((last, row) =>
    row.dive.entry.surfacesMin > last.dive.entry.surfacesMin ? row : last,
  ).dive.surfacesAt;
}
