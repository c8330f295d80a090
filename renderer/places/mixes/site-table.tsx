import { useMemo, type ReactNode } from 'react';
import { compareMixes, compareSites, type CompareCell, type CompareRow } from '../../../core/mixes/compare';
import { writeCompareRows } from '../../../core/formats/compare-rows';
import { slugOf } from '../../../core/library';
import type { Diver, Site } from '../../../core/document/types';
import { saveDocument } from '../../actions/save-document';
import { depthText, mixText, numberText, percentText } from '../../figures/format';
import { Choice } from '../../parts/choice';
import { CommandButton } from '../../parts/command-button';
import { selectLedger } from '../../store/selectors';
import { useDesk } from '../../store/store';
import { chooseView, useMixesView } from './mixes-view';
import { gainText, moneyText, noStopText, richestText, whyText } from './mixes-words';
import { SiteChart } from './site-chart';
import { sortedRows, type SortKey } from './site-sort';
import { TypedShares } from './typed-shares';
import { WideTable } from './wide-table';

function CellBody({ cell, site }: { readonly cell: CompareCell; readonly site: Site }): ReactNode {
  const units = useDesk(({ settings }) => settings.units);
  const inTrip = useMixesView((view) => view.inTrip);
  const time = inTrip ? cell.inTrip : cell.alone;
  const gain = gainText(inTrip ? cell.inTripGainMin : cell.aloneGainMin);
  if (time === null && cell.whyNot) {
    return <span className="cell-why">{whyText(cell.whyNot, units)}</span>;
  }
  if (time === null) return <span className="soft">no dive here</span>;
  // The depth that stands beside the site's name is the site's: a dive at another says its own.
  const depth = inTrip && cell.inTrip ? depthText(cell.inTrip.depthM, units) : null;
  const isOther = depth !== null && depth !== depthText(site.depthM, units);
  return (
    <>
      <span className="figure">
        {noStopText(time)}
        {isOther ? ` at ${depth}` : ''}
      </span>
      {gain === '' || gain === '0' ? null : <span className="cell-gain"> {gain}</span>}
      {cell.otu === null ? null : (
        <span className="cell-oxygen">
          CNS {percentText(cell.cns, 'up')}, {numberText(cell.otu, 0, 'up')} OTU
        </span>
      )}
      {cell.whyNot ? (
        <span className="cell-why">not at the site’s depth: {whyText(cell.whyNot, units)}</span>
      ) : null}
      {cell.usedOn.length === 0 ? null : (
        <span className="cell-used">
          {cell.usedOn.length === 1 ? 'for 1 dive' : `for ${cell.usedOn.length} dives`}
        </span>
      )}
    </>
  );
}

function SortButton({ sort, children }: { readonly sort: SortKey; readonly children: ReactNode }): ReactNode {
  const current = useMixesView((view) => view.sort);
  const descending = useMixesView((view) => view.descending);
  const isCurrent = current === sort;
  return (
    <button
      type="button"
      className="sort"
      onClick={() => chooseView({ sort, descending: isCurrent && !descending })}
    >
      {children}
      <span aria-hidden="true">{isCurrent ? (descending ? ' ↓' : ' ↑') : ''}</span>
    </button>
  );
}

/** The head of a column that can be sorted by one thing, or by two as site and depth are. */
function SortHead(props: { readonly sorts: readonly SortKey[]; readonly children: ReactNode }): ReactNode {
  const current = useMixesView((view) => view.sort);
  const descending = useMixesView((view) => view.descending);
  const isCurrent = props.sorts.includes(current);
  return (
    <th scope="col" aria-sort={isCurrent ? (descending ? 'descending' : 'ascending') : 'none'}>
      {props.children}
    </th>
  );
}

function SiteRow({
  row,
  divers,
}: {
  readonly row: CompareRow;
  readonly divers: readonly Diver[];
}): ReactNode {
  const units = useDesk(({ settings }) => settings.units);
  const { site, diveIds } = row;
  return (
    <tr>
      <th scope="row">
        <span className="name">{site.name}</span>
        <span className="soft">
          {depthText(site.depthM, units)}
          {diveIds.length === 0
            ? ', not dived'
            : diveIds.length === 1
              ? ', 1 dive'
              : `, ${diveIds.length} dives`}
        </span>
      </th>
      <td className="richest">{richestText(row.richest)}</td>
      <td className="chart-cell">
        <SiteChart row={row} divers={divers} />
      </td>
      {row.cells.map((cell) => (
        <td key={cell.mix.id} className={cell.allowed ? '' : 'not-allowed'}>
          <CellBody cell={cell} site={site} />
        </td>
      ))}
    </tr>
  );
}

