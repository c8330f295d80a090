import { useMemo } from 'react';
import { wallMin } from '../../../../core/words/calendar';
import { useDesk } from '../../../store/store';
import type { StripData } from './use-strip';

/** The way home, wall minutes. */
export interface Flight {
  readonly flyAfterMin: number | null;
  readonly flightMin: number | null;
  /** When the last of the dives that are shown is over. */
  readonly lastSurfacingMin: number | null;
}

/** The latest of the divers shown: who flies together waits for the last. */
export function useFlight({ divers }: StripData): Flight {
  const flight = useDesk((state) => state.trip.flight);
  return useMemo(() => {
    const known = divers.flatMap((each) => each.flyAfterMin ?? []);
    const ends = divers.flatMap(
      ({ entries }) => entries.filter(({ isMade }) => isMade).at(-1)?.surfacesMin ?? [],
    );
    return {
      flyAfterMin: known.length === 0 ? null : Math.max(...known),
      flightMin: flight === null ? null : wallMin(flight.at),
      lastSurfacingMin: ends.length === 0 ? null : Math.max(...ends),
    };
  }, [divers, flight]);
}
