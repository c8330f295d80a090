import { useMemo, useState, type ReactNode } from 'react';
import type { StockAnswer, StockList } from '../../../core/mixes/stock';
import type { Trip } from '../../../core/document/types';
import { tell } from '../../actions/edit';
import { putOnBoard } from '../../actions/mixes';
import { countText, mixText, percentText } from '../../figures/format';
import { chooseView, useMixesView } from './mixes-view';
import { ListFills } from './list-fills';
import { listKey, listName, moneyText, roomText } from './mixes-words';
import { StockChart } from './stock-chart';
import { usefulLists } from './useful-lists';
import { WideTable } from './wide-table';

/** Rows shown at first: more than fit a screen, few enough to read. */
const ROWS_AT_FIRST = 25;

function ListRow(props: {
  readonly list: StockList;
  readonly dives: number;
  readonly isChosen: boolean;
  readonly isOld: boolean;
  readonly choose: () => void;
  readonly isOpen: boolean;
  readonly open: () => void;
  readonly fromDate: string | null;
}): ReactNode {
  const { list, dives, isChosen, isOld, choose, isOpen, open, fromDate } = props;
  const isShort = list.divesWithin < dives;
  return (
    <tr className={isChosen ? 'taken' : ''} onMouseEnter={choose} onFocus={choose}>
      <th scope="row">
        {list.percents.length === 0 ? 'nothing' : listName(list)}
        {list.unusedPercents.length === 0 ? null : (
          <span className="soft">
            {' '}
            {list.unusedPercents.map((each) => mixText(each / 100)).join(', ')} unused
          </span>
        )}
      </th>
      <td className={isShort ? 'care' : ''}>
        {list.divesWithin} of {dives}
      </td>
      <td className={(list.smallestRoomMin ?? 0) < 0 ? 'figure care' : 'figure'}>
        {roomText(list.smallestRoomMin)}
      </td>
      <td>{percentText(list.oxygenPeak, 'up')}</td>
      <td>{moneyText(list.cost)}</td>
      <td>{list.fills}</td>
      <td>{list.isBest ? '' : 'beaten'}</td>
      <td>
        <button
          type="button"
          className="plain"
          aria-expanded={isOpen}
          aria-label={`Fills with ${listName(list)}`}
          onClick={open}
        >
          Fills
        </button>
        <button
          type="button"
          className="button"
          disabled={isOld || list.percents.length === 0}
          aria-label={`Put on board: ${listName(list)}`}
          onClick={() => tell(putOnBoard(list.percents, fromDate))}
        >
          Put on board
        </button>
      </td>
    </tr>
  );
}

function capitalCount(count: number): string {
  const word = countText(count);
  return word.charAt(0).toUpperCase() + word.slice(1);
}

/** How the search went, in a few sentences. */
function Summary(props: {
  readonly answer: StockAnswer;
  readonly trip: Trip;
  readonly useful: number;
}): ReactNode {
  const { answer, trip, useful } = props;
  const { searched, total, overLimit, unreachedDiveIds } = answer;
  const numbers = unreachedDiveIds.map((id) => trip.dives.findIndex((dive) => dive.id === id) + 1);
  return (
    <>
      <p role="status">
        {overLimit > 0
          ? `Of ${total} lists ${overLimit} cost more or take more fills than you allow. Of the others `
          : `Of ${total} lists `}
        {useful === 1 ? 'one is' : `${useful} are`} worth choosing; the rest hold a mix that no dive would
        use, or are nowhere better. {searched} were worked out in full, which proves it for all.
      </p>
      {numbers.length === 0 ? null : (
        <p className="care">
          No mix suits everybody on dive {numbers.join(', ')}: plan {numbers.length === 1 ? 'it' : 'them'}{' '}
          shallower, or without whoever it does not suit.
        </p>
      )}
    </>
  );
}

/** The lists that nothing beats: a chart, and a table of the same figures. */
export function StockResults({
  answer,
  isOld,
  trip,
}: {
  readonly answer: StockAnswer;
  readonly isOld: boolean;
  readonly trip: Trip;
}): ReactNode {
  const showsUnused = useMixesView((view) => view.showsUnused);
  const [chosen, setChosen] = useState<string | null>(null);
  const [opened, setOpened] = useState<string | null>(null);
  const [showsAll, setShowsAll] = useState(false);
  const useful = useMemo(() => usefulLists(answer.lists), [answer]);
  const most = Math.max(0, ...useful.map(({ percents }) => percents.length));
  const told = showsUnused ? answer.lists : useful;
  const openedList = told.find((list) => listKey(list) === opened) ?? null;
  const rows = showsAll ? told : told.slice(0, ROWS_AT_FIRST);
  const dives = trip.dives.length;
  const { count, fromDate } = answer.request;
  if (answer.lists.length === 0) {
    return (
      <p role="status">
        No list keeps within the cost and fills you allow: allow more, or exclude fewer shares.
      </p>
    );
  }
  return (
    <div className="stock-results">
      <Summary answer={answer} trip={trip} useful={useful.length} />
      {most > 0 && most < count ? (
        <p>
          {capitalCount(most)} {most === 1 ? 'mix' : 'mixes'} besides air {most === 1 ? 'does' : 'do'} as well
          as {countText(count)}.
        </p>
      ) : null}
      {isOld ? (
        <p className="care" role="status">
          The trip has changed since: search again before choosing.
        </p>
      ) : null}
      {/* A single mark is compared with nothing: its figures stand in the table. */}
      {told.length > 1 ? <StockChart lists={told} chosen={chosen} choose={setChosen} /> : null}
      <label className="tick">
        <input
          type="checkbox"
          checked={showsUnused}
          onChange={() => chooseView({ showsUnused: !showsUnused })}
        />
        Show the other lists too: beaten, or with an unused mix
      </label>
      <WideTable label="Table of lists">
        <table className="plain-table lists">
          <thead>
            <tr>
              <th scope="col">Besides air</th>
              <th scope="col">Dives within limits</th>
              <th scope="col">Least room</th>
              <th scope="col">Oxygen at most</th>
              <th scope="col">Cost</th>
              <th scope="col">Fills but air</th>
              <th scope="col">
                <span className="unseen">Beaten</span>
              </th>
              <th scope="col">
                <span className="unseen">Fills, and put on board</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {rows.map((list) => (
              <ListRow
                key={listKey(list)}
                list={list}
                dives={dives}
                isChosen={listKey(list) === chosen}
                isOld={isOld}
                choose={() => setChosen(listKey(list))}
                isOpen={listKey(list) === opened}
                open={() => setOpened(listKey(list) === opened ? null : listKey(list))}
                fromDate={fromDate}
              />
            ))}
          </tbody>
        </table>
      </WideTable>
      {told.length > rows.length ? (
        <button type="button" className="linked" onClick={() => setShowsAll(true)}>
          Show all {told.length}
        </button>
      ) : null}
      {openedList === null ? null : <ListFills trip={trip} list={openedList} fromDate={fromDate} />}
      <p className="mixes-note">
        Best first: dives within every limit, then least room, oxygen, cost, fills. Oxygen at most is the
        highest share on any clock: CNS on surfacing, the rolling 24 h, a day’s OTU or ESOT.
        {fromDate === null ? '' : ' Dives before the date keep the mixes they had.'}
      </p>
    </div>
  );
}
