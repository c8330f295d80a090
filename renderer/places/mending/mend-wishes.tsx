import type { ReactNode } from 'react';
import { DEAREST, USUAL_COSTS, type MoveCosts } from '../../../core/proposal/mend/moves';
import { MOST_ROOM_MIN } from '../../../core/proposal/mend/request';
import { failure } from '../../../core/result';
import type { EditResult } from '../../actions/edit';
import { changeSettings } from '../../actions/view';
import { MinutesField, PlainNumberField } from '../../parts/number-field';
import { useDesk } from '../../store/store';
import { chooseMend, useMendView } from './mend-view';
import styles from './mending.module.css';

function namesIn(isFeet: boolean): readonly (readonly [keyof MoveCosts, string])[] {
  return [
    ['later', '5 min later'],
    ['shallower', isFeet ? '3 ft shallower' : '1 m shallower'],
    ['shorter', '1 min shorter'],
    ['mix', 'Another mix on board'],
    ['leaveOut', 'A diver left out'],
    ['drop', 'A dive dropped'],
  ];
}

function outside(where: string, least: number, most: number): EditResult {
  const what = `It is no whole number from ${least} to ${most}.`;
  return failure({ kind: 'invalid', what, where, mend: 'Type one that is.' });
}

/** Keeps what moves cost on this machine; the usual costs are kept as none. */
function keepCost(costs: MoveCosts, name: keyof MoveCosts, points: number): EditResult | void {
  if (!Number.isInteger(points) || points < 1 || points > DEAREST) return outside(name, 1, DEAREST);
  const next = { ...costs, [name]: points };
  const isUsual = Object.entries(USUAL_COSTS).every(
    ([each, usual]) => next[each as keyof MoveCosts] === usual,
  );
  changeSettings({ mendCosts: isUsual ? null : next });
}

function keepRoom(min: number): EditResult | void {
  if (!Number.isInteger(min) || min < 0 || min > MOST_ROOM_MIN) return outside('room', 0, MOST_ROOM_MIN);
  chooseMend({ leastRoomMin: min });
}

/** What is asked of the proposals: room to leave, and what each move costs. */
export function MendWishes(): ReactNode {
  const leastRoomMin = useMendView((view) => view.leastRoomMin);
  const kept = useDesk(({ settings }) => settings.mendCosts);
  const isFeet = useDesk(({ settings }) => settings.units === 'imperial');
  const costs = kept ?? USUAL_COSTS;
  return (
    <div className={styles.wishes}>
      <MinutesField
        label="Room to leave on every dive mended"
        value={leastRoomMin}
        commit={keepRoom}
        hint="With 0 min a mended dive may end right at its limit."
      />
      <h3>What a move costs</h3>
      <div className={styles.costs}>
        {namesIn(isFeet).map(([name, label]) => (
          <PlainNumberField
            key={name}
            label={label}
            value={costs[name]}
            decimals={0}
            commit={(points) => keepCost(costs, name, points)}
          />
        ))}
      </div>
      {kept === null ? null : (
        <button type="button" className="linked" onClick={() => changeSettings({ mendCosts: null })}>
          Usual costs
        </button>
      )}
    </div>
  );
}
