/** What the window asks of the worker that reads recorded dives: types only. */
import type { Settings } from '../../../../core/host';
import type { NamedTrip } from '../../../figures/reader';

export interface RecordedAsk {
  readonly text: string;
  readonly ascentMPerMin: number;
  /** Who reads the troubles. */
  readonly viewer: Pick<Settings, 'units' | 'clock'> & { readonly trip: NamedTrip };
}
