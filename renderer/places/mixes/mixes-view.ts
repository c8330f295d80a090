/** What is chosen on the Mixes place: kept while the window is open, never part of the trip. */
import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import { USUAL_BOTTLE, type OxygenBottle } from '../../../core/mixes/blending';
import type { FillMethod } from '../../../core/mixes/fills';
import type { ClassLoop } from '../../../core/mixes/class-dive';
import { PLAIN_REQUEST, type StockRequest } from '../../../core/mixes/shares';
import type { Id } from '../../../core/document/types';
import type { SortKey } from './site-sort';

/** The questions of the place, one at a time. */
export type Question = 'sites' | 'dive' | 'stock' | 'fills' | 'depths' | 'class';

export interface MixesView {
  readonly question: Question;
  /** Whose figures the sites are compared by; null: the party's tightest. */
  readonly diverId: Id | null;
  readonly inTrip: boolean;
  /** Columns typed in, percent. */
  readonly typedPercents: readonly number[];
  readonly sort: SortKey;
  readonly descending: boolean;
  /** The dive whose mix is being chosen; null: the selected one, else the tightest. */
  readonly diveId: Id | null;
  readonly request: StockRequest;
  /** What is looked at in class: of no trip. */
  readonly classroom: {
    readonly depthM: number;
    /** Whole percents, rising. */
    readonly percents: readonly number[];
    readonly isLarge: boolean;
    /** Kept while it is not looked at. */
    readonly loop: ClassLoop;
    readonly hasLoop: boolean;
  };
  readonly fills: {
    readonly method: FillMethod;
    /** null: the gas law of the trip. */
    readonly law: 'ideal' | 'real' | null;
    readonly startBar: number;
    readonly startO2: number | null;
    readonly bottle: OxygenBottle;
  };
}

export const mixesView = createStore<MixesView>()(() => ({
  question: 'sites',
  diverId: null,
  inTrip: true,
  typedPercents: [],
  sort: 'site',
  descending: false,
  diveId: null,
  request: PLAIN_REQUEST,
  classroom: {
    depthM: 26,
    percents: [21, 28, 32, 36],
    isLarge: false,
    loop: { lowBar: 0.7, highBar: 1.2, switchM: 6, diluentPercent: 21 },
    hasLoop: false,
  },
  fills: { method: 'banked', law: null, startBar: 50, startO2: null, bottle: USUAL_BOTTLE },
}));

export function useMixesView<T>(selector: (view: MixesView) => T): T {
  return useStore(mixesView, selector);
}

export function chooseView(patch: Partial<MixesView>): void {
  mixesView.setState(patch);
}
