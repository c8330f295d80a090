import { tightestOf } from '../../ledger/tightest';
import { fileWords } from '../../words/reader';
import { pastSaid } from '../../words/terms';
import { joined, NONE, words, type Figure } from '../figures';
import { UNKNOWN_CLOCK_MEANING, type SlateDive } from '../contents';
import { beside, rule, space, stack, table, type Block, type Column, type TextStyle } from '../layout';
import { heading } from '../page-frame';
import { pairs, type Sizes } from '../pairs';

/** One dive of the party's day. */
export interface PartyDive {
  readonly number: number;
  readonly rows: readonly DiverRow[];
}

interface DiverRow {
  readonly name: string;
  readonly dive: SlateDive;
}

/**
 * How a card puts its divers, from the widest to the narrowest: a row each; a row each with what is alike for
 * all said once above; the name on a line of its own over the figures; the figures one after the other with
 * their labels. Each says the same.
 */
export const CARD_FORMS = ['rows', 'rows of differences', 'under names', 'labelled'] as const;

export type CardForm = (typeof CARD_FORMS)[number];

/** What is said of each diver, in this order. */
interface CardColumn {
  /** Two lines over a column. */
  readonly head: string;
  readonly unit: (of: SlateDive) => string;
  readonly cell: (of: SlateDive) => string;
  /** The same where it stands alone. */
  readonly label: string;
  /** null: said with another. */
  readonly words: (of: SlateDive) => string | null;
  readonly align: 'left' | 'right';
  /** Planned alike for many: may be said once where it is. */
  readonly isCommon?: true;
}

function figureColumn(
  head: string,
  label: string,
  of: (dive: SlateDive) => readonly Figure[],
  unit = (dive: SlateDive): string =>
    of(dive)
      .map((figure) => figure.unit)
      .join(' / '),
): CardColumn {
  const cell = (dive: SlateDive): string =>
    of(dive)
      .map((figure) => figure.value)
      .join(' / ');
  return { head, label, unit, cell, words: (dive) => joined(of(dive)), align: 'right' };
}

function wordColumn(head: string, label: string, of: (dive: SlateDive) => string): CardColumn {
  return { head, label, unit: () => '', cell: of, words: of, align: 'left' };
}

/** "No limit" has no unit; the column of such figures is in minutes all the same. */
const inMinutes = (): string => 'min';

/** What the room runs into; null where there is none. */
function setBy(dive: SlateDive): string | null {
  return dive.minutes.minLimit === null ? null : (dive.roomLimit ?? 'no-stop');
}

const COLUMNS: readonly CardColumn[] = [
  { ...wordColumn('mix', '', (dive) => dive.mix), isCommon: true },
  { ...figureColumn('MOD', 'MOD', (dive) => dive.mod), isCommon: true },
  {
    isCommon: true,
    ...wordColumn('PO2', 'PO2', (dive) => dive.po2),
    unit: () => 'bar',
    cell: (dive) => dive.po2.replace(' bar', ''),
    align: 'right',
  },
  figureColumn('no-stop', 'No-stop', ({ noStops }) => [noStops], inMinutes),
  {
    ...figureColumn('room', 'Room', (dive) => [dive.room], inMinutes),
    words: (dive) =>
      [words(dive.room), ...(setBy(dive) === null ? [] : [`set by ${setBy(dive)}`])].join(', '),
  },
  { ...wordColumn('set by', '', (dive) => setBy(dive) ?? NONE), words: () => null },
  { ...figureColumn('fill', 'fill', (dive) => dive.fill), isCommon: true },
  figureColumn('turn', 'Turn', (dive) => dive.turn),
  figureColumn('min.', 'Minimum', (dive) => dive.minimum),
];

/** A name in a row of figures breaks into lines no narrower than this, in type sizes. */
const NAME_EM = 9;

/** Figures further apart than this lose each other; nearer than that they run together; in type sizes. */
const GAP_MAX_EM = 2;
const GAP_MIN_EM = 0.5;

/** Figures under a name stand in from it, in type sizes. */
const INDENT_EM = 0.8;

/** White over a name that stands on a line of its own, in type sizes. */
const ABOVE_NAME_EM = 0.25;

/** The divers with the least room of a dive; none of a diver who dives alone, nor where nobody has a limit. */
function tightest(dive: PartyDive): readonly DiverRow[] {
  if (dive.rows.filter((row) => row.dive.entry.isMade).length < 2) return [];
  const minutes = new Map(dive.rows.map((row) => [row.dive.entry, row.dive.minutes]));
  const least = tightestOf([...minutes.keys()], (entry) => minutes.get(entry)!);
  return dive.rows.filter((row) => least.includes(row.dive.entry));
}

/** Text of one kind, or each with who has it, where divers differ. */
function shared(dive: PartyDive, of: (each: SlateDive) => string): string {
  return [...new Set(dive.rows.map((row) => of(row.dive)))].join(' or ');
}

