import type { ReactNode } from 'react';
import { toldTogether, type Told } from '../../core/cautions/told-together';
import { keptTogether } from '../../core/line-breaks';
import { dayOf, listed, said } from '../../core/words/said';
import { countSaid, SEVERITIES } from '../../core/words/terms';
import type { Trip } from '../../core/document/types';
import { closeOverlay, goToDives, showMending } from '../actions/view';
import { Folded } from './folded';
import { useWords } from './use-words';
import { selectAhead } from '../store/clock';
import { diveNumber, selectCautions, selectCautionsByTime } from '../store/selectors';
import { useDesk } from '../store/store';
import type { Caution } from '../../core/cautions/caution';
import styles from './caution-list.module.css';

interface CautionItemsProps {
  readonly cautions: readonly Caution[];
  readonly trip: Trip;
  /** Names the dive and offers to go there; left out where the dive is already on show. */
  readonly withDive?: boolean;
  /** So many stand open, the others on demand; left out where all do. */
  readonly open?: number;
}

/** Cautions of one dive, or of the whole trip; what is the same for several divers is told once. */
export function CautionItems(props: CautionItemsProps): ReactNode {
  const { cautions, trip, withDive = false, open = Number.POSITIVE_INFINITY } = props;
  const words = useWords();
  const told = toldTogether(cautions);
  const hidden = told.slice(open);
  return (
    <>
      <ToldList told={told.slice(0, open)} trip={trip} withDive={withDive} />
      {hidden.length > 0 ? (
        <Folded summary={words(said`${countSaid(hidden.length)} more`)}>
          {() => <ToldList told={hidden} trip={trip} withDive={withDive} />}
        </Folded>
      ) : null}
    </>
  );
}

function ToldList(props: {
  readonly told: readonly Told[];
  readonly trip: Trip;
  readonly withDive: boolean;
}) {
  const { told, trip, withDive } = props;
  const words = useWords();
  return (
    <ul className={styles.cautions}>
      {told.map(({ caution, diverIds }) => {
        const dive = trip.dives.find(({ id }) => id === caution.diveId);
        const names = trip.party.filter(({ id }) => diverIds.includes(id)).map(({ name }) => name);
        return (
          <li
            // On the card of a dive the same finding about the next dive chosen is the same line with other words.
            key={`${caution.code}/${diverIds.join(' ')}/${withDive ? (caution.diveId ?? '') : ''}`}
            data-severity={caution.severity}
          >
            <span className={styles.severity}>{words(SEVERITIES[caution.severity])}</span>
            <div>
              <p>{keptTogether(words(caution.says))}</p>
              <p className={`soft ${styles.source}`}>
                {names.length > 0 && trip.party.length > 1 ? `${words(said`${listed(names)}.`)} ` : ''}
                {withDive && dive ? (
                  <>
                    <button
                      type="button"
                      className="linked"
                      onClick={() => {
                        closeOverlay();
                        goToDives([dive.id]);
                      }}
                    >
                      {words(
                        said`Dive ${diveNumber(trip, dive.id)}, ${dayOf(dive.startsAt.slice(0, 10), 'weekday')}`,
                      )}
                    </button>
                    {'. '}
                  </>
                ) : null}
                <MendThis caution={caution} trip={trip} />
              </p>
              <Folded summary="Source" className={styles.published}>
                {() => <p>{words(said`${caution.source}`)}</p>}
              </Folded>
            </div>
          </li>
        );
      })}
    </ul>
  );
}

/** Opens what mends this: one dive ahead alone, or, for the flight home, the days ahead together. */
function MendThis({ caution, trip }: { readonly caution: Caution; readonly trip: Trip }): ReactNode {
  const words = useWords();
  const { severity, diveId, code } = caution;
  const isAhead = useDesk((state) => diveId !== null && selectAhead(state).has(diveId));
  if (severity === 'know' || !(isAhead || code === 'flight-too-soon')) return null;
  const name = diveId === null ? said`Mend the days ahead` : said`Mend dive ${diveNumber(trip, diveId)}`;
  return (
    <button type="button" className="linked" onClick={() => showMending(diveId)}>
      {words(name)}
    </button>
  );
}

/** Where a trip raises no caution. */
export const NO_CAUTION = said`The plan raises no caution. It is still only a plan.`;

/** Every caution of the trip, what must stop first. */
export function CautionList(): ReactNode {
  const words = useWords();
  const isNone = useDesk((state) => selectCautions(state).length === 0);
  return isNone ? <p className="soft">{words(NO_CAUTION)}</p> : <CautionsByTime />;
}

/** What of the trip can still be changed, and, told apart, what was found in what is done. */
export function CautionsByTime(): ReactNode {
  const { ahead, done } = useDesk(selectCautionsByTime);
  const trip = useDesk((state) => state.trip);
  const words = useWords();
  return (
    <>
      <CautionItems cautions={ahead} trip={trip} withDive />
      {done.length > 0 ? (
        <details>
          <summary>
            {words(said`Of the dives that are done: ${countSaid(toldTogether(done).length)}`)}
          </summary>
          <CautionItems cautions={done} trip={trip} withDive />
        </details>
      ) : null}
    </>
  );
}
