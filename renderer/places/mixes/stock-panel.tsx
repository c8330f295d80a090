import type { ReactNode } from 'react';
import { checkedRequest, listCount } from '../../../core/mixes/shares';
import type { Trouble } from '../../../core/result';
import { useDesk } from '../../store/store';
import { chooseView, useMixesView } from './mixes-view';
import { StockForm } from './stock-form';
import { StockResults } from './stock-results';
import { cancelSearch, startSearch, useStockSearch, type StockSearch } from './stock-search';

function Troubles({ troubles }: { readonly troubles: readonly Trouble[] }): ReactNode {
  return (
    <div className="mixes-troubles" role="alert">
      {troubles.map(({ what, mend }) => (
        <p key={what}>
          <strong>{what}</strong> {mend}
        </p>
      ))}
    </div>
  );
}

function Under({ search }: { readonly search: StockSearch }): ReactNode {
  if (search.kind !== 'searching') return null;
  return (
    <div className="search-bar" role="status">
      <label>
        Searching
        <progress value={search.total === 0 ? undefined : search.done} max={Math.max(1, search.total)} />
      </label>
      <button type="button" className="button" onClick={cancelSearch}>
        Cancel
      </button>
    </div>
  );
}

/** What the boat should stock: the question, the search, and the lists that nothing beats. */
export function StockPanel(): ReactNode {
  const trip = useDesk((state) => state.trip);
  const request = useMixesView((view) => view.request);
  const search = useStockSearch();
  const checked = checkedRequest(trip, request);
  const lists = checked.ok ? listCount(checked.value) : 0;
  return (
    <section aria-label="What to stock" className="stock">
      <StockForm trip={trip} request={request} change={(next) => chooseView({ request: next })} />
      {checked.ok ? null : <Troubles troubles={checked.troubles} />}
      <div className="search-start">
        <button
          type="button"
          className="button first"
          disabled={!checked.ok || trip.dives.length === 0 || search.kind === 'searching'}
          onClick={() => void startSearch(trip, request)}
        >
          Search
        </button>
        <span className="soft">
          {trip.dives.length === 0
            ? 'No dives yet: there is nothing to stock for.'
            : checked.ok
              ? `${lists === 1 ? 'One list' : `${lists} lists`} to choose from.`
              : ''}
        </span>
      </div>
      <Under search={search} />
      {search.kind === 'cancelled' ? <p role="status">Cancelled; nothing has changed.</p> : null}
      {search.kind === 'troubles' ? <Troubles troubles={search.troubles} /> : null}
      {search.kind === 'answer' ? (
        <StockResults answer={search.answer} isOld={search.trip !== trip} trip={search.trip} />
      ) : null}
    </section>
  );
}
