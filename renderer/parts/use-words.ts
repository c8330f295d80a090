import { createContext, useContext, useMemo } from 'react';
import { wordsOf, type Language, type Reader, type Words } from '../../core/words/reader';
import { windowReader } from '../figures/reader';
import { useDesk } from '../store/store';

/** The language of what is shown beneath; absent: as the product is written. */
export const LanguageOfWindow = createContext<Language | undefined>(undefined);

/** Who sits before the window, as the settings have it, with the trip on screen. */
export function useReader(): Reader {
  const trip = useDesk((state) => state.trip);
  const units = useDesk(({ settings }) => settings.units);
  const clock = useDesk(({ settings }) => settings.clock);
  const language = useContext(LanguageOfWindow);
  return useMemo(
    () => ({ ...windowReader({ units, clock, trip }), language }),
    [units, clock, trip, language],
  );
}

/** Puts sentences into the words of the window. */
export function useWords(): Words {
  const reader = useReader();
  return useMemo(() => wordsOf(reader), [reader]);
}
