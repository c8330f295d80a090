import type { ReactNode } from 'react';
import type { Caution } from '../../../../core/cautions/caution';
import { toldTogether } from '../../../../core/cautions/told-together';
import { siteOf } from '../../../../core/document/site-of';
import type { Dive } from '../../../../core/document/types';
import type { Entry } from '../../../../core/ledger/ledger-types';
import { capital } from '../../../../core/words/reader';
import { dayOf, said } from '../../../../core/words/said';
import { countSaid, ordinalSaid } from '../../../../core/words/terms';
import { showOverlay } from '../../../actions/view';
import { CautionItems } from '../../../parts/caution-list';
import { CommandButton } from '../../../parts/command-button';
import { lazily } from '../../../parts/lazily';
import { DraftsAbout } from '../../../parts/use-draft';
import { useWords } from '../../../parts/use-words';
import { memo } from '../../../store/memo';
import {
  diveNumber,
  diveOfDay,
  entriesOf,
  partyOf,
  roomOfEntry,
  secondOpinionOf,
  selectCautions,
  shownEntry,
} from '../../../store/selectors';
import { useDesk } from '../../../store/store';
import { AsDivedSheet } from './as-dived';
import { DiveFields } from './dive-fields';
import { DiveParty } from './dive-party';
import { Hero } from './hero';
import { Outcome } from './outcome';
import { PlanDetails } from './plan-details';
import { Who } from './who';
import { STAND_IN } from '../stand-in';
import styles from './card.module.css';

/** Few parties have a loop. */
const LoopPart = lazily(async () => (await import('./loop-part')).LoopPart, STAND_IN);

const cautionsOfDive = memo((cautions: readonly Caution[], diveId: string): readonly Caution[] =>
  cautions.filter((caution) => caution.diveId === diveId),
);

/** So many stand open; a party of twelve can raise a page of them. */
const SHOWN = 4;

/** Everything about the chosen dive: what is planned, what comes of it at a glance, the room of each, all the rest. */
export function DiveCard({ dive }: { readonly dive: Dive }): ReactNode {
  const words = useWords();
  const trip = useDesk((state) => state.trip);
  const entries = useDesk((state) => entriesOf(state, dive.id));
  const entry = useDesk((state) => shownEntry(state, dive.id));
  const cautions = useDesk((state) => cautionsOfDive(selectCautions(state), dive.id));
  const site = siteOf(trip, dive);
  const number = diveNumber(trip, dive.id);
  const day = dayOf(dive.startsAt.slice(0, 10), 'weekday');
  const place = said`${day}, ${ordinalSaid(diveOfDay(trip, dive))} dive`;
  return (
    <section className={styles.card} aria-label={words(said`Dive ${number}`)}>
      <p className={styles.eyebrow}>
        <span>{words(entry?.isAsDived ? said`${place}, as dived` : place)}</span>
        <CautionCount cautions={cautions} />
        <span>{words(said`${number} of ${trip.dives.length}`)}</span>
      </p>
      <h2 className="unseen">{site?.name ?? dive.siteId}</h2>
      {/* Each dive has its own drafts: what was being typed for one must not show in another. */}
      <DraftsAbout value={dive.id}>
        <DiveFields dive={dive} />
      </DraftsAbout>
      {entry?.isMade ? <Figures entry={entry} entries={entries} cautions={cautions} /> : null}
      {entry?.isMade ? null : (
        <>
          <NoFigures entry={entry} entries={entries} />
          {entry ? <Who entries={entries} shown={entry} /> : null}
          <Cautions cautions={cautions} />
        </>
      )}
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

function Figures(props: {
  readonly entry: Entry;
  readonly entries: readonly Entry[];
  readonly cautions: readonly Caution[];
}): ReactNode {
  const { entry, entries, cautions } = props;
  const room = useDesk((state) => roomOfEntry(state, entry));
  const opinion = useDesk((state) => secondOpinionOf(state, entry));
  if (!room) return null;
  const source = { entry, room, opinion };
  return (
    <>
      <Hero source={source} />
      <Who entries={entries} shown={entry} />
      <Cautions cautions={cautions} />
      <Outcome source={source} />
    </>
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

function Cautions({ cautions }: { readonly cautions: readonly Caution[] }): ReactNode {
  const trip = useDesk((state) => state.trip);
  if (cautions.length === 0) return null;
  return (
    <div id="cautions-of-dive" tabIndex={-1} className={styles.cautions}>
      <CautionItems cautions={cautions} trip={trip} open={SHOWN} />
    </div>
  );
}

/** The gravest of the dive's cautions by number, beside its date: what is below must not be missed. */
function CautionCount({ cautions }: { readonly cautions: readonly Caution[] }): ReactNode {
  const words = useWords();
  const told = toldTogether(cautions);
  const stops = told.filter(({ caution }) => caution.severity === 'stop').length;
  const changes = told.filter(({ caution }) => caution.severity === 'change').length;
  if (stops + changes === 0) return null;
  return (
    <a href="#cautions-of-dive">
      {capital(
        words(stops > 0 ? said`${countSaid(stops)} over a limit` : said`${countSaid(changes)} to adjust`),
      )}
    </a>
  );
}
