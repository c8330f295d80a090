/** What the strip asks of the worker that draws the runs of one diver: types only. */
import type { Id, Trip } from '../../../../core/document/types';
import type { Draw } from '../../../../core/sturdiness/sturdiness';
import type { WallMin } from '../../../../core/words/calendar';

export interface BandAsk {
  readonly trip: Trip;
  readonly diverId: Id;
  readonly draw: Pick<Draw, 'seed' | 'nowMin'>;
  readonly untilMin: WallMin;
}
