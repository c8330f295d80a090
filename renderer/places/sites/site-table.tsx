import { useState, type FocusEvent, type ReactNode } from 'react';
import type { EditResult } from '../../actions/edit';
import type { Id } from '../../../core/document/types';
import { removeSite, setSiteDepth, setSiteName, setSiteNotes, setSitePosition } from '../../actions/sites';
import { parsePosition, positionText } from '../../figures/position';
import { Field, TextField } from '../../parts/field';
import { NotesField } from '../../parts/notes-field';
import { UnitField } from '../../parts/number-field';
import { DivesHere, MixHere } from './site-cells';
import { detailsText, SiteDetails } from './site-details';
import details from './site-details.module.css';
import type { SiteRow, SiteSort } from './site-rows';
import { sortSitesBy, useSitesView } from './sites-view';
import refusal from '../../parts/refusal-line.module.css';
import page from './sites.module.css';
import styles from './site-table.module.css';

interface Column {
  readonly sort: SiteSort;
  readonly label: string;
  readonly note?: string;
}

const COLUMNS: readonly Column[] = [
  { sort: 'name', label: 'Name' },
  { sort: 'depth', label: 'Depth' },
  { sort: 'mix', label: 'Mix', note: 'for everybody' },
  { sort: 'dives', label: 'Dives' },
  { sort: 'when', label: 'When' },
  { sort: 'position', label: 'Position' },
  { sort: 'notes', label: 'Notes' },
];

/** The sites as rows of fields. While one of them is being edited the rows keep their places. */
export function SiteTable(props: {
  readonly rows: readonly SiteRow[];
  readonly all: readonly SiteRow[];
}): ReactNode {
  const { rows, all } = props;
  const [held, setHeld] = useState<readonly Id[] | null>(null);
  const shown = held === null ? rows : held.flatMap((id) => all.find(({ site }) => site.id === id) ?? []);
  const leave = (event: FocusEvent<HTMLElement>): void => {
    if (!event.currentTarget.contains(event.relatedTarget)) setHeld(null);
  };
  return (
    <div className={styles.wide}>
      <table className={styles.table}>
        <caption className="unseen">Sites of the trip</caption>
        <thead>
          <tr>
            {COLUMNS.map((column) => (
              <Head key={column.sort} column={column} />
            ))}
            <th scope="col">
              <span className="unseen">Remove</span>
            </th>
          </tr>
        </thead>
        <tbody
          onFocus={() => {
            if (held === null) setHeld(rows.map(({ site }) => site.id));
          }}
          onBlur={leave}
        >
          {shown.map((row) => (
            <Row key={row.site.id} row={row} />
          ))}
        </tbody>
      </table>
      {shown.length === 0 ? <p className={`soft ${page.none}`}>No site has these words.</p> : null}
    </div>
  );
}

function Head({ column }: { readonly column: Column }): ReactNode {
  const sort = useSitesView((view) => view.sort);
  const isDescending = useSitesView((view) => view.isDescending);
  const isCurrent = sort === column.sort;
  return (
    <th
      scope="col"
      data-column={column.sort}
      aria-sort={isCurrent ? (isDescending ? 'descending' : 'ascending') : 'none'}
    >
      <button type="button" className={styles.sort} onClick={() => sortSitesBy(column.sort)}>
        {column.label}
        <span aria-hidden="true">{isCurrent ? (isDescending ? ' ↓' : ' ↑') : ''}</span>
      </button>
      {column.note === undefined ? null : <span className={styles.headNote}>{column.note}</span>}
    </th>
  );
}

/** The text of a field beside it, shown on paper only: a field shows one line, and cuts what is longer. */
function OnPaper({ children }: { readonly children: string }): ReactNode {
  return (
    <span className={styles.onPaper} aria-hidden="true">
      {children}
    </span>
  );
}

/** The button of the same kind in the next row, else in the one before. */
function neighbourOf(button: HTMLElement): HTMLElement | undefined {
  const buttons = [
    ...(button.closest('tbody')?.querySelectorAll<HTMLElement>('td:last-child > button:last-child') ?? []),
  ];
  const at = buttons.indexOf(button);
  return buttons[at + 1] ?? buttons[at - 1];
}

function Row({ row }: { readonly row: SiteRow }): ReactNode {
  const { site } = row;
  const [refused, setRefused] = useState<EditResult | null>(null);
  const [isOpen, setOpen] = useState(false);
  const told = detailsText(site);
  return (
    <>
      <tr data-site={site.id}>
        <th scope="row" className={styles.name}>
          <TextField
            label={`Name of ${site.name}`}
            value={site.name}
            required
            commit={(name) => setSiteName(site.id, name)}
          />
          <OnPaper>{site.name}</OnPaper>
        </th>
        <td className={styles.depth}>
          <UnitField
            label={`Depth of ${site.name}`}
            kind="depth"
            value={site.depthM}
            commit={(depthM) => setSiteDepth(site.id, depthM)}
          />
        </td>
        <MixHere row={row} />
        <DivesHere row={row} />
        <td className={styles.position}>
          <Field
            label={`Position of ${site.name}`}
            value={site.position ?? null}
            show={positionText}
            parse={parsePosition}
            commit={(position) => setSitePosition(site.id, position)}
          />
          <OnPaper>{positionText(site.position ?? null)}</OnPaper>
        </td>
        <td className={styles.notes}>
          <NotesField
            label={`Notes on ${site.name}`}
            value={site.notes}
            commit={(notes) => setSiteNotes(site.id, notes)}
          />
          {told === '' ? null : <span className={details.told}>{told}</span>}
        </td>
        <td className={styles.remove}>
          <button
            type="button"
            className={`plain ${details.more}`}
            aria-label={`More about ${site.name}`}
            aria-expanded={isOpen}
            onClick={() => setOpen(!isOpen)}
          >
            {isOpen ? 'Less' : 'More'}
          </button>
          <button
            type="button"
            className="plain"
            aria-label={`Remove ${site.name}`}
            onClick={(event) => {
              const neighbour = neighbourOf(event.currentTarget);
              const result = removeSite(site.id);
              setRefused(result.ok ? null : result);
              // The row goes, and the focus with it unless it moves on.
              if (result.ok) neighbour?.focus();
            }}
          >
            Remove
          </button>
        </td>
      </tr>
      {isOpen ? (
        <tr className={details.row}>
          <td colSpan={COLUMNS.length + 1}>
            <SiteDetails site={site} />
          </td>
        </tr>
      ) : null}
      {refused && !refused.ok ? (
        <tr className={styles.refused}>
          <td colSpan={COLUMNS.length + 1}>
            <div className={refusal.refusal} role="alert">
              {refused.troubles[0].what} {refused.troubles[0].mend}{' '}
              <button type="button" className="linked" onClick={() => setRefused(null)}>
                Dismiss
              </button>
            </div>
          </td>
        </tr>
      ) : null}
    </>
  );
}
