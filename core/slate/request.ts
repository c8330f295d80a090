import type { Trouble } from '../result';
import type { Ledger } from '../ledger/ledger-types';
import type { Id } from '../document/types';
import type { SlateReading } from './figures';
import type { SlateFonts } from './font';
import type { HoleSide, Paper } from './paper';
import type { Caution } from '../cautions/caution';

/** Wet-notes slate, briefing sheet, trip sheet, cylinder tags. */
export const SLATE_KINDS = ['wet', 'briefing', 'trip', 'tags'] as const;

export type SlateKind = (typeof SLATE_KINDS)[number];

/** What is to be printed, for whom, on what. Plain data; the fonts are read with `readFont`. */
export interface SlateRequest extends SlateReading {
  readonly ledger: Ledger;
  readonly cautions: readonly Caution[];
  readonly kind: SlateKind;
  /** null: the whole party. */
  readonly diverIds: readonly Id[] | null;
  /** Dates such as "2027-03-06"; null: every diving day. */
  readonly dates: readonly string[] | null;
  readonly paper: Paper;
  /** A larger sheet on which as many pages as fit are printed with cut marks; null: each on its own paper. */
  readonly sheet: Paper | null;
  readonly holes: HoleSide;
  readonly marginMm: number;
  /** Every second page is the back of the one before: the punched side changes places. */
  readonly twoSided: boolean;
  /** Wet-notes slate: one dive a page and larger type, instead of as many dives as fit. */
  readonly onePerPage: boolean;
  /** Size of one cylinder tag; null: the usual one. Tags alone look at it. */
  readonly label: Paper | null;
  readonly fonts: SlateFonts;
  /** "2027-03-05": the day of printing, as core has no clock. */
  readonly printedOn: string;
}

export type SlateTrouble = 'nothing' | 'diver' | 'date' | 'paper' | 'sheet' | 'label' | 'margin';

export type SlateFault = Trouble<SlateTrouble>;

/** Printed where the request leaves something open. */
export const USUAL_SLATE = {
  paper: 'A6',
  marginMm: 6,
  holes: 'none',
  units: 'metric',
  clock: '24h',
} as const;
