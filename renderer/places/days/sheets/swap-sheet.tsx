import { useMemo, type ReactNode } from 'react';
import { cautionsOf } from '../../../../core/cautions/all';
import { standingOf, stateSaid, type Standing } from '../../../../core/cautions/standing';
import { siteName } from '../../../../core/document/site-of';
import { checkTrip } from '../../../../core/document/check-trip';
import type { Dive, Id, Trip } from '../../../../core/document/types';
import { ledger } from '../../../../core/ledger/ledger';
import type { Entry, Ledger } from '../../../../core/ledger/ledger-types';
import { roomMinutes, type MinutesRoom } from '../../../../core/ledger/room';
import { roomSaid } from '../../../../core/ledger/room-said';
import { tightestOf } from '../../../../core/ledger/tightest';
import { swapped } from '../../../../core/proposal/swapped';
import { capital, fileWords } from '../../../../core/words/reader';
import { dayOf, moment, said, timeOfDay, type Said } from '../../../../core/words/said';
import { swapDives } from '../../../actions/dive-rest';
import { tell } from '../../../actions/edit';
import { closeOverlay } from '../../../actions/view';
import { Dialog } from '../../../parts/dialog';
import { useWords } from '../../../parts/use-words';
import { selectLedger } from '../../../store/selectors';
import { useDesk } from '../../../store/store';
import { Pennant } from '../pennant';
import styles from './sheets.module.css';

interface Offer {
  readonly dive: Dive;
  /** How the trip would stand; null where the swap cannot be. */
  readonly standing: Standing | null;
  readonly after: Ledger | null;
  readonly trip: Trip;
}

/** What each swap would make of the trip, in the order of the dives. */
function offersOf(of: Ledger, diveId: Id): readonly Offer[] {
  const { dives } = of.trip;
  const asked = new Set(dives.map(({ id }) => id));
  return dives
    .filter(
      ({ id, asDived, notDived }) => id !== diveId && (asDived ?? []).length + (notDived ?? []).length === 0,
    )
    .map((dive) => {
      const trip = swapped(of.trip, diveId, dive.id);
      if (checkTrip(trip, fileWords).length > 0) return { dive, standing: null, after: null, trip };
      const after = ledger(trip, of);
      return {
        dive,
        trip,
        after,
        standing: standingOf(after, cautionsOf(after), (entry) => roomMinutes(trip, entry), asked, null),
      };
    });
}

/** The dives that a dive can change places with, each with how the trip would stand then. */
export function SwapSheet({ diveId }: { readonly diveId: Id }): ReactNode {
  const words = useWords();
  const of = useDesk(selectLedger);
  const { trip } = of;
  const dive = trip.dives.find(({ id }) => id === diveId);
  const offers = useMemo(() => (dive ? offersOf(of, diveId) : []), [of, dive, diveId]);
  if (!dive) return null;
  const name = siteName(trip, dive);
  return (
    <Dialog
      title={words(said`Swap ${name}, ${moment(dive.startsAt)}, with`)}
      width="wide"
      onClose={closeOverlay}
    >
      {offers.length === 0 ? (
        <p className="soft">{words(said`There is no other dive to swap with.`)}</p>
      ) : null}
      <ul className={styles.offers}>
        {offers.map((offer) => (
          <li key={offer.dive.id}>
            <button
              type="button"
              disabled={offer.standing === null}
              onClick={() => {
                closeOverlay();
                tell(swapDives(diveId, offer.dive.id));
              }}
            >
              <span className={styles.when}>
                {words(
                  said`${dayOf(offer.dive.startsAt.slice(0, 10), 'weekday')}, ${timeOfDay(offer.dive.startsAt.slice(11))}`,
                )}
              </span>
              <span className={styles.where}>{siteName(trip, offer.dive)}</span>
              <Then offer={offer} diveId={diveId} />
            </button>
          </li>
        ))}
      </ul>
    </Dialog>
  );
}

/** How the trip would stand after a swap. */
function Then({ offer, diveId }: { readonly offer: Offer; readonly diveId: Id }): ReactNode {
  const { standing } = offer;
  const words = useWords();
  if (standing === null) {
    return <span className="soft">{words(said`The dives would run into one another.`)}</span>;
  }
  const state = stateSaid(standing, null);
  return (
    <span className={state.isPast ? 'care' : undefined}>
      {state.isPast ? <Pennant /> : null}
      {capital(words(state.isPast ? state.says : leastSaid(offer, diveId)))}
    </span>
  );
}

/** The least room of the two dives that were swapped. */
function leastSaid({ dive, after, trip }: Offer, diveId: Id): Said {
  const entries = (after?.divers ?? []).flatMap((each) =>
    each.entries.filter((entry) => entry.dive.id === diveId || entry.dive.id === dive.id),
  );
  const roomOf = (entry: Entry): MinutesRoom => roomMinutes(trip, entry);
  const [least] = tightestOf(entries, roomOf);
  return least
    ? said`all within limits, ${roomSaid(least, roomOf(least))} on the tighter of the two`
    : said`all within limits`;
}