async function saveCsv(title: string, rows: readonly CompareRow[]): Promise<void> {
  const bytes = new TextEncoder().encode(writeCompareRows(rows));
  await saveDocument({
    bytes,
    name: `${slugOf(`${title} mixes`)}.csv`,
    mediaType: 'text/csv',
    contents: rows.length === 1 ? 'one row' : `${rows.length} rows`,
  });
}

function Tools({ rows }: { readonly rows: readonly CompareRow[] }): ReactNode {
  const party = useDesk(({ trip }) => trip.party);
  const title = useDesk(({ trip }) => trip.title);
  const { diverId, inTrip } = useMixesView((view) => view);
  return (
    <div className="mixes-tools">
      <Choice
        label="Whose figures"
        value={diverId ?? ''}
        options={[
          { value: '', label: 'The party’s tightest' },
          ...party.map(({ id, name }) => ({ value: id, label: name })),
        ]}
        commit={(id) => chooseView({ diverId: id === '' ? null : id })}
      />
      <Choice
        label="No-stop time"
        value={inTrip ? 'trip' : 'alone'}
        options={[
          { value: 'trip', label: 'In the trip as it stands' },
          { value: 'alone', label: 'Alone, as a first dive' },
        ]}
        commit={(value) => chooseView({ inTrip: value === 'trip' })}
      />
      <TypedShares />
      <div className="mixes-buttons">
        <button type="button" className="button" onClick={() => void saveCsv(title, rows)}>
          Save as CSV
        </button>
        <CommandButton id="trip.print" className="button">
          Print
        </CommandButton>
      </div>
    </div>
  );
}

/** Sites down, mixes across: may it go there, for how long, and what it costs in oxygen. */
export function SiteTable(): ReactNode {
  const ledger = useDesk(selectLedger);
  const { typedPercents, diverId, sort, descending, inTrip } = useMixesView((view) => view);
  const { trip } = ledger;
  // A diver who has left the party leaves the choice.
  const chosenId = trip.party.some(({ id }) => id === diverId) ? diverId : null;
  const columns = useMemo(() => compareMixes(trip, typedPercents), [trip, typedPercents]);
  const rows = useMemo(() => compareSites(ledger, columns, chosenId), [ledger, columns, chosenId]);
  const divers = useMemo(
    () => (chosenId === null ? trip.party : trip.party.filter(({ id }) => id === chosenId)),
    [trip.party, chosenId],
  );
  const sorted = useMemo(() => sortedRows(rows, sort, descending, inTrip), [rows, sort, descending, inTrip]);
  const noMix = rows.filter(({ cells }) => cells.every((cell) => !cell.allowed));
  if (trip.sites.length === 0) return <p className="soft">No sites yet: add them under Sites.</p>;
  return (
    <section aria-label="Mixes at the sites">
      <Tools rows={sorted} />
      {noMix.length === 0 ? null : (
        <p className="care" role="status">
          No mix suits everybody at {noMix.map(({ site }) => site.name).join(', ')}: plan{' '}
          {noMix.length === 1 ? 'it' : 'them'} shallower, or without whoever it does not suit.
        </p>
      )}
      <WideTable label="Table of sites and mixes">
        <table className="sites-by-mixes">
          <caption className="unseen">
            No-stop time {inTrip ? 'in the trip as it stands' : 'alone'} by site and mix, minutes gained over
            air, oxygen of the dive that costs most, and dives that would use the mix
          </caption>
          <thead>
            <tr>
              <SortHead sorts={['site', 'depth']}>
                <SortButton sort="site">Site</SortButton> <SortButton sort="depth">Depth</SortButton>
              </SortHead>
              <SortHead sorts={['richest']}>
                <SortButton sort="richest">Richest that suits</SortButton>
              </SortHead>
              <th scope="col">
                By oxygen
                <span className="head-note">line: no-stop time; dashes: MOD</span>
              </th>
              {columns.map((mix) => (
                <SortHead key={mix.id} sorts={[`mix:${mix.id}`]}>
                  <SortButton sort={`mix:${mix.id}`}>{mixText(mix.analysedO2 ?? mix.o2)}</SortButton>
                  <span className="head-note">{moneyText(mix.costPerFill, trip.currency)} a fill</span>
                </SortHead>
              ))}
            </tr>
          </thead>
          <tbody>
            {sorted.map((row) => (
              <SiteRow key={row.site.id} row={row} divers={divers} />
            ))}
          </tbody>
        </table>
      </WideTable>
      <p className="mixes-note">
        {chosenId === null ? 'The party’s tightest' : divers[0]?.name},{' '}
        {inTrip
          ? 'in the trip as it stands: at the tightest of the site’s dives, with what is carried into it, at the depth of that dive, which is named where it is not the site’s'
          : 'alone: a first dive at the depth of the site'}
        . Minutes of no-stop time, and how many more than air would give; limits are rounded down, oxygen up.
      </p>
    </section>
  );
}
