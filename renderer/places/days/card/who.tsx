import type { ReactNode } from 'react';
import type { Entry } from '../../../../core/ledger/ledger-types';
import { breathedSaid } from '../../../../core/ledger/breathed-said';
import { roomShortSaid } from '../../../../core/ledger/room-said';
import { isRoomUnknown, tightestOf } from '../../../../core/ledger/tightest';
import { said, type Said } from '../../../../core/words/said';
import { someSaid } from '../../../../core/words/terms';
import { chooseDiver } from '../../../actions/view';
import { useWords } from '../../../parts/use-words';
import { selectRooms } from '../../../store/selectors';
import { useDesk } from '../../../store/store';
import { CARE_BELOW_MIN } from './card-figures';
import styles from './who.module.css';

/** The room of each diver of a dive, least first; a name chooses whose figures stand above and below. */
export function Who(props: { readonly entries: readonly Entry[]; readonly shown: Entry }): ReactNode {
  const words = useWords();
  const diverId = useDesk(({ selection }) => selection.diverId);
  const roomOf = useDesk(selectRooms);
  const { entries, shown } = props;
  if (entries.length < 2) return null;
  const tight = tightestOf(entries, roomOf);
  const isUnlike = entries.some(({ o2 }) => o2 !== entries[0]!.o2);
  const isAlone = diverId !== null || isRoomUnknown(shown, roomOf(shown).minLimit);
  return (
    <section className={styles.who}>
      <h3>{words(whoseSaid(shown, isAlone, tight, entries.length))}</h3>
      <div>
        {entries.map((entry) => {
          const room = roomOf(entry);
          const isCare =
            !entry.isMade || room.min === null ? room.minLimit !== null : room.min < CARE_BELOW_MIN;
          return (
            <button
              key={entry.diver.id}
              type="button"
              aria-pressed={entry === shown}
              onClick={() => chooseDiver(diverId === entry.diver.id ? null : entry.diver.id)}
            >
              <span className={styles.name}>{entry.diver.name}</span>{' '}
              <span className={isCare ? `${styles.room} care` : styles.room}>
                {words(roomShortSaid(entry, room))}
              </span>
              {isUnlike && entry.isMade ? (
                <span className={styles.mix}> {words(breathedSaid(entry))}</span>
              ) : null}
              {tight.includes(entry) ? <span className="unseen"> {words(said`least room`)}</span> : null}
            </button>
          );
        })}
      </div>
    </section>
  );
}

/** Whose figures are shown, and why theirs. @param tight those with the least room; none without a limit */
function whoseSaid(entry: Entry, isAlone: boolean, tight: readonly Entry[], divers: number): Said {
  const of = said`Figures of ${entry.diver.name}`;
  if (isAlone) return of;
  if (tight.length === 0) return said`${of}; nobody has a limit in reach`;
  if (tight.length === divers) return said`${of}; it is as tight for everybody`;
  const others = tight.filter((each) => each !== entry).map(({ diver }) => diver.name);
  return others.length === 0
    ? said`${of}, who has the least room`
    : said`${of}, who with ${someSaid(others)} has the least room`;
}
