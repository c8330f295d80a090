import { createContext, useContext } from 'react';
import type { Trip } from '../../core/document/types';
import { wordsOf, type Language, type Reader, type Words } from '../../core/words/reader';
import type { Settings } from '../../core/host';
import { windowReader, type NamedTrip } from '../figures/reader';
import { memo, takingUp } from '../store/memo';
import { useDesk } from '../store/store';

/** The language of what is shown beneath; absent: as the product is written. */
export const LanguageOfWindow = createContext<Language | undefined>(undefined);

/** The same object while nothing is named or numbered otherwise, so that an edit does not reword the whole window. */
const namesOf = takingUp((previous: NamedTrip | undefined, trip: Trip): NamedTrip => {
  const isSame =
    previous !== undefined &&
    previous.party === trip.party &&
    previous.sites === trip.sites &&
    previous.mixes === trip.mixes &&
    previous.dives.length === trip.dives.length &&
    previous.dives.every(({ id }, at) => id === trip.dives[at]!.id);
  return isSame ? previous : trip;
});

const readerOf = memo(
  (
    trip: NamedTrip,
    units: Settings['units'],
    clock: Settings['clock'],
    language: Language | undefined,
  ): Reader => ({ ...windowReader({ units, clock, trip }), language }),
);

const wordsFor = memo(wordsOf);

/** Who sits before the window, as the settings have it, with the trip on screen: one reader for all of it. */
export function useReader(): Reader {
  const language = useContext(LanguageOfWindow);
  return useDesk(({ trip, settings }) => readerOf(namesOf(trip), settings.units, settings.clock, language));
}

/** Puts sentences into the words of the window. */
export function useWords(): Words {
  return wordsFor(useReader());
}
