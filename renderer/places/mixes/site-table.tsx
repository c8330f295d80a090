import { useMemo, useState, type ReactNode } from 'react';
import { compareMixes, compareSites, type CompareCell, type CompareRow } from '../../../core/mixes/compare';
import { nearestSaid, reachSaid } from '../../../core/mixes/compare-words';
import { writeCompareRows } from '../../../core/formats/compare-rows';
import { slugOf } from '../../../core/library';
import { saveDocument } from '../../actions/save-document';
import { csvStyle } from '../../figures/csv-style';
import { depthText, mixText, numberText, percentText } from '../../figures/format';
import { CommandButton } from '../../parts/command-button';
import { useWords } from '../../parts/use-words';
import { selectLedger } from '../../store/selectors';
import { desk, useDesk } from '../../store/store';
import { chooseView, useMixesView } from './mixes-view';
import { gainText, moneyText, noStopText, richestText, whyText } from './mixes-words';
import { WordChoice } from './in-sentence';
import { MixSample, mixLines, type MixLine } from './mix-line';
import { SeaChart, type Pointed } from './sea-chart';
import { sortedRows, type SortKey } from './site-sort';
import { TypedShares } from './typed-shares';
import { WideTable } from './wide-table';
import styles from './site-table.module.css';

function CellBody({
  cell,
  row,
  line,
}: {
  readonly cell: CompareCell;
  readonly row: CompareRow;
  readonly line: MixLine;
}): ReactNode {
  const units = useDesk(({ settings }) => settings.units);
  const inTrip = useMixesView((view) => view.inTrip);
  const { site, tightest } = row;
  const time = inTrip ? cell.inTrip : cell.alone;
  const gain = gainText(inTrip ? cell.inTripGainMin : cell.aloneGainMin);
  if (time === null && cell.whyNot) {
    return <span className={styles.why}>{whyText(cell.whyNot, units)}</span>;
  }
  if (time === null) return <span className="soft">no dive here</span>;
  // Every time stands beside the depth it is for: the site's, or that of the dive.
  const depth = depthText(inTrip && cell.inTrip ? cell.inTrip.depthM : site.depthM, units);
  const isUsed = inTrip && tightest?.mix.id === cell.mix.id;
  return (
    <>
      {isUsed ? (
        <svg
          className={styles.used}
          width={9}
          height={9}
          role="img"
          aria-label="The mix of its tightest dive:"
        >
          <circle cx={4.5} cy={4.5} r={4.5} fill={line.colour} />
        </svg>
      ) : null}
      <span className="figure">{noStopText(time)}</span> <span className={styles.at}>at {depth}</span>
      {gain === '' || gain === '0' ? null : <span className={styles.gain}> {gain}</span>}
      {cell.otu === null ? null : (
        <span className={styles.oxygen}>
          {' '}
          CNS {percentText(cell.cns, 'up')}, {numberText(cell.otu, 0, 'up')} OTU
        </span>
      )}
      {cell.whyNot ? (
        <span className={styles.why}> not at the site’s depth: {whyText(cell.whyNot, units)}</span>
      ) : null}
      {cell.usedOn.length === 0 ? null : (
        <span className={styles.oxygen}>
          , for {cell.usedOn.length === 1 ? '1 dive' : `${cell.usedOn.length} dives`}
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
      className={styles.sort}
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

function SiteRow(props: {
  readonly row: CompareRow;
  readonly lines: readonly MixLine[];
  readonly pointed: Pointed | null;
  readonly point: (at: Pointed | null) => void;
}): ReactNode {
  const { row, lines, pointed, point } = props;
  const units = useDesk(({ settings }) => settings.units);
  const { site, diveIds } = row;
  const dives =
    diveIds.length === 0 ? 'not dived' : diveIds.length === 1 ? '1 dive' : `${diveIds.length} dives`;
  return (
    <tr data-pointed={pointed?.siteId === site.id || undefined} onMouseLeave={() => point(null)}>
      <th scope="row">
        <span className="name">{site.name}</span> <i className="soft">{depthText(site.depthM, units)}</i>
        <span className={styles.oxygen}>, {dives}</span>
      </th>
      <td>{richestText(row.richest)}</td>
      {row.cells.map((cell, at) => (
        <td
          key={cell.mix.id}
          data-pointed={(pointed?.siteId === site.id && pointed.mixId === cell.mix.id) || undefined}
          onMouseEnter={() => point({ siteId: site.id, mixId: cell.mix.id })}
        >
          <CellBody cell={cell} row={row} line={lines[at]!} />
        </td>
      ))}
    </tr>
  );
}

async function saveCsv(title: string, rows: readonly CompareRow[]): Promise<void> {
  const bytes = new TextEncoder().encode(writeCompareRows(rows, csvStyle(desk.getState().settings)));
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
  const hasDives = useDesk(({ trip }) => trip.dives.length > 0);
  const { diverId, inTrip } = useMixesView((view) => view);
  return (
    <div className={styles.tools}>
      <span>
        No-stop time{' '}
        <WordChoice
          label="No-stop time"
          value={inTrip && hasDives ? 'trip' : 'alone'}
          options={[
            ...(hasDives ? [{ value: 'trip', label: 'in the trip as planned' }] : []),
            { value: 'alone', label: 'as a first dive' },
          ]}
          commit={(value) => chooseView({ inTrip: value === 'trip' })}
        />{' '}
        for{' '}
        <WordChoice
          label="Whose figures"
          value={diverId ?? ''}
          options={[
            { value: '', label: 'the party’s tightest' },
            ...party.map(({ id, name }) => ({ value: id, label: name })),
          ]}
          commit={(id) => chooseView({ diverId: id === '' ? null : id })}
        />
        {hasDives ? '' : ' No dives yet: within the trip there is nothing to tell.'}
      </span>
      <TypedShares />
      <span className={styles.links}>
        <button type="button" className="linked" onClick={() => void saveCsv(title, rows)}>
          Save as CSV
        </button>
        <CommandButton id="trip.print" className="linked">
          Print
        </CommandButton>
      </span>
    </div>
  );
}

/** Sites down, mixes across: may it go there, for how long, and what it costs in oxygen. */
export function SiteTable(): ReactNode {
  const words = useWords();
  const ledger = useDesk(selectLedger);
  const units = useDesk(({ settings }) => settings.units);
  const { typedPercents, diverId, sort, descending, inTrip: wantsTrip } = useMixesView((view) => view);
  const [pointed, setPointed] = useState<Pointed | null>(null);
  const { trip } = ledger;
  const inTrip = wantsTrip && trip.dives.length > 0;
  // A diver who has left the party leaves the choice.
  const chosenId = trip.party.some(({ id }) => id === diverId) ? diverId : null;
  const columns = useMemo(() => compareMixes(trip, typedPercents), [trip, typedPercents]);
  const lines = useMemo(() => mixLines(columns), [columns]);
  const rows = useMemo(() => compareSites(ledger, columns, chosenId), [ledger, columns, chosenId]);
  const divers = useMemo(
    () => (chosenId === null ? trip.party : trip.party.filter(({ id }) => id === chosenId)),
    [trip.party, chosenId],
  );
  const sorted = useMemo(() => sortedRows(rows, sort, descending, inTrip), [rows, sort, descending, inTrip]);
  const byDepth = useMemo(() => sortedRows(rows, 'depth', false, inTrip), [rows, inTrip]);
  const noMix = rows.filter(({ cells }) => cells.every((cell) => !cell.allowed));
  if (trip.sites.length === 0) {
    return (
      <p className="soft">
        No sites yet: add one under Sites, or see in class what each mix allows by depth.
      </p>
    );
  }
  return (
    <section aria-label="Mixes at the sites" className={styles.sites}>
      <p className={styles.answer}>
        {words(reachSaid(byDepth))}{' '}
        {inTrip ? <i className="care">{words(nearestSaid(byDepth, trip))}</i> : null}
      </p>
      <Tools rows={sorted} />
      {noMix.length === 0 ? null : (
        <p className="care" role="status">
          No mix suits everybody at {noMix.map(({ site }) => site.name).join(', ')}: plan{' '}
          {noMix.length === 1 ? 'it' : 'them'} shallower, or without whoever it does not suit.
        </p>
      )}
      <SeaChart
        trip={trip}
        rows={byDepth}
        divers={divers}
        inTrip={inTrip}
        units={units}
        pointed={pointed}
        point={setPointed}
      />
      <WideTable label="Table of sites and mixes">
        <table className={styles.table}>
          <caption className="unseen">
            No-stop time {inTrip ? 'in the trip as it stands' : 'alone'} by site and mix, each with its depth,
            minutes gained over air, oxygen of the dive that costs most, and dives that would use the mix
          </caption>
          <thead>
            <tr>
              <SortHead sorts={['site', 'depth']}>
                <SortButton sort="site">Site</SortButton> <SortButton sort="depth">Depth</SortButton>
              </SortHead>
              <SortHead sorts={['richest']}>
                <SortButton sort="richest">Best mix</SortButton>
              </SortHead>
              {columns.map((mix, at) => (
                <SortHead key={mix.id} sorts={[`mix:${mix.id}`]}>
                  <MixSample line={lines[at]!} />
                  <SortButton sort={`mix:${mix.id}`}>{mixText(mix.analysedO2 ?? mix.o2)}</SortButton>
                  <span className={styles.oxygen}>{moneyText(mix.costPerFill, trip.currency)} a fill</span>
                </SortHead>
              ))}
            </tr>
          </thead>
          <tbody>
            {sorted.map((row) => (
              <SiteRow key={row.site.id} row={row} lines={lines} pointed={pointed} point={setPointed} />
            ))}
          </tbody>
        </table>
      </WideTable>
      <p className={styles.note}>
        {chosenId === null ? 'The party’s tightest' : divers[0]?.name},{' '}
        {inTrip
          ? 'in the trip as it stands: at the tightest of the site’s dives, with what is carried into it, at the depth of its deepest level'
          : 'alone: a first dive at the depth of the site'}
        . Minutes of no-stop time, and how many more than air would give; limits are rounded down, oxygen up.
      </p>
    </section>
  );
}
