import type { Scatter, Trip } from '../document/types';
import type { Words } from '../words/reader';
import { SAFETY_LINE } from '../words/safety-line';
import type { PassedLimit } from './by-ledger';
import type { ScatterName } from './scatter';
import { mostBy, type Sturdiness, type SturdyCell, type SturdyDive } from './sturdiness';
import { SPEAKS_OF } from './sturdiness-said';

/** What `plan --sturdy --json` prints, version 1. Shares are fractions of the runs. */
export interface SturdinessDocument {
  readonly format: 'carryover/sturdiness';
  readonly version: 1;
  readonly title: string;
  /** What the shares speak of, and what every plan carries. */
  readonly speaksOf: string;
  readonly safety: string;
  readonly runs: number;
  readonly seed: number;
  /** Standard deviations. */
  readonly scatter: Scatter;
  readonly keepsAll: number;
  readonly easeFirst: string | null;
  readonly dives: readonly SturdyDive[];
  readonly entries: readonly {
    readonly diveId: string;
    readonly diverId: string;
    readonly passes: number;
    readonly passesEach: Readonly<Record<PassedLimit, number>>;
    /** null: past a limit that no shorter stay keeps. */
    readonly room5Min: number | null;
    readonly room50Min: number | null;
    readonly doesMost: ScatterName | null;
    readonly firstOrder: Readonly<Record<ScatterName, number>> | null;
  }[];
}

function entryDocument(cell: SturdyCell): SturdinessDocument['entries'][number] {
  const { shares, diveId, diverId, passes, passesEach, room5Min, room50Min } = cell;
  return {
    diveId,
    diverId,
    passes,
    passesEach,
    room5Min,
    room50Min,
    doesMost: mostBy(cell)?.name ?? null,
    firstOrder:
      shares &&
      (Object.fromEntries(shares.map(({ name, share }) => [name, share])) as Record<ScatterName, number>),
  };
}

/**
 * The document of `plan --sturdy`, nothing rounded.
 * @param diverId of whom alone entries are told; null: of all @param words of who reads its sentences
 * Source: format carryover/sturdiness of this project, version 1.
 */
export function sturdinessDocument(
  { title }: Trip,
  { runs, seed, scatter, keepsAll, easeFirst, dives, cells }: Sturdiness,
  diverId: string | null,
  words: Words,
): SturdinessDocument {
  return {
    format: 'carryover/sturdiness',
    version: 1,
    title,
    speaksOf: words(SPEAKS_OF),
    safety: words(SAFETY_LINE),
    runs,
    seed,
    scatter,
    keepsAll,
    easeFirst,
    dives,
    entries: cells.filter((cell) => diverId === null || cell.diverId === diverId).map(entryDocument),
  };
}
