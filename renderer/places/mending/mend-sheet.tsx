import { useEffect, useMemo, useRef, type ReactNode } from 'react';
import { capital } from '../../../core/words/reader';
import { moment, said } from '../../../core/words/said';
import type { Mending, Proposal } from '../../../core/proposal/mend/proposals';
import { mendedTrip } from '../../../core/proposal/mend/carried-out';
import { MEND_NAMES, nothingToMend, toMendSaid } from '../../../core/proposal/mend/moves-said';
import type { Id, Trip } from '../../../core/document/types';
import { takeWorkedOut } from '../../actions/mending';
import { closeOverlay, showMending, showProposed } from '../../actions/view';
import { Dialog } from '../../parts/dialog';
import { useWords } from '../../parts/use-words';
import { selectDoneUntil } from '../../store/clock';
import { diveNumber } from '../../store/selectors';
import { useDesk } from '../../store/store';
import {
  cancelMending,
  chooseMend,
  draftAhead,
  leaveMending,
  requestOf,
  startMending,
  useMendView,
  type MendNow,
} from './mend-view';
import { MendWishes } from './mend-wishes';
import { ProposalCard } from './proposal-card';
import styles from './mending.module.css';

/** What the button at the foot sends. */
const FORM = 'mending';

/** "Four cautions on two dives ahead: three past a limit, one to adjust." */
function Headline({ mending }: { readonly mending: Mending }): ReactNode {
  const words = useWords();
  const { toMend, request } = mending;
  const text = words(said`${toMendSaid(toMend)}.`);
  return (
    <p className={styles.headline}>
      <strong>{capital(text)}</strong>{' '}
      {request.onlyDiveId === null
        ? 'Each proposal leaves none of them.'
        : 'Each proposal leaves none of them and brings none on another dive; cautions of other dives stay.'}{' '}
      Room, interval and what is left are those of whoever has least.
    </p>
  );
}

function Found({ mending, trip }: { readonly mending: Mending; readonly trip: Trip }): ReactNode {
  const words = useWords();
  const wanted = useMendView((view) => view.chosen);
  const { proposals, none } = mending;
  const form = useRef<HTMLFormElement>(null);
  // Arrows and Enter are the proposals' as soon as there are any; a field that is being typed in keeps them.
  useEffect(() => {
    if (document.activeElement instanceof HTMLInputElement) return;
    form.current?.querySelector<HTMLInputElement>('input:checked')?.focus();
  }, []);
  if (mending.toMend.length === 0) return <p role="status">{words(nothingToMend(mending.request))}</p>;
  const chosen = chosenOf(proposals, wanted);
  const [best] = proposals;
  // Each plan is a list of its own, also where what it does is the same.
  const isAsBest = ({ kind, plan }: Proposal): boolean =>
    kind !== 'best' && JSON.stringify(plan) === JSON.stringify(best?.plan);
  return (
    <>
      <Headline mending={mending} />
      <form
        ref={form}
        id={FORM}
        onSubmit={(event) => {
          event.preventDefault();
          if (chosen) apply(trip, chosen, words(MEND_NAMES[chosen.kind]));
        }}
      >
        <fieldset className={styles.proposals}>
          <legend className="unseen">Proposals</legend>
          {proposals.map((proposal) => (
            <ProposalCard
              key={proposal.kind}
              proposal={proposal}
              trip={trip}
              isChosen={proposal === chosen}
              isAsBest={isAsBest(proposal)}
              choose={() => chooseMend({ chosen: proposal.kind })}
            />
          ))}
          {none.map(({ kind, because }) => (
            <div key={kind} className={styles.proposal} data-none>
              <p className={styles.name}>
                <strong>{words(MEND_NAMES[kind])}</strong>
              </p>
              <p className={styles.short}>{words(because)}</p>
            </div>
          ))}
        </fieldset>
      </form>
    </>
  );
}

function chosenOf(proposals: readonly Proposal[], kind: Proposal['kind']): Proposal | undefined {
  return proposals.find((each) => each.kind === kind) ?? proposals[0];
}

function apply(trip: Trip, proposal: Proposal, name: string): void {
  const label = `Mend: ${name.charAt(0).toLowerCase()}${name.slice(1)}`;
  if (takeWorkedOut(trip, proposal.trip, label, [`Mended: ${name}.`])) closeOverlay();
}

