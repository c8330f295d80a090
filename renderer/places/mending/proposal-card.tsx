import type { ReactNode } from 'react';
import { figureChanges } from '../../../core/proposal/mend/figures-said';
import { changeSaid, MEND_NAMES } from '../../../core/proposal/mend/moves-said';
import type { DiveChange, Proposal } from '../../../core/proposal/mend/proposals';
import { siteName } from '../../../core/document/site-of';
import type { Trip } from '../../../core/document/types';
import { momentAt } from '../../../core/words/calendar';
import { keptTogether } from '../../../core/line-breaks';
import { dayOf, said, timeOfDay } from '../../../core/words/said';
import { NONE } from '../../../core/words/terms';
import { useWords } from '../../parts/use-words';
import styles from './mending.module.css';

interface CardProps {
  readonly proposal: Proposal;
  readonly trip: Trip;
  readonly isChosen: boolean;
  /** What the best overall changes, this changes too, and no more. */
  readonly isAsBest: boolean;
  readonly choose: () => void;
}

function ChangeRow({
  change,
  proposal,
  trip,
}: Pick<CardProps, 'proposal' | 'trip'> & { change: DiveChange }) {
  const words = useWords();
  const { dive } = change.before;
  const site = siteName(trip, dive);
  const treatment = proposal.plan[trip.dives.findIndex(({ id }) => id === change.diveId)]!;
  const day = dayOf(dive.startsAt.slice(0, 10), 'weekday');
  return (
    <tr>
      <th scope="row">
        <span>{words(said`${day}, ${timeOfDay(dive.startsAt.slice(11, 16))} ${site}`)}</span>
        <strong>{keptTogether(words(changeSaid(trip, dive, change.after?.dive ?? null, treatment)))}</strong>
      </th>
      <td>
        {figureChanges(change).map(({ head, before, after }) => (
          <span key={words(head)} className={styles.figure}>
            {words(head)} {words(before)} <span aria-hidden="true">→</span>
            <span className="unseen">, then </span> <strong>{words(after)}</strong>
          </span>
        ))}
      </td>
    </tr>
  );
}

/** What a proposal changes, dive by dive, and what comes of it. */
function Changes({ proposal, trip }: Pick<CardProps, 'proposal' | 'trip'>): ReactNode {
  const words = useWords();
  const { before, after } = proposal.flyAfter;
  return (
    <table className={styles.changes}>
      <caption className="unseen">{words(said`What ${MEND_NAMES[proposal.kind]} changes`)}</caption>
      <tbody>
        {proposal.changes.map((change) => (
          <ChangeRow key={change.diveId} change={change} proposal={proposal} trip={trip} />
        ))}
        {before === after || after === null ? null : (
          <tr>
            <th scope="row">
              <span>No flying before</span>
            </th>
            <td>
              <span className={styles.figure}>
                {before === null ? NONE : words(said`${momentAt(before)}`)} <span aria-hidden="true">→</span>
                <span className="unseen">, then </span> <strong>{words(said`${momentAt(after)}`)}</strong>
              </span>
            </td>
          </tr>
        )}
      </tbody>
    </table>
  );
}

/** The moves in one line, for a proposal that is not opened. */
function Short({ proposal, trip }: Pick<CardProps, 'proposal' | 'trip'>): ReactNode {
  const words = useWords();
  const parts = proposal.changes.map(({ before, after, diveId }) => {
    const treatment = proposal.plan[trip.dives.findIndex(({ id }) => id === diveId)]!;
    const { startsAt } = before.dive;
    const when = said`${dayOf(startsAt.slice(0, 10), 'weekday')}, ${timeOfDay(startsAt.slice(11, 16))}`;
    return words(said`${when}: ${changeSaid(trip, before.dive, after?.dive ?? null, treatment)}`);
  });
  return <p className={styles.short}>{keptTogether(parts.join('. '))}.</p>;
}

/** One proposal to choose; the chosen one is opened. */
export function ProposalCard(props: CardProps): ReactNode {
  const { proposal, trip, isChosen, isAsBest, choose } = props;
  const { kind, cost, atLeast } = proposal;
  const words = useWords();
  return (
    <div className={styles.proposal} data-chosen={isChosen || undefined}>
      <label className={styles.name}>
        <input type="radio" name="mending" checked={isChosen} onChange={choose} />
        <strong>{words(MEND_NAMES[kind])}</strong>
        <span className={styles.cost}>
          {atLeast === cost ? `cost ${cost}` : `cost ${cost}; none is below ${atLeast}`}
        </span>
      </label>
      {isAsBest ? <p className={styles.short}>The best overall does that already.</p> : null}
      {isChosen ? <Changes proposal={proposal} trip={trip} /> : null}
      {isChosen || isAsBest ? null : <Short proposal={proposal} trip={trip} />}
    </div>
  );
}
