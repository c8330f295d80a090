import { Fragment, memo, type ReactNode } from 'react';
import { stateSaid, type Standing } from '../../../core/cautions/standing';
import { toldTogether } from '../../../core/cautions/told-together';
import { siteName } from '../../../core/document/site-of';
import type { Dive, Id, Trip } from '../../../core/document/types';
import type { Entry } from '../../../core/ledger/ledger-types';
import { roomSaid } from '../../../core/ledger/room-said';
import { isPastRoom } from '../../../core/ledger/tightest';
import { momentAt } from '../../../core/words/calendar';
import { capital } from '../../../core/words/reader';
import { moment, NOTHING, said, type Said } from '../../../core/words/said';
import { countSaid, someSaid } from '../../../core/words/terms';
import { chooseDives, showOverlay } from '../../actions/view';
import { useWords } from '../../parts/use-words';
import {
  selectCautionsByTime,
  selectEntriesByDive,
  selectFlyMin,
  selectRooms,
  selectStanding,
} from '../../store/selectors';
import { useDesk } from '../../store/store';
import { Pennant } from './pennant';
import styles from './headline.module.css';

/** So many dives are named where several are past a limit; the others are chosen together. */
const NAMED = 3;

/** How the trip stands: its state, where that is not well, the tightest dive, before when there is no flying, notes. */
export const Headline = memo(function Headline(): ReactNode {
  const trip = useDesk((state) => state.trip);
  const standing = useDesk(selectStanding);
  const diverId = useDesk(({ selection }) => selection.diverId);
  const words = useWords();
  if (standing.dives.length === 0 && trip.dives.length > 0 && standing.isUnderWay) {
    return (
      <p className={styles.headline} data-headline>
        <strong>{words(said`No dive is ahead.`)}</strong> <Flying />
        <Notes />
      </p>
    );
  }
  if (standing.dives.length === 0) {
    return (
      <p className={styles.headline} data-headline>
        <strong>{words(said`No dives yet.`)}</strong>{' '}
        {words(said`Add the first one, and what it leaves behind is carried from there.`)}
      </p>
    );
  }
  const diver = trip.party.find(({ id }) => id === diverId);
  const state = stateSaid(standing, trip.party.length > 1 && diver ? diver.name : null);
  const isMore = state.diveIds.length > 0;
  return (
    <p className={styles.headline} data-headline>
      <strong className={state.isPast ? styles.past : undefined}>
        {state.isPast ? <Pennant /> : null}
        {capital(words(state.says))}
        {isMore ? ':' : '.'}
      </strong>{' '}
      {isMore ? <Places ids={state.diveIds} trip={trip} /> : null}
      {state.diveIds === standing.past ? <WithoutMix ids={standing.withoutMix} trip={trip} /> : null}
      <Tightest standing={standing} trip={trip} isOfOthers={state.isPast && isMore} />
      <Flying />
      <Notes />
    </p>
  );
});

function DiveLink(props: {
  readonly dive: Dive;
  readonly says: Said;
  readonly isTightest?: boolean;
}): ReactNode {
  const words = useWords();
  return (
    <button
      type="button"
      className="linked"
      data-tightest={props.isTightest}
      onClick={() => chooseDives([props.dive.id])}
    >
      {words(props.says)}
    </button>
  );
}

/** Where: one dive with its site and by how much, up to three by day and time, more by number. */
function Places({ ids, trip }: { readonly ids: readonly Id[]; readonly trip: Trip }): ReactNode {
  const words = useWords();
  const rooms = useDesk(selectRooms);
  const entriesByDive = useDesk(selectEntriesByDive);
  const dives = trip.dives.filter(({ id }) => ids.includes(id));
  const [only] = dives;
  if (!only) return null;
  if (dives.length === 1) {
    const past = (entriesByDive.get(only.id) ?? []).filter((entry) => isPastRoom(entry, rooms(entry)));
    return (
      <>
        <DiveLink dive={only} says={placeSaid(only, trip)} />
        {past[0] ? words(said`, ${roomSaid(past[0], rooms(past[0]))}${forWhom(past, trip)}. `) : '. '}
      </>
    );
  }
  const named = dives.length > NAMED + 1 ? dives.slice(0, NAMED) : dives;
  const rest = dives.length - named.length;
  return (
    <>
      {named.map((dive, at) => (
        <Fragment key={dive.id}>
          {at === 0 ? '' : at === dives.length - 1 ? words(said` and `) : ', '}
          <DiveLink dive={dive} says={said`${moment(dive.startsAt)}`} />
        </Fragment>
      ))}
      {rest > 0 ? (
        <>
          {words(said` and `)}
          <button type="button" className="linked" onClick={() => chooseDives(dives.map(({ id }) => id))}>
            {words(said`${countSaid(rest)} more`)}
          </button>
        </>
      ) : null}
      {'. '}
    </>
  );
}