/** How the search goes. */
function State({ now, again }: { readonly now: MendNow; readonly again: () => void }): ReactNode {
  switch (now.kind) {
    case 'searching':
      return (
        <p className={styles.progress} role="status">
          Looking for what mends the days ahead{' '}
          <progress
            aria-label="Looked through"
            value={now.total === 0 ? undefined : now.done}
            max={Math.max(1, now.total)}
          />{' '}
          <button type="button" className="linked" onClick={cancelMending}>
            Cancel
          </button>
        </p>
      );
    case 'drafting':
      return (
        <p className={styles.progress} role="status">
          Drafting the days ahead again{' '}
          <button type="button" className="linked" onClick={cancelMending}>
            Cancel
          </button>
        </p>
      );
    case 'cancelled':
      return (
        <p className={styles.progress} role="status">
          Cancelled; the trip is as it was.{' '}
          <button type="button" className="linked" onClick={again}>
            Look again
          </button>
        </p>
      );
    case 'fault':
      return (
        <p role="alert">
          <strong>The search stopped: {now.message}</strong> Try again; the trip is not touched.{' '}
          <button type="button" className="linked" onClick={again}>
            Try again
          </button>
        </p>
      );
    case 'idle':
    case 'found':
      return null;
  }
}

/** What can be done about the cautions ahead, or about those of one dive: proposals to choose from, each with what it changes and what it costs. */
export function MendSheet({ diveId }: { readonly diveId: Id | null }): ReactNode {
  const trip = useDesk((state) => state.trip);
  const units = useDesk(({ settings }) => settings.units);
  const mendCosts = useDesk(({ settings }) => settings.mendCosts);
  const doneUntilMin = useDesk(selectDoneUntil);
  const leastRoomMin = useMendView((view) => view.leastRoomMin);
  const now = useMendView((view) => view.now);
  const wanted = useMendView((view) => view.chosen);
  const request = useMemo(
    () => requestOf(trip, { units, mendCosts }, doneUntilMin, leastRoomMin, diveId),
    [trip, units, mendCosts, doneUntilMin, leastRoomMin, diveId],
  );
  // The clock goes on while somebody reads: only a dive that is done by now makes another question of it.
  const key = JSON.stringify(request);
  useEffect(() => {
    void startMending(trip, request);
    // oxlint-disable-next-line react-hooks/exhaustive-deps
  }, [trip, key]);
  useEffect(() => leaveMending, []);
  const hasAhead = request.doneCount < trip.dives.length;
  const again = async (): Promise<void> => {
    const drafted = await draftAhead(trip, request, units);
    if (drafted === null) return;
    const left = drafted.leftOut.map(({ startsAt, reason }) =>
      words(said`Left out, ${moment(startsAt)}: ${reason}.`),
    );
    const told = ['The days ahead are drafted again.', ...left] as const;
    if (takeWorkedOut(trip, drafted.trip, 'Draft the days ahead again', told)) closeOverlay();
  };
  const isFound = now.kind === 'found' && now.trip === trip;
  // Then room and costs would ask for nothing.
  const isNothing = isFound && now.mending.toMend.length === 0;
  const looked = isFound ? chosenOf(now.mending.proposals, wanted) : undefined;
  // The strip beside it shows what is looked at.
  useEffect(() => {
    showProposed(looked ? mendedTrip(trip, looked.plan, request.steps) : null);
    return () => showProposed(null);
    // oxlint-disable-next-line react-hooks/exhaustive-deps -- what was found holds for this trip and request alone
  }, [looked]);
  const words = useWords();
  const title = diveId === null ? said`Mend the days ahead` : said`Mend dive ${diveNumber(trip, diveId)}`;
  return (
    <Dialog
      title={words(title)}
      width="side"
      onClose={closeOverlay}
      foot={
        <button type="submit" form={FORM} className="button first" disabled={looked === undefined}>
          Apply, one step to undo
        </button>
      }
    >
      <div className={styles.mending}>
        <section aria-label="Proposals" className={styles.found} data-nothing={isNothing || undefined}>
          <State now={now} again={() => void startMending(trip, request)} />
          {isFound ? <Found mending={now.mending} trip={trip} /> : null}
        </section>
        <section aria-label="What is asked">
          {isNothing ? null : <MendWishes />}
          {diveId === null ? null : (
            <p className={styles.again}>
              Or{' '}
              <button type="button" className="linked" onClick={() => showMending(null)}>
                mend all the days ahead
              </button>{' '}
              together.
            </p>
          )}
          <p className={styles.again}>
            Or{' '}
            <button type="button" className="linked" disabled={!hasAhead} onClick={() => void again()}>
              draft the days ahead again
            </button>
            : sites, starts, divers and what is logged stay; depths, times and mixes are laid out afresh, with
            5 min of room.
          </p>
        </section>
      </div>
    </Dialog>
  );
}
