import { failures, success, type Result, type Trouble } from '../result';
import type { Id } from '../document/types';
import type { Clock } from '../words/calendar';
import type { SlateUnits } from './figures';
import { readPaper, type HoleSide, type Paper } from './paper';
import { CARD_FORMS, SLATE_KINDS, USUAL_SLATE, type SlateKind, type SlateRequest } from './request';

/** How a print-out is asked for in words, by the command; null or left out: the usual. */
export interface SlateOptions {
  readonly kind?: string | null;
  readonly paper?: string | null;
  /** Dates such as "2027-03-06", "all" or "next". */
  readonly days?: readonly string[] | 'all' | 'next' | null;
  readonly divers?: readonly Id[] | null;
  readonly units?: string | null;
  /** "24h" or "12h". */
  readonly clock?: string | null;
  /** The sign before decimals; a point where left out. */
  readonly decimal?: string;
  /** A larger sheet for several pages with cut marks. */
  readonly sheet?: string | null;
  readonly holes?: string | null;
  /** Millimetres. */
  readonly margin?: string | null;
  readonly label?: string | null;
  readonly twoSided?: boolean;
  readonly card?: string | null;
  readonly singleFaces?: boolean;
  /** The file of what a briefing is compared with, which whoever asks reads. */
  readonly since?: string | null;
}

/** A request but for what is to be printed from: ledger, cautions, fonts and day. */
export type SlateSettings = Omit<
  SlateRequest,
  'ledger' | 'cautions' | 'fonts' | 'printedOn' | 'doneDates' | 'since'
>;

const UNITS: readonly SlateUnits[] = ['metric', 'imperial', 'both'];
const CLOCKS: readonly Clock[] = ['24h', '12h'];
const HOLES: readonly HoleSide[] = ['none', 'left', 'right', 'top'];

/** What goes under water. */
function isHeld(kind: SlateKind): boolean {
  return kind === 'card' || kind === 'depth';
}

/** Paper of a kind where none is named: what goes under water is small, what lies on a table is not. */
export function usualPaper(kind: SlateKind): string {
  return isHeld(kind) ? 'A6' : 'A4';
}

/** Paper this narrow is read in the hand, millimetres: A5, half letter and smaller. */
const SMALL_MM = 160;

/**
 * The margin of a kind where none is given: of what is filed wide enough to be held, of small paper as little as printers
 * leave white, for on it a guest's week would else take two pages.
 * @param paper null: one that is not known @returns millimetres
 */
export function usualMarginMm(kind: SlateKind, paper: Paper | null): number {
  const isSmall = paper !== null && Math.min(paper.widthMm, paper.heightMm) <= SMALL_MM;
  return isHeld(kind) || isSmall ? 5 : 10;
}

function oneOf<T extends string>(
  text: string | null | undefined,
  allowed: readonly T[],
  usual: T,
  where: string,
  troubles: Trouble[],
): T {
  if (text === null || text === undefined) return usual;
  const found = allowed.find((each) => each === text.trim().toLowerCase());
  if (found !== undefined) return found;
  troubles.push({
    kind: 'options',
    what: `"${text}" is not known here.`,
    where,
    mend: `Use ${allowed.join(', ')}.`,
  });
  return usual;
}

function paperOf(text: string | null | undefined, where: string, troubles: Trouble[]): Paper | null {
  if (text === null || text === undefined) return null;
  const paper = readPaper(text);
  if (paper.ok) return paper.value;
  troubles.push(...paper.troubles.map((trouble) => ({ ...trouble, where })));
  return null;
}

/** Plain decimals: `Number` takes a blank for 0. */
const NUMBER = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?$/i;

/** @returns millimetres */
function marginOf(text: string | null | undefined, usualMm: number, troubles: Trouble[]): number {
  if (text === null || text === undefined) return usualMm;
  const plain = text.trim();
  if (NUMBER.test(plain) && Number.isFinite(Number(plain))) return Number(plain);
  troubles.push({
    kind: 'options',
    what: `"${text}" is not a number of millimetres.`,
    where: '--margin',
    mend: 'Give a number such as 6.',
  });
  return usualMm;
}

/** What one kind alone looks at: asked for with another it would be passed over in silence. */
function refuseOthers(options: SlateOptions, kind: SlateKind, troubles: Trouble[]): void {
  const refuse = (where: string, what: string, only: SlateKind): void => {
    troubles.push({
      kind: 'options',
      what: `${what}, and --kind ${kind} makes none.`,
      where,
      mend: `Leave it out, or use --kind ${only}.`,
    });
  };
  if (options.singleFaces === true && kind !== 'card') {
    refuse('--single-faces', 'It sets each face of a card on a page of its own', 'card');
  }
  if (typeof options.card === 'string' && kind !== 'card') {
    refuse('--card', 'It says how a card sets its dives', 'card');
  }
  if (typeof options.since === 'string' && kind !== 'briefing') {
    refuse('--since', 'It is what the changes on a briefing are told since', 'briefing');
  }
  if (typeof options.label === 'string' && kind !== 'tags') {
    refuse('--label', 'It is the size of a cylinder tag', 'tags');
  }
}

/**
 * Reads options as words.
 * @returns the settings of a print-out, or every trouble with the words
 */
export function readSlateOptions(options: SlateOptions): Result<SlateSettings> {
  const troubles: Trouble[] = [];
  const kind = oneOf(options.kind, SLATE_KINDS, 'card', '--kind', troubles);
  const paper = paperOf(options.paper ?? usualPaper(kind), '--paper', troubles);
  const sheet = paperOf(options.sheet, '--sheet', troubles);
  const label = paperOf(options.label, '--label', troubles);
  const margin = marginOf(options.margin, usualMarginMm(kind, paper), troubles);
  const units = oneOf(options.units, UNITS, USUAL_SLATE.units, '--units', troubles);
  const clock = oneOf(options.clock, CLOCKS, USUAL_SLATE.clock, '--clock', troubles);
  const holes = oneOf(options.holes, HOLES, USUAL_SLATE.holes, '--holes', troubles);
  const card = oneOf(options.card, CARD_FORMS, 'full', '--card', troubles);
  // Of a kind that is not known nothing can be said but that.
  if (!troubles.some(({ where }) => where === '--kind')) refuseOthers(options, kind, troubles);
  if (troubles.length > 0) return failures(troubles);
  return success({
    kind,
    paper: paper!,
    sheet,
    label,
    marginMm: margin,
    units,
    clock,
    decimal: options.decimal ?? '.',
    holes,
    diverIds: options.divers ?? null,
    dates: options.days ?? null,
    twoSided: options.twoSided ?? false,
    card,
    isFolded: !(options.singleFaces ?? false),
  });
}
