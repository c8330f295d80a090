/** What is chosen on the Mixes place: kept while the window is open, never part of the trip. */
import { useMemo } from 'react';
import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import { USUAL_BOTTLES, type OxygenBottle } from '../../../core/mixes/blending';
import { USUAL_STARTS_BAR, type FillMethod, type FillRequest } from '../../../core/mixes/fills';
import type { ClassLoop } from '../../../core/mixes/class-dive';
import { PLAIN_REQUEST, type StockRequest } from '../../../core/mixes/shares';
import type { Id } from '../../../core/document/types';
import { useDesk } from '../../store/store';
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
    /** null: what is usual in the units that are read. */
    readonly startBar: number | null;
    readonly startO2: number | null;
    /** null: as above. */
    readonly bottle: OxygenBottle | null;
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
  fills: { method: 'banked', law: null, startBar: null, startO2: null, bottle: null },
}));

export function useMixesView<T>(selector: (view: MixesView) => T): T {
  return useStore(mixesView, selector);
}

/** How cylinders are filled, with all that is usual. @param gasLaw of the trip */
export function useFillsAsked(gasLaw: FillRequest['law']): {
  readonly request: FillRequest;
  readonly bottle: OxygenBottle;
} {
  const { method, law, startBar, startO2, bottle } = useMixesView((view) => view.fills);
  const units = useDesk(({ settings }) => settings.units);
  const request = useMemo(
    () => ({ method, law: law ?? gasLaw, startBar: startBar ?? USUAL_STARTS_BAR[units], startO2 }),
    [method, law, gasLaw, startBar, startO2, units],
  );
  return { request, bottle: bottle ?? USUAL_BOTTLES[units] };
}

export function chooseView(patch: Partial<MixesView>): void {
  mixesView.setState(patch);
}
