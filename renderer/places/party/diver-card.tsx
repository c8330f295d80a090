import { useEffect, useRef, useState, type ReactNode } from 'react';
import type { DiverLedger } from '../../../core/ledger/ledger-types';
import type { Id, Trip } from '../../../core/document/types';
import { removeDiver } from '../../actions/party';
import { chooseDiver, goTo, goToDives } from '../../actions/view';
import { countText, NO_FIGURE, numberText, percentText, unitText } from '../../figures/format';
import { RefusalLine } from '../../parts/refusal-line';
import type { Refusal } from '../../parts/use-draft';
import { memo } from '../../store/memo';
import { diveNumber, ledgerOfDiver, roomOfEntry, selectCautions } from '../../store/selectors';
import { useDesk } from '../../store/store';
import { CautionItems } from '../../parts/caution-list';
import { DiverDives } from './diver-dives';
import { DiverFields } from './diver-fields';
import { EarlierDives } from './earlier-dives';
import { FlightLines } from './flight-lines';
import { LoopFields } from './loop-fields';
import type { DiverFigures } from './party-figures';
import { choosePartyView, partyView } from './party-view';
import { entryDate, isCare, limitPhrase, momentText } from './party-words';
import type { Caution } from '../../../core/cautions/caution';
import styles from './diver-card.module.css';

/** So many stand open; a tight trip can raise a page of them. */
const SHOWN = 3;

/** Everything about one diver: gear, limits, what they bring along, what comes of the trip for them. */
export function DiverCard(props: {
  readonly figures: DiverFigures;
  readonly onCopy: () => void;
  /** The card goes with the diver: the focus is to go elsewhere. */
  readonly onRemoved: () => void;
}): ReactNode {
  const { figures, onCopy, onRemoved } = props;
  const { diver, dives } = figures;
  const party = useDesk(({ trip }) => trip.party);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const remove = (): void => {
    const result = removeDiver(diver.id);
    if (result.ok) onRemoved();
    else setRefusal(result.troubles[0]);
  };
  const fields = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (!partyView.getState().isNew) return;
    choosePartyView({ isNew: false });
    fields.current?.querySelector('input')?.focus();
  }, []);
  return (
    <section className={styles.card} aria-label={diver.name}>
      <p className={`soft ${styles.eyebrow}`}>
        {party.length > 1
          ? `Diver ${party.findIndex(({ id }) => id === diver.id) + 1} of ${party.length}`
          : 'The diver'}
      </p>
      <h2 className="unseen">{diver.name}</h2>
      <div ref={fields}>
        <DiverFields diver={diver} />
      </div>
      <LoopFields diver={diver} />
      <Comes figures={figures} />
      <WayHome diverId={diver.id} />
      <Cautions diverId={diver.id} />
      <EarlierDives diver={diver} />
      <DiverDives diver={diver} />
      <p className={styles.end}>
        <button
          type="button"
          className="plain"
          disabled={dives === 0}
          onClick={() => {
            chooseDiver(diver.id);
            goTo('days');
          }}
        >
          Their figures on Days
        </button>
        <button type="button" className="plain" aria-label={`Copy ${diver.name}`} onClick={onCopy}>
          Copy
        </button>
        <button type="button" className="plain" aria-label={`Remove ${diver.name}`} onClick={remove}>
          Remove
        </button>
      </p>
      <RefusalLine refusal={refusal} />
    </section>
  );
}

interface Extremes {
  readonly cns: number | null;
  readonly cnsDay: number | null;
  readonly otu: number;
  readonly leastBar: number | null;
}

function most(values: readonly (number | null)[]): number | null {
  // One that cannot be told makes the most of them unknown too.
  return values.length === 0 || values.includes(null) ? null : Math.max(...values.map(Number));
}

