import { useState, type ReactNode } from 'react';
import type { Dive } from '../../../core/document/types';
import { tightestOf } from '../../../core/ledger/tightest';
import { shiftDives } from '../../actions/dives';
import { tell } from '../../actions/edit';
import { chooseDives } from '../../actions/view';
import { countText, dateText } from '../../figures/format';
import { CommandButton } from '../../parts/command-button';
import {
  diveNumber,
  selectCautions,
  selectEntriesByDive,
  selectRoomKey,
  selectRoomLimit,
  selectRooms,
  siteOf,
} from '../../store/selectors';
import { useDesk } from '../../store/store';
import { CautionItems } from '../../parts/caution-list';
import { roomWords } from './room-words';

const SHIFTS_MIN = [5, 15, 30, 60] as const;

/** Several dives chosen: what they are, and moving them together. */
export function SeveralCard({ dives }: { readonly dives: readonly Dive[] }): ReactNode {
  const trip = useDesk((state) => state.trip);
  const byDive = useDesk(selectEntriesByDive);
  const [byMin, setByMin] = useState<number>(SHIFTS_MIN[1]);
  const ids = dives.map(({ id }) => id);
  const all = useDesk(selectCautions);
  const cautions = all.filter(({ diveId }) => diveId !== null && ids.includes(diveId));
  const keyOf = useDesk(selectRoomKey);
  const limitOf = useDesk(selectRoomLimit);
  const roomOf = useDesk(selectRooms);
  const tightest = dives.map(({ id }) => byDive.get(id)?.[0] ?? null);
  const tight = tightestOf(
    tightest.filter((entry) => entry !== null),
    roomOf,
  );
  return (
    <section className="card" aria-label={`${dives.length} dives`}>
      <p className="soft eyebrow">Chosen together</p>
      <h2>{countText(dives.length)} dives</h2>
      <ul className="several">
        {dives.map((dive, i) => {
          const entry = tightest[i] ?? null;
          const isTightest = entry !== null && tight.includes(entry);
          return (
            <li key={dive.id}>
              <button type="button" className="linked" onClick={() => chooseDives([dive.id])}>
                {diveNumber(trip, dive.id)}, {dateText(dive.startsAt)}, {siteOf(trip, dive.siteId)?.name}
              </button>
              <span className={isTightest ? 'figure care' : 'figure'}>
                {isTightest ? 'tightest, ' : ''}
                {entry ? roomWords(entry, keyOf(entry), limitOf(entry)) : 'nobody'}
              </span>
            </li>
          );
        })}
      </ul>
      <div className="shift" role="group" aria-label="Shift them">
        <label>
          Shift by{' '}
          <select value={byMin} onChange={(event) => setByMin(Number(event.target.value))}>
            {SHIFTS_MIN.map((min) => (
              <option key={min} value={min}>
                {min} min
              </option>
            ))}
          </select>
        </label>
        <button type="button" className="button" onClick={() => void tell(shiftDives(ids, -byMin))}>
          Earlier
        </button>
        <button type="button" className="button" onClick={() => void tell(shiftDives(ids, byMin))}>
          Later
        </button>
      </div>
      {cautions.length > 0 ? <CautionItems cautions={cautions} trip={trip} withDive /> : null}
      <p className="card-end">
        <CommandButton id="dive.copy">Duplicate</CommandButton>
        <CommandButton id="dive.delete">Remove</CommandButton>
      </p>
    </section>
  );
}
