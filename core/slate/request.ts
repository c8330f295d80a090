import type { Trouble } from '../result';
import type { Ledger } from '../ledger/ledger-types';
import type { Id, Trip } from '../document/types';
import type { SlateReading } from './reading';
import type { SlateFonts } from './font';
import type { WallTime } from '../words/calendar';
import type { HoleSide, Paper } from './paper';
import type { Caution } from '../cautions/caution';

/** Day card, briefing sheet, guest sheet, trip sheet, cylinder tags, depth card. */
export const SLATE_KINDS = ['card', 'briefing', 'guest', 'trip', 'tags', 'depth'] as const;

/** How a card sets its dives: two a face, with what more would cost; the plan of a whole day on one; one a page. */
export const CARD_FORMS = ['full', 'short', 'dive'] as const;

export type CardForm = (typeof CARD_FORMS)[number];

export type SlateKind = (typeof SLATE_KINDS)[number];

/** The trip as it stood before, and when that was; null: nobody knows. */
export interface Since {
  readonly trip: Trip;
  readonly at: WallTime | null;
}

/** What is to be printed, for whom, on what. Plain data; the fonts are read with `readFont`. */
export interface SlateRequest extends SlateReading {
  readonly ledger: Ledger;
  readonly cautions: readonly Caution[];
  readonly kind: SlateKind;
  /** null: the whole party. */
  readonly diverIds: readonly Id[] | null;
  /** Dates such as "2027-03-06", every diving day, or the next one; null: what is usual for the kind. */
  readonly dates: readonly string[] | 'all' | 'next' | null;
  /** The days that are over: the next one is the first that is none of them. */
  readonly doneDates: readonly string[];
  readonly paper: Paper;
  /** A larger sheet on which as many pages as fit are printed with cut marks; null: each on its own paper. */
  readonly sheet: Paper | null;
  readonly holes: HoleSide;
  readonly marginMm: number;
  /** Every second page is the back of the one before: the punched side changes places. */
  readonly twoSided: boolean;
  /** Cards alone look at it. */
  readonly card: CardForm;
  /** Of a full card, front and back side by side on one page, to fold; else each face is a page. */
  readonly isFolded: boolean;
  /** Size of one cylinder tag; null: the usual one. Tags alone look at it. */
  readonly label: Paper | null;
  readonly fonts: SlateFonts;
  /** The trip as it was printed or saved before, to say what changed; null: nothing is known. Briefings alone look at it. */
  readonly since: Since | null;
  /** "2027-03-05": the day of printing, as core has no clock. */
  readonly printedOn: string;
}

export type SlateTrouble = 'nothing' | 'diver' | 'date' | 'paper' | 'sheet' | 'label' | 'margin';

export type SlateFault = Trouble<SlateTrouble>;

/** Printed where the request leaves something open. */
export const USUAL_SLATE = {
  holes: 'none',
  units: 'metric',
  clock: '24h',
} as const;

/** A request whose days are chosen. */
export interface DatedRequest extends SlateRequest {
  readonly dates: readonly string[];
}