/** The most oxygen and the least gas of any dive. */
const extremesOf = memo(({ entries }: DiverLedger): Extremes => {
  const made = entries.filter(({ isMade }) => isMade);
  const ends = made.map(({ gas }) => gas.endBar);
  return {
    cns: most(made.map(({ cns }) => cns.after)),
    cnsDay: most(made.map(({ cns }) => cns.day)),
    otu: made.at(-1)?.otu.trip ?? 0,
    leastBar: ends.length === 0 || ends.includes(null) ? null : Math.min(...ends.map(Number)),
  };
});

/** What comes of the whole trip for a diver. */
function Comes({ figures }: { readonly figures: DiverFigures }): ReactNode {
  const { diver, tightest: entry, alike, dives, flyAfterMin } = figures;
  const trip = useDesk((state) => state.trip);
  const units = useDesk(({ settings }) => settings.units);
  const clock = useDesk(({ settings }) => settings.clock);
  const room = useDesk((state) => (entry ? roomOfEntry(state, entry) : null));
  const extremes = useDesk((state) => {
    const ledger = ledgerOfDiver(state, diver.id);
    return ledger ? extremesOf(ledger) : null;
  });
  if (dives === 0 || !extremes) return <p className={`soft ${styles.none}`}>Not on any dive.</p>;
  const isGasShort = extremes.leastBar === null || extremes.leastBar < diver.cylinder.reserveBar;
  return (
    <dl className={styles.comes}>
      <div>
        <dt>Tightest</dt>
        <dd>
          {entry && room ? (
            <button
              type="button"
              className={isCare(room.min) ? 'linked care' : 'linked'}
              onClick={() => {
                chooseDiver(diver.id);
                goToDives([entry.dive.id]);
              }}
            >
              {limitPhrase(entry, room)}, dive {diveNumber(trip, entry.dive.id)}, {entryDate(entry)}
              {alike > 0 ? ` and ${countText(alike)} more` : ''}
            </button>
          ) : (
            'no limit in reach'
          )}
        </dd>
      </div>
      <div>
        <dt>CNS at most</dt>
        <dd>
          <span className="figure">{percentText(extremes.cns, 'up')}</span>
          {extremes.cnsDay === null ? '' : `, of 24 h ${percentText(extremes.cnsDay, 'up')}`}
        </dd>
      </div>
      <div>
        <dt>OTU of the trip</dt>
        <dd className="figure">{numberText(extremes.otu, 0, 'up')}</dd>
      </div>
      <div>
        <dt>Least gas left</dt>
        <dd className={isGasShort ? 'figure care' : 'figure'}>
          {extremes.leastBar === null ? NO_FIGURE : unitText(extremes.leastBar, 'pressure', units, 'down')}
        </dd>
      </div>
      <div>
        <dt>No flying before</dt>
        <dd className="figure">{momentText(flyAfterMin, clock)}</dd>
      </div>
    </dl>
  );
}

/** When the diver may fly, by each view. */
function WayHome({ diverId }: { readonly diverId: Id }): ReactNode {
  const flight = useDesk((state) => ledgerOfDiver(state, diverId)?.flight ?? null);
  return flight === null ? null : <FlightLines views={flight} />;
}

/** What concerns the diver alone, and what concerns the party on a dive that the diver makes too. */
const cautionsOfDiver = memo((cautions: readonly Caution[], trip: Trip, diverId: Id): readonly Caution[] =>
  cautions.filter((caution) => {
    if (caution.diverId !== null || caution.diveId === null) return caution.diverId === diverId;
    const dive = trip.dives.find(({ id }) => id === caution.diveId);
    return dive?.divers?.includes(diverId) ?? dive !== undefined;
  }),
);

function Cautions({ diverId }: { readonly diverId: Id }): ReactNode {
  const trip = useDesk((state) => state.trip);
  const cautions = useDesk((state) => cautionsOfDiver(selectCautions(state), state.trip, diverId));
  return cautions.length === 0 ? null : (
    <CautionItems cautions={cautions} trip={trip} withDive open={SHOWN} />
  );
}
