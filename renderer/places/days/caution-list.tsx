import type { ReactNode } from 'react';
import type { Caution, Severity } from '../../../core/trip/ledger-types';
import type { Trip } from '../../../core/trip/types';
import { chooseDives, closeOverlay, goTo } from '../../actions/view';
import { dateText } from '../../figures/format';
import { diveNumber, selectCautions } from '../../store/selectors';
import { useDesk } from '../../store/store';

/** Each severity is said in words beside its mark, never by colour alone. */
export const SEVERITY_WORDS: Readonly<Record<Severity, string>> = {
  stop: 'Stop',
  change: 'Change',
  know: 'Know',
};

/** Cautions of one dive, or of the whole trip. */
export function CautionItems(props: {
  readonly cautions: readonly Caution[];
  readonly trip: Trip;
  /** Names the dive and offers to go there; left out where the dive is already on show. */
  readonly withDive?: boolean;
}): ReactNode {
  const { cautions, trip, withDive = false } = props;
  return (
    <ul className="cautions">
      {cautions.map((caution) => {
        const dive = trip.dives.find(({ id }) => id === caution.diveId);
        const diver = trip.party.find(({ id }) => id === caution.diverId);
        return (
          <li
            key={`${caution.code}/${caution.diverId ?? ''}/${caution.diveId ?? ''}`}
            className={caution.severity}
          >
            <span className="severity">{SEVERITY_WORDS[caution.severity]}</span>
            <div>
              <p>{caution.message}</p>
              <p className="soft">
                {diver && trip.party.length > 1 ? `${diver.name}. ` : ''}
                {withDive && dive ? (
                  <>
                    <button
                      type="button"
                      className="linked"
                      onClick={() => {
                        closeOverlay();
                        goTo('days');
                        chooseDives([dive.id]);
                      }}
                    >
                      Dive {diveNumber(trip, dive.id)}, {dateText(dive.startsAt)}
                    </button>
                    {'. '}
                  </>
                ) : null}
                Source: {caution.source}
              </p>
            </div>
          </li>
        );
      })}
    </ul>
  );
}

/** Every caution of the trip, what must stop first. */
export function CautionList(): ReactNode {
  const cautions = useDesk(selectCautions);
  const trip = useDesk((state) => state.trip);
  if (cautions.length === 0)
    return <p className="soft">The plan raises no caution. It is still only a plan.</p>;
  return <CautionItems cautions={cautions} trip={trip} withDive />;
}
