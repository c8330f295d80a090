import { useState, type ReactNode } from 'react';
import { addSites } from '../../actions/sites';
import { closeOverlay, goTo } from '../../actions/view';
import { Dialog } from '../../parts/dialog';
import { useDesk } from '../../store/store';
import { EMPTY_SITE_LIST, readSiteList } from './site-list';
import { SiteListInput } from './site-list-input';
import { chooseSitesView, useSitesView } from './sites-view';
import styles from './site-list-sheet.module.css';

/** Sites from a list: what was understood, row by row, before any of it goes into the trip. */
export function SiteListSheet(): ReactNode {
  const list = useSitesView((view) => view.list);
  const settings = useDesk((state) => state.settings);
  const sites = useDesk(({ trip }) => trip.sites);
  const read = readSiteList(
    list,
    settings,
    sites.map(({ name }) => name),
  );
  const { drafts } = read;
  const [refusal, setRefusal] = useState<string | null>(null);
  const count = read.sites.filter(({ isWanted }) => isWanted).length;
  const add = (): void => {
    if (!drafts || drafts.length === 0) return;
    const result = addSites(drafts);
    if (!result.ok) {
      setRefusal(`${result.troubles[0].what} ${result.troubles[0].mend}`);
      return;
    }
    chooseSitesView({ list: EMPTY_SITE_LIST });
    closeOverlay();
    goTo('sites');
  };
  return (
    <Dialog
      title="Sites from a list"
      width="wide"
      onClose={closeOverlay}
      foot={
        <>
          <p className={`care ${styles.note}`} role="status">
            {drafts === null ? 'Give the missing depths, or leave those sites out.' : refusal}
          </p>
          <button
            type="button"
            className="button first"
            disabled={!drafts || drafts.length === 0}
            onClick={add}
          >
            {count === 1 ? 'Add the site' : count === 0 ? 'Add the sites' : `Add ${count} sites`}
          </button>
        </>
      }
    >
      <SiteListInput
        label="Rows of sites"
        list={list}
        read={read}
        change={(next) => chooseSitesView({ list: next })}
        rows={read.sites.length === 0 ? 9 : 4}
      />
    </Dialog>
  );
}
