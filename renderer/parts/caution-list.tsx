import './caution-list.css';
import type { ReactNode } from 'react';
import { toldTogether, type Told } from '../../core/cautions/told-together';
import { listed } from '../../core/cautions/wording';
import { keptTogether } from '../../core/line-breaks';
import type { Trip } from '../../core/document/types';
import { chooseDives, closeOverlay, goTo } from '../actions/view';
import { countText, dateText } from '../figures/format';
import { diveNumber, selectCautions } from '../store/selectors';
import { useDesk } from '../store/store';
import type { Caution, Severity } from '../../core/cautions/caution';

/** Each severity is said in words beside its mark, never by colour alone. */
export const SEVERITY_WORDS: Readonly<Record<Severity, string>> = {
  stop: 'Stop',
  change: 'Change',
  know: 'Know',
};

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
  const told = toldTogether(cautions);
  const hidden = told.slice(open);
  return (
    <>
      <ToldList told={told.slice(0, open)} trip={trip} withDive={withDive} />
      {hidden.length > 0 ? (
        <details>
          <summary>{countText(hidden.length)} more</summary>
          <ToldList told={hidden} trip={trip} withDive={withDive} />
        </details>
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
  return (
    <ul className="cautions">
      {told.map(({ caution, diverIds }) => {
        const dive = trip.dives.find(({ id }) => id === caution.diveId);
        const names = trip.party.filter(({ id }) => diverIds.includes(id)).map(({ name }) => name);
        return (
          <li
            key={`${caution.code}/${diverIds.join(' ')}/${caution.diveId ?? ''}`}
            className={caution.severity}
          >
            <span className="severity">{SEVERITY_WORDS[caution.severity]}</span>
            <div>
              <p>{keptTogether(caution.message)}</p>
              <p className="soft">
                {names.length > 0 && trip.party.length > 1 ? `${listed(names)}. ` : ''}
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
