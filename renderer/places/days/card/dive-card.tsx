import type { ReactNode } from 'react';
import { siteOf } from '../../../../core/document/site-of';
import type { Dive } from '../../../../core/document/types';
import type { Entry } from '../../../../core/ledger/ledger-types';
import { dayOf, said } from '../../../../core/words/said';
import { ordinalSaid } from '../../../../core/words/terms';
import { showOverlay } from '../../../actions/view';
import { CommandButton } from '../../../parts/command-button';
import { FrameLater } from '../../../parts/frame-later';
import { lazily } from '../../../parts/lazily';
import { DraftsAbout } from '../../../parts/use-draft';
import { useWords } from '../../../parts/use-words';
import { diveNumber, diveOfDay, entriesOf, partyOf, shownEntry } from '../../../store/selectors';
import { useDesk } from '../../../store/store';
import { AsDivedSheet } from './as-dived';
import { DiveFields } from './dive-fields';
import { DiveParty } from './dive-party';
import { CautionCount, DiveReading } from './dive-reading';
import { Hero } from './hero';
import { PlanDetails } from './plan-details';
import { useCardSource } from './use-card-source';
import { STAND_IN } from '../stand-in';
import styles from './card.module.css';

/** Few parties have a loop. */
const LoopPart = lazily(
  () => import('./loop-part'),
  (part) => part.LoopPart,
  STAND_IN,
);

/**
 * Everything about the chosen dive: what is planned, what comes of it at a glance, and, a frame later, what is read below:
 * the room of each, cautions, all the rest.
 */
export function DiveCard({ dive }: { readonly dive: Dive }): ReactNode {
  const words = useWords();
  const trip = useDesk((state) => state.trip);
  const entries = useDesk((state) => entriesOf(state, dive.id));
  const entry = useDesk((state) => shownEntry(state, dive.id));
  const source = useCardSource(entry);
  const site = siteOf(trip, dive);
  const number = diveNumber(trip, dive.id);
  const day = dayOf(dive.startsAt.slice(0, 10), 'weekday');
  const place = said`${day}, ${ordinalSaid(diveOfDay(trip, dive))} dive`;
  return (
    <section className={styles.card} aria-label={words(said`Dive ${number}`)}>
      <p className={styles.eyebrow}>
        <span>{words(entry?.isAsDived ? said`${place}, as dived` : place)}</span>
        <FrameLater>
          <CautionCount />
        </FrameLater>
        <span>{words(said`${number} of ${trip.dives.length}`)}</span>
      </p>
      <h2 className="unseen">{site?.name ?? dive.siteId}</h2>
      {/* Each dive has its own drafts: what was being typed for one must not show in another. */}
      <DraftsAbout value={dive.id}>
        <DiveFields dive={dive} />
      </DraftsAbout>
      {source && <Hero source={source} />}
      {entry?.isMade ? null : <NoFigures entry={entry} entries={entries} />}
      <FrameLater>
        <DiveReading />
      </FrameLater>
      <div className={styles.details}>
        <PlanDetails dive={dive} />
        <DiveParty dives={[dive]} />
        {trip.party.some(({ loop }) => loop !== undefined) ? <LoopPart dive={dive} /> : null}
        <AsDivedSheet dive={dive} divers={partyOf(trip, dive)} />
      </div>
      <p className={styles.end}>
        <CommandButton id="dive.swap" className="linked">
          Swap with…
        </CommandButton>
        <CommandButton id="dive.copy" className="linked">
          Duplicate
        </CommandButton>
        {entry?.isMade ? (
          <button
            type="button"
            className="linked"
            onClick={() =>
              showOverlay({
                kind: 'workings',
                figure: 'noStopMin',
                diveId: dive.id,
                diverId: entry.diver.id,
              })
            }
          >
            {words(said`Workings`)}
          </button>
        ) : null}
        <CommandButton id="dive.delete" className="linked">
          Remove
        </CommandButton>
      </p>
    </section>
  );
}

/** Why a dive has no figures: the chosen diver stays aboard, or no mix can be used there. */
function NoFigures(props: { readonly entry: Entry | null; readonly entries: readonly Entry[] }): ReactNode {
  const { entry, entries } = props;
  const words = useWords();
  const diver = useDesk(({ trip, selection }) => trip.party.find(({ id }) => id === selection.diverId));
  const isAboard = diver !== undefined && entry === null && entries.length > 0;
  return (
    <p className={styles.none}>
      {words(
        isAboard
          ? said`${diver.name} does not dive this one.`
          : said`No mix on board can be used there, so there is nothing to work out. Add one, choose another or plan it shallower.`,
      )}
    </p>
  );
}
