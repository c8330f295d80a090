import { useState, type ReactNode } from 'react';
import type { Dive } from '../../../core/trip/types';
import { shiftDives } from '../../actions/dives';
import { tell } from '../../actions/edit';
import { countText, dateText, minutesText } from '../../figures/format';
import { CommandButton } from '../../parts/command-button';
import { diveNumber, selectEntriesByDive, selectRoomMin, siteOf } from '../../store/selectors';
import { useDesk } from '../../store/store';
import { chooseDives } from '../../actions/view';

const SHIFTS_MIN = [5, 15, 30, 60] as const;

/** Several dives chosen: what they are, and moving them together. */
export function SeveralCard({ dives }: { readonly dives: readonly Dive[] }): ReactNode {
  const trip = useDesk((state) => state.trip);
  const byDive = useDesk(selectEntriesByDive);
  const roomMinOf = useDesk(selectRoomMin);
  const [byMin, setByMin] = useState<number>(SHIFTS_MIN[1]);
  const ids = dives.map(({ id }) => id);
  return (
    <section className="card" aria-label={`${dives.length} dives`}>
      <p className="soft eyebrow">Chosen together</p>
      <h2>{countText(dives.length)} dives</h2>
      <ul className="several">
        {dives.map((dive) => {
          const [tightest] = byDive.get(dive.id) ?? [];
          const room = tightest ? roomMinOf(tightest) : null;
          return (
            <li key={dive.id}>
              <button type="button" className="linked" onClick={() => chooseDives([dive.id])}>
                {diveNumber(trip, dive.id)}, {dateText(dive.startsAt)}, {siteOf(trip, dive.siteId)?.name}
              </button>
              <span className="figure">
                {room === null ? 'no limit' : `${minutesText(room, 'down')} of room`}
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
      <p className="card-end">
        <CommandButton id="dive.copy">Duplicate</CommandButton>
        <CommandButton id="dive.delete">Remove</CommandButton>
      </p>
    </section>
  );
}
