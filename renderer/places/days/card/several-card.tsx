import { Fragment, type ReactNode } from 'react';
import { wallDate, wallMin } from '../../../../core/words/calendar';
import { siteName } from '../../../../core/document/site-of';
import type { Dive } from '../../../../core/document/types';
import type { Entry } from '../../../../core/ledger/ledger-types';
import { roomShortSaid } from '../../../../core/ledger/room-said';
import { isPastRoom, tightestOf } from '../../../../core/ledger/tightest';
import { capital } from '../../../../core/words/reader';
import { dayOf, said, timeOfDay } from '../../../../core/words/said';
import { countSaid } from '../../../../core/words/terms';
import { chooseDives } from '../../../actions/view';
import { CautionItems } from '../../../parts/caution-list';
import { CommandButton } from '../../../parts/command-button';
import { useWords } from '../../../parts/use-words';
import { selectCautions, selectEntriesByDive, selectRooms } from '../../../store/selectors';
import { useDesk } from '../../../store/store';
import { Pennant } from '../pennant';
import { DiveParty } from './dive-party';
import { SeveralFields } from './several-fields';
import styles from './card.module.css';
import list from './several-card.module.css';

/** Several dives chosen: what they are by day, what they are all set to, and moving them together. */
export function SeveralCard({ dives }: { readonly dives: readonly Dive[] }): ReactNode {
  const words = useWords();
  const trip = useDesk((state) => state.trip);
  const byDive = useDesk(selectEntriesByDive);
  const all = useDesk(selectCautions);
  const roomOf = useDesk(selectRooms);
  const ids = dives.map(({ id }) => id);
  const cautions = all.filter(({ diveId }) => diveId !== null && ids.includes(diveId));
  // The first of each dive has the least room of it.
  const least = new Map(dives.map(({ id }) => [id, byDive.get(id)?.[0] ?? null]));
  const known = [...least.values()].filter((entry) => entry !== null);
  const tight = tightestOf(
    known.filter((entry) => !isPastRoom(entry, roomOf(entry))),
    roomOf,
  );
  const days = [...new Set(dives.map(({ startsAt }) => wallDate(wallMin(startsAt))))];
  return (
    <section className={styles.card} aria-label={words(said`${dives.length} dives`)}>
      <p className={styles.eyebrow}>
        <span>{words(said`Chosen together`)}</span>
        <span>{words(said`${dives.length} of ${trip.dives.length}`)}</span>
      </p>
      <h2>{capital(words(said`${countSaid(dives.length)} dives`))}</h2>
      <SeveralFields dives={dives} />
      <DiveParty dives={dives} />
      <table className={list.list}>
        <caption className="unseen">{words(said`The dives, each with its least room`)}</caption>
        {days.map((day) => (
          <tbody key={day}>
            <tr>
              <th scope="rowgroup" colSpan={3}>
                {words(said`${dayOf(day, 'weekday')}`)}
              </th>
            </tr>
            {dives
              .filter(({ startsAt }) => startsAt.startsWith(day))
              .map((dive) => (
                <Row
                  key={dive.id}
                  dive={dive}
                  entry={least.get(dive.id) ?? null}
                  site={siteName(trip, dive)}
                  isTightest={tight.some((each) => each.dive.id === dive.id)}
                />
              ))}
          </tbody>
        ))}
      </table>
      {cautions.length > 0 ? <CautionItems cautions={cautions} trip={trip} withDive open={4} /> : null}
      <p className={styles.end}>
        {[
          ['dive.copy', 'Duplicate'],
          ['edit.copy', 'Copy'],
          ['dive.delete', 'Remove'],
        ].map(([id, label]) => (
          <Fragment key={id}>
            <CommandButton id={id!} className="linked">
              {label!}
            </CommandButton>
          </Fragment>
        ))}
      </p>
    </section>
  );
}

function Row(props: {
  readonly dive: Dive;
  readonly entry: Entry | null;
  readonly site: string;
  readonly isTightest: boolean;
}): ReactNode {
  const { dive, entry, site, isTightest } = props;
  const words = useWords();
  const room = useDesk(selectRooms);
  const isPast = entry !== null && isPastRoom(entry, room(entry));
  return (
    <tr>
      <td>{words(said`${timeOfDay(dive.startsAt.slice(11))}`)}</td>
      <th scope="row">
        <button type="button" className="linked" onClick={() => chooseDives([dive.id])}>
          {site}
        </button>
      </th>
      <td className={isPast ? 'figure care' : 'figure'}>
        {isPast ? <Pennant /> : null}
        {isTightest ? words(said`tightest, `) : ''}
        {entry === null ? words(said`nobody`) : words(roomShortSaid(entry, room(entry)))}
      </td>
    </tr>
  );
}
