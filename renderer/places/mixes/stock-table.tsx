import { useState, type ReactNode } from 'react';
import type { StockList } from '../../../core/mixes/stock';
import { leastRoomAtSaid, listSaid, measureSaid, MEASURE_NAMES } from '../../../core/mixes/stock-words';
import type { Measure } from '../../../core/mixes/undominated';
import type { Trip } from '../../../core/document/types';
import { said } from '../../../core/words/said';
import { mixSaid } from '../../../core/words/terms';
import { useWords } from '../../parts/use-words';
import { listKey } from './mixes-words';
import { WideTable } from './wide-table';
import styles from './stock-table.module.css';

/** Columns from what a diver gets to what it takes. */
const COLUMNS: readonly Measure[] = ['mixes', 'within', 'room', 'nitrogen', 'oxygen', 'fills', 'cost'];

const ROWS_AT_FIRST = 6;

function isCare(measure: Measure, list: StockList, dives: number): boolean {
  if (measure === 'within') return list.divesWithin < dives;
  if (measure === 'room') return (list.smallestRoomMin ?? 0) < 0;
  return measure === 'oxygen' && (list.oxygenPeak ?? Infinity) > 1;
}

function Row(props: {
  readonly list: StockList;
  readonly trip: Trip;
  readonly isFirst: boolean;
  readonly isChosen: boolean;
  readonly choose: () => void;
}): ReactNode {
  const { list, trip, isFirst, isChosen, choose } = props;
  const words = useWords();
  const name = words(listSaid(list));
  const unused = list.unusedPercents.map((percent) => words(mixSaid(percent / 100))).join(', ');
  const note = isFirst ? 'recommended' : list.isBest ? '' : 'worse';
  return (
    <tr className={isChosen ? styles.chosen : ''}>
      <th scope="row">
        <button type="button" className={styles.name} aria-pressed={isChosen} onClick={choose}>
          {name}
        </button>
        {note === '' ? null : <span className={styles.note}> {note}</span>}
        {unused === '' ? null : <span className={styles.note}> {unused} unused</span>}
      </th>
      {COLUMNS.map((measure) => (
        <td key={measure} className={isCare(measure, list, trip.dives.length) ? styles.care : ''}>
          {words(said`${measureSaid(measure, list, trip)}`)}
          {measure === 'room' ? (
            <span className={styles.note}> {words(leastRoomAtSaid(list, trip))}</span>
          ) : null}
        </td>
      ))}
    </tr>
  );
}

/** The lists told, best first, by every measure; the one that decided stands out. */
export function StockTable(props: {
  /** Those that nothing beats, best first. */
  readonly best: readonly StockList[];
  /** These, and the best of those that are beaten. */
  readonly told: readonly StockList[];
  readonly trip: Trip;
  readonly decided: Measure | null;
  readonly chosen: string | null;
  readonly choose: (key: string) => void;
}): ReactNode {
  const { best, told, trip, decided, chosen, choose } = props;
  const words = useWords();
  const [showsAll, setShowsAll] = useState(false);
  const rows = showsAll ? told : best.slice(0, ROWS_AT_FIRST);
  const more = best.length - rows.length;
  return (
    <>
      <WideTable label="Table of lists">
        <table className={styles.table}>
          <thead>
            <tr>
              <th scope="col">Besides air</th>
              {COLUMNS.map((measure) => (
                <th key={measure} scope="col" className={measure === decided ? styles.decided : ''}>
                  {words(MEASURE_NAMES[measure])}
                  {measure === decided ? <span className="unseen"> (decided)</span> : null}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((list, place) => (
              <Row
                key={listKey(list)}
                list={list}
                trip={trip}
                isFirst={place === 0}
                isChosen={listKey(list) === chosen}
                choose={() => choose(listKey(list))}
              />
            ))}
          </tbody>
        </table>
      </WideTable>
      {showsAll || told.length === rows.length ? null : (
        <p className={styles.more}>
          {more > 0 ? `${more} more worth considering. ` : ''}
          <button type="button" className="linked" onClick={() => setShowsAll(true)}>
            Show all {told.length}
          </button>
        </p>
      )}
    </>
  );
}
