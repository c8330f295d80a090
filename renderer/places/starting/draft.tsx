import type { ReactNode } from 'react';
import type { StartingTrip } from '../../../core/proposal/starting-sheet';
import { countText, spanText } from '../../figures/format';
import type { ReadSiteList } from '../sites/site-list';
import { DraftTable } from './draft-table';
import { isWithoutSites, listFault } from './starting-form';
import { changeForm, useStartingView } from './starting-view';
import styles from './starting.module.css';

/** What the answers come to: the days, and the reasons; or what stands in the way. */
export function Draft({ read }: { readonly read: ReadSiteList }): ReactNode {
  const laidOut = useStartingView((view) => view.laidOut);
  const latest = useStartingView((view) => view.latest);
  const form = useStartingView((view) => view.form);
  return (
    <section className={styles.draft} aria-label="The draft" aria-busy={laidOut.kind === 'working'}>
      <h3>The draft</h3>
      {laidOut.kind === 'none' ? (
        <p className="soft" role="status">
          {listFault(read)}
        </p>
      ) : null}
      {laidOut.kind === 'working' ? (
        <p className="soft" role="status">
          Drafting…
        </p>
      ) : null}
      {laidOut.kind === 'fault' ? (
        <p className="care" role="alert">
          No draft: {laidOut.message} Change an answer to try again; nothing typed is lost.
        </p>
      ) : null}
      {laidOut.kind === 'done' && !laidOut.result.ok ? (
        <p className="soft" role="status">
          {isWithoutSites(form)
            ? 'Give the sites, and the days of the trip appear here.'
            : 'One of the answers cannot be used; the reason is beside it.'}
        </p>
      ) : null}
      {laidOut.kind === 'done' && laidOut.result.ok ? <Sum draft={laidOut.result.value} /> : null}
      {/* While it is drafted anew the draft before stays in sight: a choice of one dive keeps its place. */}
      {latest !== null && (laidOut.kind === 'working' || laidOut.kind === 'done') ? (
        <DraftTable draft={latest} />
      ) : null}
      {laidOut.kind === 'done' && laidOut.result.ok ? <Reasons draft={laidOut.result.value} /> : null}
    </section>
  );
}

function Sum({ draft }: { readonly draft: StartingTrip }): ReactNode {
  const { dives } = draft.trip;
  const days = new Set(dives.map(({ startsAt }) => startsAt.slice(0, 10))).size;
  const bottomMin = dives.reduce((sum, dive) => sum + dive.bottomMin, 0);
  return (
    <p role="status">
      {dives.length === 0
        ? 'No dive fits. The reasons are below.'
        : `${dives.length === 1 ? 'One dive' : `${dives.length} dives`} on ${days === 1 ? 'one day' : `${countText(days)} days`}, ${spanText(bottomMin, 'near')} of bottom time, all within limits.`}
    </p>
  );
}

function Reasons({ draft }: { readonly draft: StartingTrip }): ReactNode {
  const keepsReasons = useStartingView(({ form }) => form.keepsReasons);
  return (
    <>
      <h3>Why it looks like this</h3>
      <ul className={styles.reasons}>
        {draft.explanations.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
      <label className={styles.tick}>
        <input
          type="checkbox"
          checked={keepsReasons}
          onChange={(event) => changeForm({ keepsReasons: event.target.checked })}
        />
        Keep the reasons in the trip’s notes
      </label>
    </>
  );
}
