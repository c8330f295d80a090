/** What the window asks of the workers that draw a plan, and what comes back: types only. */
import type { Trip } from '../../../core/document/types';
import type { FirstOrder } from '../../../core/sturdiness/first-order';
import type { ScatterName } from '../../../core/sturdiness/scatter';
import type { Draw, RunsPart } from '../../../core/sturdiness/sturdiness';

/** Some of the runs, or the shares of some scatters. */
export type SturdyJob =
  | {
      readonly kind: 'runs';
      readonly trip: Trip;
      readonly draw: Draw;
      readonly from: number;
      readonly to: number;
    }
  | {
      readonly kind: 'shares';
      readonly trip: Trip;
      readonly draw: Draw;
      readonly names: readonly ScatterName[];
    };

export type SturdyAnswer =
  | { readonly kind: 'runs'; readonly part: RunsPart }
  | { readonly kind: 'shares'; readonly shares: readonly (readonly FirstOrder[])[] };
