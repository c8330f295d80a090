import type { ReactNode } from 'react';
import type { Entry } from '../../../core/ledger/ledger-types';
import { tightestOf } from '../../../core/ledger/tightest';
import { chooseDiver } from '../../actions/view';
import { mixText, percentText, unitText } from '../../figures/format';
import { selectRoomKey, selectRoomLimit, selectRooms } from '../../store/selectors';
import { useDesk } from '../../store/store';
import { roomWords } from './room-words';

/** As on the outcome: from here on room is in the cautionary colour. */
const CARE_BELOW_MIN = 5;

/** How the divers of a dive differ, the one with the least room first; a name chooses whose figures are shown. */
export function DiverRows(props: { readonly entries: readonly Entry[]; readonly shown: Entry }): ReactNode {
  const units = useDesk(({ settings }) => settings.units);
  const diverId = useDesk(({ selection }) => selection.diverId);
  const keyOf = useDesk(selectRoomKey);
  const limitOf = useDesk(selectRoomLimit);
  const roomOf = useDesk(selectRooms);
  const { entries, shown } = props;
  if (entries.length < 2) return null;
  const tight = tightestOf(entries, roomOf);
  return (
    <section className="divers">
      <h3>Who has how much room</h3>
      <table>
        <thead>
          <tr>
            <th scope="col">Diver</th>
            <th scope="col">Mix</th>
            <th scope="col">Room</th>
            <th scope="col">CNS</th>
            <th scope="col">Left</th>
          </tr>
        </thead>
        <tbody>
          {entries.map((entry) => {
            const key = keyOf(entry);
            return (
              <tr key={entry.diver.id} className={entry === shown ? 'shown' : undefined}>
                <th scope="row">
                  <button
                    type="button"
                    className="ask"
                    aria-pressed={diverId === entry.diver.id}
                    onClick={() => chooseDiver(diverId === entry.diver.id ? null : entry.diver.id)}
                  >
                    {entry.diver.name}
                  </button>
                </th>
                <td>{entry.o2 === null ? 'none' : mixText(entry.o2)}</td>
                <td className={key < CARE_BELOW_MIN || !entry.isMade ? 'figure care' : 'figure'}>
                  {tight.includes(entry) ? <span aria-hidden="true">▸ </span> : null}
                  {roomWords(entry, key, limitOf(entry))}
                  {tight.includes(entry) ? <span className="unseen"> tightest</span> : null}
                </td>
                <td>{percentText(entry.cns.after, 'up')}</td>
                <td>{unitText(entry.gas.endBar, 'pressure', units, 'down')}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </section>
  );
}