interface CardRows {
  /** Over the first row of each page; nothing where the figures carry their labels. */
  readonly head: Block;
  readonly rows: readonly Block[];
}

/** Each diver's figures in one form; null where the width does not take it. */
function cardRows(size: Sizes, dive: PartyDive, form: CardForm): CardRows | null {
  const { set, widthPt, basePt } = size;
  const plain: TextStyle = { font: 'text', sizePt: basePt };
  const strong: TextStyle = { font: 'bold', sizePt: basePt };
  const least = tightest(dive);
  const names = dive.rows.map((row) => (least.includes(row) ? `${row.name} (tightest)` : row.name));
  if (form === 'labelled') {
    const rows = dive.rows.map((row, i) =>
      stack([
        space(basePt * ABOVE_NAME_EM),
        set.text(names[i]!, strong, widthPt),
        pairs(
          size,
          COLUMNS.flatMap(({ label, words: say }) => {
            const said = say(row.dive);
            return said === null ? [] : [[label, said] as const];
          }),
        ),
      ]),
    );
    return { head: space(0), rows };
  }
  const { alike, others } =
    form === 'rows of differences' ? partedColumns(dive) : { alike: [], others: COLUMNS };
  if (form === 'rows of differences' && (alike.length === 0 || dive.rows.length < 2)) return null;
  const made = dive.rows.find((row) => row.dive.entry.isMade)?.dive ?? dive.rows[0]!.dive;
  // Of the first who has the figure: another's column must not go without its unit.
  const unitOf = ({ unit }: CardColumn): string =>
    dive.rows.map((row) => unit(row.dive)).find((each) => each !== '') ?? '';
  const heads = [others.map((column) => column.head), others.map(unitOf)];
  const body = dive.rows.map((row) => others.map((column) => column.cell(row.dive)));
  const widths = others.map((_, c) =>
    Math.max(
      ...heads.map((row) => set.width(row[c]!, plain)),
      ...body.map((row) => set.width(row[c]!, strong)),
    ),
  );
  const isUnder = form === 'under names';
  const taken = widths.reduce((sum, width) => sum + width, 0);
  const gaps = isUnder ? others.length - 1 : others.length;
  const free = widthPt - taken - GAP_MIN_EM * basePt * gaps;
  const wanted = Math.max(...names.map((name) => set.width(name, strong)));
  const before = isUnder ? INDENT_EM * basePt : Math.min(wanted, free);
  if (isUnder ? free < before : before < Math.min(wanted, NAME_EM * basePt)) return null;
  const gap = Math.min(GAP_MAX_EM * basePt, (widthPt - taken - before) / gaps);
  const columns = others.map((column, c): Column => ({ widthPt: widths[c]!, align: column.align }));
  const left = isUnder ? before : before + gap;
  const line = (cells: readonly string[], style: TextStyle): Block =>
    beside([{ block: table(set, columns, [cells], gap, () => style)[0]!, x: left }]);
  const all = alike.map(({ label, words: say }) => `${label} ${say(made)}`.trim()).join(', ');
  return {
    head: stack([
      ...(alike.length === 0 ? [] : [set.text(`All: ${all}`, strong, widthPt)]),
      ...heads.map((cells) => line(cells, plain)),
    ]),
    rows: dive.rows.map((row, i) => {
      const style = least.includes(row) ? strong : plain;
      const figures = line(body[i]!, style);
      if (isUnder)
        return stack([space(basePt * ABOVE_NAME_EM), set.text(names[i]!, style, widthPt), figures]);
      return beside([
        { block: set.text(names[i]!, style, before), x: 0 },
        { block: figures, x: 0 },
      ]);
    }),
  };
}

/**
 * One dive of the whole party: what is planned, and each diver's mix, limits and pressures.
 * @param form how the divers are put @param heightPt of a page: a longer card is continued on the next
 * @returns the card, in as many parts as pages need; null where the width does not take the form
 */
