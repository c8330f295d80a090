/** What the window asks of its slate worker, and what comes back: types only. */
import type { ClassSheet } from '../../../core/lesson/class-pages';
import type { SheetRequest } from '../../../core/lesson/sheet';
import type { FaceName } from '../../../core/slate/faces';
import type { Page } from '../../../core/slate/layout';
import type { SlateSettings } from '../../../core/slate/options';
import type { Since } from '../../../core/slate/request';
import type { Paper } from '../../../core/slate/paper';
import type { Trouble } from '../../../core/result';
import type { Said } from '../../../core/words/said';
import type { Trip } from '../../../core/document/types';

/** The font files as they come with the program. */
export type FontBytes = Readonly<Record<FaceName, Uint8Array>>;

/** Slates of a trip. */
export interface TripToPrint {
  readonly trip: Trip;
  readonly settings: SlateSettings;
  /** Days that are over. */
  readonly doneDates: readonly string[];
  /** The trip as it was before, for what changed on a briefing; null: nothing to compare with. */
  readonly since: Since | null;
}

/** Exercises, or the workings of a class: of no trip. */
export interface LessonToPrint {
  readonly lesson: SheetRequest | ClassSheet;
  readonly paper: Paper;
  readonly decimal: string;
}

export type ToPrint = TripToPrint | LessonToPrint;

export type SlateAsk = ToPrint & {
  /** Pages to look at, or the PDF of the same pages. */
  readonly want: 'pages' | 'pdf';
  readonly printedOn: string;
};

export interface SlatePages {
  readonly title: string;
  readonly pages: readonly Page[];
  readonly count: Said;
  readonly missingLetters: readonly string[];
}

export type SlateAnswer =
  | { readonly kind: 'pages'; readonly value: SlatePages }
  | { readonly kind: 'pdf'; readonly bytes: Uint8Array; readonly pages: number }
  | { readonly kind: 'troubles'; readonly troubles: readonly Trouble[] };
