import { useRef, type ReactNode } from 'react';
import { capital } from '../../../core/words/reader';
import type { Id } from '../../../core/document/types';
import { addDiver } from '../../actions/party';
import { tell } from '../../actions/edit';
import { countText, dateText } from '../../figures/format';
import { roomPhrase } from '../../figures/room';
import { CommandButton } from '../../parts/command-button';
import { diveNumber, selectRoomKey, selectRoomLimit, selectRoomMin } from '../../store/selectors';
import { useDesk } from '../../store/store';
import { DiverCard } from './diver-card';
import { DiverTable } from './diver-table';
import { selectPartyFigures, type DiverFigures } from './party-figures';
import { choosePartyView, usePartyView } from './party-view';
import { momentText } from './party-words';
import { RoomGrid } from './room-grid';
import styles from './party.module.css';

/** Adds a diver, like another one or with the usual values, and opens their card. */
function add(likeId: Id | null): void {
  const { id, result } = addDiver(likeId);
  if (tell(result).ok) choosePartyView({ diverId: id, isNew: true });
}

/** Party: who dives, on what, within which limits, and who is the tightest on which dive. */
export function Party(): ReactNode {
  const figures = useDesk(selectPartyFigures);
  const addButton = useRef<HTMLButtonElement>(null);
  const wanted = usePartyView((view) => view.diverId);
  // A diver who left the party leaves the card too.
  const shown =
    figures.find(({ diver }) => diver.id === wanted) ??
    figures.find(({ isTightestOfParty }) => isTightestOfParty) ??
    figures[0];
  return (
    <div className={styles.party}>
      <header className={styles.head}>
        <h2>Party</h2>
        <Sentence figures={figures} />
        <button ref={addButton} type="button" className="button" onClick={() => add(null)}>
          Add a diver
        </button>
        <CommandButton id="trip.details" className="button" />
      </header>
      <div className={styles.tables}>
        <DiverTable figures={figures} shownId={shown?.diver.id ?? null} />
        <RoomGrid />
      </div>
      <aside className={styles.side} aria-label="Chosen diver">
        {/* The key gives each diver fields of their own. */}
        {shown ? (
          <DiverCard
            key={shown.diver.id}
            figures={shown}
            onCopy={() => add(shown.diver.id)}
            onRemoved={() => addButton.current?.focus()}
          />
        ) : null}
      </aside>
    </div>
  );
}

/** One by name, several by number: the sentence stands on one line above a party of twelve. */
function shortly(names: readonly string[]): string {
  return names.length === 1 ? names[0]! : countText(names.length);
}

/** The size of the party, its tightest diver, and the last to be clear to fly. */
function Sentence({ figures }: { readonly figures: readonly DiverFigures[] }): ReactNode {
  const trip = useDesk((state) => state.trip);
  const roomMinOf = useDesk(selectRoomMin);
  const clock = useDesk(({ settings }) => settings.clock);
  const limitOf = useDesk(selectRoomLimit);
  const keyOf = useDesk(selectRoomKey);
  const tight = figures.filter(({ isTightestOfParty }) => isTightestOfParty);
  // Of those that read alike the one that is tighter by less than a minute.
  const tightest = tight.toSorted((a, b) => keyOf(a.tightest!) - keyOf(b.tightest!))[0];
  const others = tight.filter((each) => each !== tightest).map(({ diver }) => diver.name);
  const lasts = figures.filter(({ isLastToFly }) => isLastToFly);
  const flyAfterMin = lasts[0]?.flyAfterMin ?? null;
  const entry = tightest?.tightest;
  return (
    <p className={styles.sentence} data-part="party sentence">
      {capital(figures.length === 1 ? 'one diver' : `${countText(figures.length)} divers`)}.{' '}
      {tightest && entry ? (
        <button
          type="button"
          className={styles.tightest}
          onClick={() => choosePartyView({ diverId: tightest.diver.id })}
        >
          Tightest: {tightest.diver.name} on dive {diveNumber(trip, entry.dive.id)},{' '}
          {dateText(entry.dive.startsAt)}, {roomPhrase(entry, roomMinOf(entry), limitOf(entry))}
          {others.length > 0
            ? `; ${others.length === 1 ? others[0]! : `${countText(others.length)} more`} ${others.length === 1 ? 'is' : 'are'} as tight`
            : ''}
          .
        </button>
      ) : null}{' '}
      {flyAfterMin === null
        ? null
        : `${capital(shortly(lasts.map(({ diver }) => diver.name)))} ${lasts.length === 1 ? 'waits' : 'wait'} longest: no flying before ${momentText(flyAfterMin, clock)}.`}
    </p>
  );
}