export function diveCard(
  size: Sizes,
  dive: PartyDive,
  form: CardForm,
  heightPt: number,
): readonly Block[] | null {
  const { set, widthPt, basePt } = size;
  const made = cardRows(size, dive, form);
  if (made === null) return null;
  const title = `${dive.number} ${dive.rows[0]!.dive.site}`;
  const start = shared(dive, (each) => each.startsAt);
  const plan = [
    `${shared(dive, (each) => joined(each.depth))}, ${shared(dive, (each) => words(each.time))}`,
    ...ascentWords(dive),
    ...lastUp(dive),
  ].join('; ');
  const plain: TextStyle = { font: 'text', sizePt: basePt };
  const head = stack([
    heading(set, title, start, widthPt, basePt * 1.3),
    ...[plan, ...levelsLine(dive)].map((text) => set.text(text, plain, widthPt)),
    space(basePt * 0.3),
    made.head,
  ]);
  const again = stack([heading(set, title, 'continued', widthPt, basePt * 1.3), made.head]);
  const end = rule(widthPt, 0.4, 4);
  const stops = dive.rows.flatMap(({ name, dive: each }) => {
    const past = [
      ...(each.pastLevels === null ? [] : [`at the end of the level at ${each.pastLevels}`]),
      ...(each.stops === null ? [] : [`${each.entry.stops === null ? '' : 'stops '}${each.stops}`]),
    ];
    return past.length === 0
      ? []
      : [`${name}: past the limit${each.pastLevels === null ? ',' : ''} ${past.join(', ')}`];
  });
  const missing = missingWords(dive).map((text) => set.text(`${text}.`, plain, widthPt));
  const rows = [
    ...made.rows,
    ...missing,
    ...stops.map((text) => set.text(text, { font: 'bold', sizePt: basePt }, widthPt)),
  ];
  const parts: Block[][] = [];
  let usedPt = Infinity;
  for (const row of rows) {
    if (usedPt + row.heightPt > heightPt) {
      parts.push([parts.length === 0 ? head : again]);
      usedPt = parts.at(-1)![0]!.heightPt + end.heightPt;
    }
    parts.at(-1)!.push(row);
    usedPt += row.heightPt;
  }
  return parts.map((blocks) => stack([...blocks, end]));
}

/** The levels of whoever has several, and that their no-stop times stand in that order. */
function levelsLine(dive: PartyDive): readonly string[] {
  const levels = [...new Set(dive.rows.flatMap((row) => row.dive.levels ?? []))];
  if (levels.length === 0) return [];
  const hasTimes = madeRows(dive).some((row) => row.dive.levels !== null);
  return [`Levels ${levels.join(' or ')}${hasTimes ? '; no-stop times in this order' : ''}.`];
}

/** The columns whose figure is the same for every diver of a dive, and the others. */
function partedColumns(dive: PartyDive): {
  readonly alike: readonly CardColumn[];
  readonly others: readonly CardColumn[];
} {
  const isAlike = ({ isCommon, cell }: CardColumn): boolean =>
    isCommon === true && new Set(dive.rows.map((row) => cell(row.dive))).size === 1;
  return {
    alike: COLUMNS.filter(isAlike),
    others: COLUMNS.filter((column) => !isAlike(column)),
  };
}

function madeRows(dive: PartyDive): readonly DiverRow[] {
  return dive.rows.filter((row) => row.dive.entry.isMade);
}

/** The stops on the way up where they are the same for all; those that differ are told diver by diver. */
function ascentWords(dive: PartyDive): readonly string[] {
  const made = madeRows(dive).map((row) => row.dive);
  const required = [...new Set(made.map(({ stops }) => stops))];
  const safety = [...new Set(made.flatMap((each) => (each.stops === null ? [each.safetyStop] : [])))];
  if (safety.length > 0) {
    const others = required.length > 1 ? ', for some the stops below' : '';
    return [`safety stop ${safety.join(' or ')}${others}`];
  }
  const [stops] = required;
  if (required.length !== 1 || stops === undefined || stops === null) return [];
  return [made[0]!.entry.stops === null ? stops : `STOPS ${stops}`];
}

/** When the last of those who make the dive is up. */
function lastUp(dive: PartyDive): readonly string[] {
  const made = madeRows(dive).map((row) => row.dive);
  if (made.length === 0) return [];
  const last = made.reduce((held, each) => (each.entry.surfacesMin > held.entry.surfacesMin ? each : held));
  return [`all up ${last.surfacesAt}`];
}

/** Why a figure is not there, once for all whom it concerns. */
function missingWords(dive: PartyDive): readonly string[] {
  const made = madeRows(dive).map((row) => row.dive);
  const noRoom = made.filter((each) => each.room.value === NONE);
  const noTurn = made.filter((each) => each.turn[0]!.value === NONE);
  const limits = new Set(noRoom.map((each) => each.minutes.minLimit));
  return [
    ...(made.length < dive.rows.length
      ? ['no mix: none on board may be breathed there, not to be dived']
      : []),
    ...(noTurn.some((each) => each.entry.gas.minimumBar !== null)
      ? [`turn ${NONE}: none, fill below minimum`]
      : []),
    ...(noTurn.some((each) => each.entry.gas.minimumBar === null)
      ? [`turn and minimum ${NONE}: no ascent on this gas was found`]
      : []),
    ...(limits.has('po2') ? [`room ${NONE}: ${UNKNOWN_CLOCK_MEANING}`] : []),
    ...[...limits].flatMap((limit) =>
      limit === null || limit === 'po2'
        ? []
        : [`room ${NONE}: ${fileWords(pastSaid(limit))}, and no shorter stay would keep it`],
    ),
  ];
}
