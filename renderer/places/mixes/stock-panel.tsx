import { memo, useMemo, useState, type ReactNode } from 'react';
import { checkedRequest, listCount } from '../../../core/mixes/shares';
import type { StockAnswer } from '../../../core/mixes/stock';
import {
  alwaysOutsideSaid,
  decidingMeasure,
  listSaid,
  recommendationSaid,
} from '../../../core/mixes/stock-words';
import { divesSaid } from '../../../core/words/terms';
import { said } from '../../../core/words/said';
import { mixText } from '../../figures/format';
import { useWords } from '../../parts/use-words';
import { useDesk } from '../../store/store';
import { chooseView, useMixesView } from './mixes-view';
import { listKey } from './mixes-words';
import { StockAskLine } from './stock-ask';
import { StockCard } from './stock-card';
import { StockChart } from './stock-chart';
import { StockEdge } from './stock-edge';
import { cancelSearch, startSearch, useStockSearch, type Answered, type StockSearch } from './stock-search';
import { StockTable } from './stock-table';
import { Troubles } from './troubles';
import styles from './stock-panel.module.css';

function listsText(count: number): string {
  return count === 1 ? 'One list' : `${count} lists`;
}

/** How the search goes: how many lists there are, how far it is, and a way to end it. */
function Progress(props: {
  readonly search: StockSearch;
  readonly lists: number;
  readonly again: () => void;
}): ReactNode {
  const { now } = props.search;
  const lists = listsText(props.lists);
  switch (now.kind) {
    case 'searching':
      return (
        <span className={styles.progress} role="status">
          {lists}, working them out{' '}
          <progress
            aria-label="Worked out"
            value={now.total === 0 ? undefined : now.done}
            max={Math.max(1, now.total)}
          />{' '}
          <button type="button" className="linked" onClick={cancelSearch}>
            Cancel
          </button>
        </span>
      );
    case 'cancelled':
      return (
        <span className={styles.progress} role="status">
          Cancelled; nothing has changed.{' '}
          <button type="button" className="linked" onClick={props.again}>
            Work them out
          </button>
        </span>
      );
    case 'answered':
      return (
        <span className={styles.progress} role="status">
          {lists}, all worked out
        </span>
      );
    default:
      return <span className={styles.progress}>{lists}</span>;
  }
}

/** What was left out before lists were compared, and what no list can mend. */
function Notes({ answer, trip }: Answered): ReactNode {
  const words = useWords();
  const { withUnused, overLimit, unreachedDiveIds } = answer;
  const numbers = unreachedDiveIds.map((id) => trip.dives.findIndex((dive) => dive.id === id) + 1);
  const odd = trip.mixes.filter((mix) => Math.abs(mix.o2 * 100 - Math.round(mix.o2 * 100)) > 1e-6);
  const outside = words(alwaysOutsideSaid(answer, trip));
  const left = [
    ...(withUnused > 0
      ? [
          `${listsText(withUnused)} with a mix that no dive would use ${withUnused === 1 ? 'is' : 'are'} left out.`,
        ]
      : []),
    ...(overLimit > 0 ? [`${listsText(overLimit)} cost more or take more fills than you allow.`] : []),
    ...(odd.length > 0
      ? [`Lists are of whole percents: ${odd.map(({ o2 }) => mixText(o2)).join(', ')} is in none.`]
      : []),
  ];
  return (
    <>
      {numbers.length === 0 ? null : (
        <p className="care">
          No mix suits everybody on dive {numbers.join(', ')}: plan {numbers.length === 1 ? 'it' : 'them'}{' '}
          shallower, or without whoever it does not suit.
        </p>
      )}
      {numbers.length === 0 && outside !== '' ? <p className="care">{outside}</p> : null}
      <p className={styles.note}>
        {left.join(' ')} Least room: of any dive, to the limit named. Nitrogen room of the middle dive: half
        of the dives keep so much or more. Oxygen at most: the highest share on any clock, of CNS on
        surfacing, of 24 h, of a day’s OTU or ESOT. Rooms rounded down, oxygen up.
      </p>
    </>
  );
}

