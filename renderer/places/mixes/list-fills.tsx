import { useMemo, type ReactNode } from 'react';
import { fillPlan } from '../../../core/mixes/fills';
import { openTrip, stockedTrip } from '../../../core/mixes/stocked-trip';
import type { StockList } from '../../../core/mixes/stock';
import { ledger } from '../../../core/ledger/ledger';
import type { Trip } from '../../../core/document/types';
import { unitText } from '../../figures/format';
import { wordsIn } from '../../figures/reader';
import { useDesk } from '../../store/store';
import { FillTable } from './fill-table';
import { useMixesView } from './mixes-view';
import { listName } from './mixes-words';

/** What filling takes with a list on board, before it is put there: the open dives, as set under Fills. */
export function ListFills(props: {
  readonly trip: Trip;
  readonly list: StockList;
  readonly fromDate: string | null;
}): ReactNode {
  const { trip, list, fromDate } = props;
  const settings = useDesk((state) => state.settings);
  const { method, law, startBar, startO2 } = useMixesView((view) => view.fills);
  const usedLaw = law ?? trip.settings.gasLaw;
  const plan = useMemo(() => {
    const open = openTrip(trip, { fromDate });
    const whole = ledger(stockedTrip(open, list.percents));
    return fillPlan(whole, { method, law: usedLaw, startBar, startO2 }, open.openIds, wordsIn(settings));
  }, [trip, list, fromDate, method, usedLaw, startBar, startO2, settings]);
  return (
    <section className="list-fills" aria-label={`Fills with ${listName(list)}`}>
      <h3>Fills with {listName(list)} on board</h3>
      <p className="mixes-note">
        {method === 'banked' ? 'From banks of each mix' : 'By partial pressure, oxygen first'},{' '}
        {usedLaw === 'ideal' ? 'ideal amounts' : 'with compressibility'}, cylinders coming back with{' '}
        {unitText(startBar, 'pressure', settings.units, 'near')}: change that under Fills.
      </p>
      {plan.ok ? (
        <FillTable plan={plan.value} label={`Table of fills with ${listName(list)}`} />
      ) : (
        <p className="care">
          {plan.troubles[0].what} {plan.troubles[0].mend}
        </p>
      )}
    </section>
  );
}