function placeSaid(dive: Dive, trip: Trip): Said {
  return said`${moment(dive.startsAt)}, ${siteName(trip, dive)}`;
}

/** " for Guest 2", " for everybody but the Guide"; nothing where one diver dives alone. */
function forWhom(entries: readonly Entry[], trip: Trip): Said {
  const names = entries.map(({ diver }) => diver.name);
  if (trip.party.length === 1) return NOTHING;
  return names.length === trip.party.length ? said` for everybody` : said` for ${someSaid(names)}`;
}

/** The least room of the dives that keep every limit, and how many more have as little. */
function Tightest(props: {
  readonly standing: Standing;
  readonly trip: Trip;
  readonly isOfOthers: boolean;
}): ReactNode {
  const { standing, trip, isOfOthers } = props;
  const words = useWords();
  const rooms = useDesk(selectRooms);
  const [least] = standing.tight;
  if (!least) return isOfOthers ? null : words(said`No limit is in reach. `);
  const alike = standing.tight.filter(({ dive }) => dive.id === least.dive.id);
  const others = [...new Set(standing.tight.map(({ dive }) => dive.id))].filter((id) => id !== least.dive.id);
  const left = standing.dives.length - standing.past.length - standing.withoutMix.length;
  return (
    <>
      {words(isOfOthers ? said`Tightest of the other ${countSaid(left)}: ` : said`Tightest: `)}
      <DiveLink dive={least.dive} says={placeSaid(least.dive, trip)} isTightest />
      {words(said`, ${roomSaid(least, rooms(least))}${forWhom(alike, trip)}. `)}
      {others.length > 0 ? (
        <>
          <button type="button" className="linked" onClick={() => chooseDives([least.dive.id, ...others])}>
            {others.length === 1
              ? words(said`One more is as tight`)
              : capital(words(said`${countSaid(others.length)} more are as tight`))}
          </button>
          {'. '}
        </>
      ) : null}
    </>
  );
}

/** Dives that no mix may make, where the state speaks of those past a limit. */
function WithoutMix({ ids, trip }: { readonly ids: readonly Id[]; readonly trip: Trip }): ReactNode {
  const words = useWords();
  if (ids.length === 0) return null;
  return (
    <>
      {words(said`No mix can be used at `)}
      <Places ids={ids} trip={trip} />
    </>
  );
}

/** The whole party flies together: the latest of them says when, unless one diver is looked at. */
function Flying(): ReactNode {
  const words = useWords();
  const flyMin = useDesk(selectFlyMin);
  return flyMin === null ? null : words(said`No flying before ${momentAt(flyMin)}. `);
}

/** All that is said of the trip, by number: notes alone, or cautions where any is more than that. */
function Notes(): ReactNode {
  const words = useWords();
  const told = toldTogether(useDesk((state) => selectCautionsByTime(state).ahead));
  if (told.length === 0) return null;
  const isNotes = told.every(({ caution }) => caution.severity === 'know');
  const one = isNotes ? said`One note` : said`One caution`;
  const several = isNotes ? said`${countSaid(told.length)} notes` : said`${countSaid(told.length)} cautions`;
  return (
    <button type="button" className="linked" onClick={() => showOverlay({ kind: 'cautions' })}>
      {capital(words(told.length === 1 ? one : several))}
    </button>
  );
}
