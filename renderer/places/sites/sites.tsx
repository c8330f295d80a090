import { useLayoutEffect, type ReactNode } from 'react';
import { capital } from '../../../core/words/reader';
import type { Trip } from '../../../core/document/types';
import { showOverlay } from '../../actions/view';
import { countText } from '../../figures/format';
import { CommandButton } from '../../parts/command-button';
import { memo } from '../../store/memo';
import { useDesk } from '../../store/store';
import { AddSite } from './add-site';
import { listOf } from './site-list';
import { foundSites, siteRows, sortedSites, type SiteRow } from './site-rows';
import { SiteTable } from './site-table';
import { chooseSitesView, useSitesView } from './sites-view';
import field from '../../parts/field.module.css';
import styles from './sites.module.css';
import { isDialogOpen } from '../../parts/open-dialog';

const rowsOf = memo((trip: Trip) => siteRows(trip));

/** Sites: where the trip dives, how deep, when, and what may be breathed there. */
export function Sites(): ReactNode {
  const rows = useDesk(({ trip }) => rowsOf(trip));
  const { sort, isDescending, typed } = useSitesView((view) => view);
  const found = foundSites(rows, typed);
  // With the first frame, not behind it: what is pasted at once is heard.
  useLayoutEffect(() => {
    document.addEventListener('paste', onPaste);
    return () => document.removeEventListener('paste', onPaste);
  }, []);
  return (
    <section className={styles.sites} aria-label="Sites">
      <header className={styles.head}>
        <h2>Sites</h2>
        <p className={styles.sentence}>{sentenceOf(rows)}</p>
        <Filter shown={found.length} all={rows.length} />
      </header>
      {rows.length === 0 ? (
        <p className={styles.none}>
          No sites yet. Type the first one below, or paste rows of a spreadsheet anywhere on this page.
        </p>
      ) : (
        <SiteTable rows={sortedSites(found, sort, isDescending)} all={rows} />
      )}
      <div className={styles.end}>
        <AddSite />
        <div className={styles.buttons}>
          <CommandButton id="sites.list" className="button" />
          <CommandButton id="save.sites-csv" className="button" />
          <CommandButton id="save.sites-gpx" className="button" />
        </div>
      </div>
    </section>
  );
}

/** Rows pasted anywhere on the page are a list of sites; a single cell pasted into a field is its text. */
function onPaste(event: ClipboardEvent): void {
  if (event.defaultPrevented || isDialogOpen()) return;
  const text = event.clipboardData?.getData('text/plain') ?? '';
  const { target } = event;
  const isInField = target instanceof HTMLElement && target.matches('input, textarea, select');
  const isRows = /[\t\n]/.test(text.trim());
  // Notes are the one field that holds lines of its own.
  const isInNotes = target instanceof HTMLTextAreaElement;
  if (text.trim() === '' || isInNotes || (isInField && !isRows)) return;
  event.preventDefault();
  chooseSitesView({ list: listOf(text) });
  showOverlay({ kind: 'site-list' });
}

function sentenceOf(rows: readonly SiteRow[]): string {
  if (rows.length === 0) return '';
  const idle = rows.filter(({ dives }) => dives.length === 0).length;
  const unsuited = rows.filter(({ withoutMix }) => withoutMix.length > 0).length;
  const all = `${capital(countText(rows.length))} ${rows.length === 1 ? 'site' : 'sites'}`;
  return [
    idle === 0 ? `${all}, ${rows.length === 1 ? 'and it is dived' : 'all of them dived'}.` : '',
    idle > 0
      ? `${all}, ${idle === rows.length ? 'none' : countText(idle)} of them ${idle === rows.length ? 'dived yet' : 'not dived'}.`
      : '',
    unsuited > 0 ? `At ${countText(unsuited)} nothing on board suits everybody.` : '',
  ]
    .filter((part) => part !== '')
    .join(' ');
}

function Filter({ shown, all }: { readonly shown: number; readonly all: number }): ReactNode {
  const typed = useSitesView((view) => view.typed);
  if (all === 0) return null;
  return (
    <div className={`${field.field} ${styles.filter}`}>
      <label htmlFor="sites-filter">Find by name or notes</label>
      <input
        id="sites-filter"
        type="search"
        autoComplete="off"
        spellCheck={false}
        value={typed}
        onChange={(event) => chooseSitesView({ typed: event.target.value })}
        onKeyDown={(event) => {
          if (event.key !== 'Escape' || typed === '') return;
          event.stopPropagation();
          chooseSitesView({ typed: '' });
        }}
      />
      <div className={field.hint} role="status">
        {typed.trim() === '' ? '' : `${shown} of ${all}`}
      </div>
    </div>
  );
}