function Recommendation({ answer, trip }: Answered): ReactNode {
  const words = useWords();
  const first = answer.lists[0]!;
  return (
    <p className={styles.answer}>
      <strong className={styles.headline}>{words(said`Stock ${listSaid(first)}.`)}</strong>{' '}
      {recommendationSaid(answer, trip).map(words).join(' ')}
    </p>
  );
}

/** What was answered last; a chart and a table of that size are not drawn again at each word of how far the next is. */
const Found = memo((props: { readonly last: Answered; readonly isOld: boolean }): ReactNode => {
  const { last, isOld } = props;
  const { answer, trip } = last;
  const [picked, setPicked] = useState<string | null>(null);
  const { lists } = answer;
  const best = useMemo(() => lists.filter(({ isBest }) => isBest), [lists]);
  const list = lists.find((each) => listKey(each) === picked) ?? lists[0]!;
  const chosen = listKey(list);
  return (
    <div className={styles.split} data-old={isOld || undefined}>
      <div className={styles.left}>
        {/* One list is compared with nothing: the sentence says what it comes to. */}
        {lists.length > 1 ? (
          <>
            <StockChart lists={best} trip={trip} chosen={chosen} choose={setPicked} />
            <StockTable
              best={best}
              told={lists}
              trip={trip}
              decided={decidingMeasure(answer)}
              chosen={chosen}
              choose={setPicked}
            />
          </>
        ) : null}
        <Notes answer={answer} trip={trip} />
      </div>
      <StockCard key={chosen} list={list} trip={trip} request={answer.request} isOld={isOld} />
    </div>
  );
});

function emptyText({ total, withUnused, overLimit }: StockAnswer): string {
  return overLimit > 0
    ? 'No list keeps within the cost and fills you allow: allow more, or exclude fewer shares.'
    : `Of ${listsText(total)} none is of any use: ${withUnused === 1 ? 'its mixes suit' : 'the mixes of each suit'} no dive that is open to another mix. Air does as well.`;
}

/** What the boat should stock: the question as a sentence, and the answer as soon as it is shown. */
export function StockPanel(): ReactNode {
  const words = useWords();
  const trip = useDesk((state) => state.trip);
  const request = useMixesView((view) => view.request);
  const checked = useMemo(() => checkedRequest(trip, request), [trip, request]);
  const hasDives = trip.dives.length > 0;
  const search = useStockSearch(trip, checked.ok && hasDives ? request : null);
  const { now, last, asked } = search;
  const isOld = now.kind !== 'answered' || asked?.trip !== trip || asked.request !== request;
  const change = (next: typeof request): void => chooseView({ request: next });
  const lists = checked.ok ? listCount(checked.value, trip.mixes) : 0;
  const isShown = last !== null && checked.ok && hasDives && last.answer.lists.length > 0;
  return (
    <section aria-label="What to stock" className={styles.stock}>
      <div className={styles.ask}>
        <StockAskLine trip={trip} request={request} change={change} />
        {hasDives && checked.ok ? (
          <Progress search={search} lists={lists} again={() => void startSearch(trip, request)} />
        ) : null}
      </div>
      {checked.ok || !hasDives ? null : <Troubles troubles={checked.troubles} />}
      {now.kind === 'troubles' && checked.ok ? <Troubles troubles={now.troubles} /> : null}
      {isShown ? <Recommendation {...last} /> : null}
      {hasDives ? null : (
        <p className={styles.answer}>
          <strong className={styles.headline}>Nothing to fill yet.</strong>{' '}
          {words(said`There are ${divesSaid(0)}: plan some under Days.`)}
        </p>
      )}
      {last !== null && checked.ok && hasDives && last.answer.lists.length === 0 ? (
        <p role="status">{emptyText(last.answer)}</p>
      ) : null}
      <StockEdge
        trip={trip}
        request={request}
        change={change}
        recommended={isShown ? last.answer.lists[0]!.percents : []}
      />
      {isShown ? <Found last={last} isOld={isOld} /> : null}
    </section>
  );
}
