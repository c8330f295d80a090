import type { ReactNode } from 'react';
import { grouped } from '../../../core/grouped';
import { keptTogether } from '../../../core/line-breaks';
import type { Caution } from '../../../core/cautions/caution';
import { dayOf, listed, NOTHING, said, saysSame, type Said } from '../../../core/words/said';
import { SEVERITIES } from '../../../core/words/terms';
import type { Dive, Trip } from '../../../core/document/types';
import { useWords } from '../../parts/use-words';
import { diveNumber } from '../../store/selectors';
import styles from '../../parts/caution-list.module.css';

interface PrintedCautionsProps {
  readonly cautions: readonly Caution[];
  readonly trip: Trip;
}

/**
 * Every caution of the trip on paper: the first of each kind in full, then whom and what it concerns besides.
 * A fortnight for twelve raises many hundred that differ in their figures alone; nobody reads sixty pages.
 */
export function PrintedCautions({ cautions, trip }: PrintedCautionsProps): ReactNode {
  const words = useWords();
  const kinds = grouped(cautions, ({ severity, code }) => `${severity} ${code}`);
  return (
    <ul className={`${styles.cautions} ${styles.printed}`}>
      {[...kinds].map(([kind, alike]) => {
        const first = alike[0]!;
        const same = alike.filter(
          ({ diveId, says }) => diveId === first.diveId && saysSame(says, first.says),
        );
        const others = alike.filter((each) => !same.includes(each));
        const dive = trip.dives.find(({ id }) => id === first.diveId);
        return (
          <li key={kind} data-severity={first.severity}>
            <span className={styles.severity}>{words(SEVERITIES[first.severity])}</span>
            <div>
              <p>{keptTogether(words(said`${placeOf(trip, dive)}${whose(same, trip)}: ${first.says}`))}</p>
              {others.length > 0 ? (
                <p>{words(said`Alike, each with figures of its own: ${placesOf(others, trip)}.`)}</p>
              ) : null}
              <p className={`soft ${styles.source}`}>{words(said`Source: ${first.source}`)}</p>
            </div>
          </li>
        );
      })}
    </ul>
  );
}

function placeOf(trip: Trip, dive: Dive | undefined): Said {
  if (dive === undefined) return said`The trip`;
  return said`Dive ${diveNumber(trip, dive.id)}, ${dayOf(dive.startsAt.slice(0, 10), 'weekday')}`;
}

/** ", Guest 1 and Guest 2", ", everybody but Guest 3"; nothing where a caution concerns the whole party. */
function whose(cautions: readonly Caution[], trip: Trip): Said {
  const ids = new Set(cautions.map(({ diverId }) => diverId));
  if (trip.party.length === 1 || ids.has(null)) return NOTHING;
  const [those, others] = [true, false].map((is) =>
    trip.party.filter(({ id }) => ids.has(id) === is).map(({ name }) => name),
  );
  if (others!.length === 0) return said`, everybody`;
  return others!.length < those!.length
    ? said`, everybody but ${listed(others!)}`
    : said`, ${listed(those!)}`;
}

/** "dive 9, Guest 2 and Guest 6", one for each dive. */
function placesOf(cautions: readonly Caution[], trip: Trip): Said {
  const byDive = grouped(cautions, ({ diveId }) => diveId);
  return [...byDive]
    .map(([diveId, ofDive]) => {
      const place = diveId === null ? said`the trip` : said`dive ${diveNumber(trip, diveId)}`;
      return said`${place}${whose(ofDive, trip)}`;
    })
    .reduce((before, next) => said`${before}; ${next}`);
}
