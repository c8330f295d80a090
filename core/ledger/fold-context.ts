import type { Diver, Trip } from '../document/types';
import type { AtSurface } from './at-surface';

/** What is the same for every dive of a diver. */
export interface FoldContext {
  readonly trip: Trip;
  readonly diver: Diver;
  /** Where the diver breathes between dives, with maps that the divers of a party share. */
  readonly surface: AtSurface;
}
