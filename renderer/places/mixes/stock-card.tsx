import { useMemo, useState, type ReactNode } from 'react';
import { writeStockRows } from '../../../core/formats/stock-rows';
import { slugOf } from '../../../core/library';
import { gasOfFillSaid } from '../../../core/mixes/blending-words';
import { fillPlan } from '../../../core/mixes/fills';
import type { StockRequest } from '../../../core/mixes/shares';
import type { StockList } from '../../../core/mixes/stock';
import { hasPrices, onLoopsSaid, stockPlan, type StockPlan } from '../../../core/mixes/stock-plan';
import { listSaid } from '../../../core/mixes/stock-words';
import type { Trip } from '../../../core/document/types';
import { figure, said } from '../../../core/words/said';
import { divesSaid, mixSaid, moneySaid } from '../../../core/words/terms';
import { tell } from '../../actions/edit';
import { putOnBoard } from '../../actions/mixes';
import { saveDocument } from '../../actions/save-document';
import { csvStyle } from '../../figures/csv-style';
import { useWords } from '../../parts/use-words';
import { desk } from '../../store/store';
import { FillTable } from './fill-table';
import { MixSample, mixLines } from './mix-line';
import { useFillsAsked } from './mixes-view';
import styles from './stock-card.module.css';

function Sites({ plan }: { readonly plan: StockPlan }): ReactNode {
  const words = useWords();
  const mixes = plan.ledger.trip.mixes.toSorted((a, b) => a.o2 - b.o2);
  const lines = mixLines(mixes);
  return (
    <table className={styles.rows} aria-label="Mixes by site">
      <tbody>
        {plan.sites.map(({ site, mix, dives }) => (
          <tr key={`${site.id} ${mix.id}`}>
            <th scope="row">
              <span className="name">{site.name}</span>{' '}
              <i className="soft">{words(said`${figure('depthMet', site.depthM)}`)}</i>
            </th>
            <td>
              <MixSample line={lines[mixes.findIndex(({ id }) => id === mix.id)]!} />
              {words(mixSaid(mix.analysedO2 ?? mix.o2))}
            </td>
            <td className="soft">{words(divesSaid(dives))}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Costs({ plan, trip }: { readonly plan: StockPlan; readonly trip: Trip }): ReactNode {
  const words = useWords();
  const isPriced = hasPrices(plan.ledger.trip.mixes);
  const money = (cost: number) => words(said`${moneySaid(cost, trip.currency)}`);
  return (
    <table className={styles.rows} aria-label="Fills and cost by diver">
      <thead>
        <tr>
          <th scope="col">{isPriced ? 'Fills and cost' : 'Fills'}</th>
          {plan.mixes.map(({ mix, price }) => (
            <th key={mix.id} scope="col">
              {words(gasOfFillSaid({ mix }))}
              {isPriced && price !== 'none'
                ? `, ${price === 'typed' ? '' : 'about '}${money(mix.costPerFill)}`
                : ''}
            </th>
          ))}
          {isPriced ? <th scope="col">In all</th> : null}
        </tr>
      </thead>
      <tbody>
        {plan.divers.map(({ diver, fills, cost }) => (
          <tr key={diver.id}>
            <th scope="row">{diver.name}</th>
            {fills.map((count, at) => (
              <td key={plan.mixes[at]!.mix.id}>{count === 0 ? '–' : count}</td>
            ))}
            {isPriced ? <td>{fills.every((count) => count === 0) ? '–' : money(cost)}</td> : null}
          </tr>
        ))}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row">The trip</th>
          {plan.total.fills.map((count, at) => (
            <td key={plan.mixes[at]!.mix.id}>{count}</td>
          ))}
          {isPriced ? <td>{money(plan.total.cost)}</td> : null}
        </tr>
      </tfoot>
    </table>
  );
}

/** Who dives on a loop, how that is counted, and what of it the list lacks. */
function OnLoops({ plan }: { readonly plan: StockPlan }): ReactNode {
  const words = useWords();
  const { counted, lacks } = onLoopsSaid(plan);
  if (plan.onLoops.length === 0) return null;
  return (
    <>
      {lacks.map((lack) => (
        <p key={words(lack)} className="care">
          {words(lack)}
        </p>
      ))}
      <p className="soft">{words(counted)}</p>
    </>
  );
}

/** The fills of a list that is not on board yet, for who orders the gas. */
async function saveCsv(plan: StockPlan, name: string): Promise<void> {
  const { trip, settings } = desk.getState();
  const text = writeStockRows(plan.ledger, plan.openIds, csvStyle(settings));
  await saveDocument({
    bytes: new TextEncoder().encode(text),
    name: `${slugOf(`${trip.title} stock`)}.csv`,
    mediaType: 'text/csv',
    contents: `fills with ${name} by diver, site and mix`,
  });
}

/** One list as it would be on board: who breathes what where, what each pays, and what filling takes. */
export function StockCard(props: {
  readonly list: StockList;
  readonly trip: Trip;
  readonly request: StockRequest;
  /** The trip has changed since, and the answer is being worked out again. */
  readonly isOld: boolean;
}): ReactNode {
  const { list, trip, request, isOld } = props;
  const words = useWords();
  const [showsFills, setShowsFills] = useState(false);
  const { request: asked } = useFillsAsked(trip.settings.gasLaw);
  const plan = useMemo(() => stockPlan(trip, request, list.percents), [trip, request, list]);
  const fills = useMemo(() => fillPlan(plan.ledger, asked, plan.openIds, words), [plan, asked, words]);
  const oxygenL = fills.ok ? fills.value.total.oxygenL - fills.value.loopOxygenL : 0;
  const name = words(listSaid(list));
  return (
    <aside className={styles.card} aria-label={`${name} on board`}>
      <p className="soft">On board besides air</p>
      <h3 className={styles.title}>{name}</h3>
      <Sites plan={plan} />
      <Costs plan={plan} trip={trip} />
      <OnLoops plan={plan} />
      {oxygenL > 0 ? (
        <p>
          <strong>{words(said`${figure('gasUsed', oxygenL)} of oxygen`)}</strong>{' '}
          <span className="soft">goes into them, as set under Blending and fills.</span>{' '}
          <i className="care">Blending needs training and oxygen-clean gear.</i>
        </p>
      ) : null}
      {fills.ok ? null : (
        <p className="care">
          {fills.troubles[0].what} {fills.troubles[0].mend}
        </p>
      )}
      <p className={styles.buttons}>
        <button
          type="button"
          className="button first"
          disabled={isOld}
          aria-label={`Put on board: ${name}`}
          onClick={() => tell(putOnBoard(list.percents, request.fromDate))}
        >
          Put on board
        </button>
        <button
          type="button"
          className="button"
          aria-expanded={showsFills}
          onClick={() => setShowsFills(!showsFills)}
        >
          Fills by day
        </button>
        <button type="button" className="button" disabled={isOld} onClick={() => void saveCsv(plan, name)}>
          Save the fills as CSV
        </button>
      </p>
      {showsFills && fills.ok ? <FillTable plan={fills.value} label={`Table of fills with ${name}`} /> : null}
    </aside>
  );
}
