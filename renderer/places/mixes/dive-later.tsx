import type { ReactNode } from 'react';
import type { LaterChange, MixChoice } from '../../../core/mixes/choice';
import type { MinutesRoom } from '../../../core/ledger/room';
import { roomOrder } from '../../../core/ledger/tightest';
import { siteName } from '../../../core/document/site-of';
import type { Dive, Trip } from '../../../core/document/types';
import { clockText, dateText, mixText, numberText, percentText } from '../../figures/format';
import { diveNumber } from '../../store/selectors';
import { useDesk } from '../../store/store';
import { roomOfDive } from './mixes-words';
import { WideTable } from './wide-table';
import styles from './dive-later.module.css';

export function diveName(trip: Trip, dive: Dive, clock: '24h' | '12h'): string {
  const site = siteName(trip, dive);
  return `${diveNumber(trip, dive.id)}. ${dateText(dive.startsAt)} ${clockText(dive.startsAt, clock)}, ${site}`;
}

function minuteText(min: number | null): string {
  return min === null ? 'no limit' : numberText(min, 1, 'down');
}

/** To the tenth, as a small change is what is looked for here. */
function minuteChange(beforeMin: number | null, afterMin: number | null): string {
  const [before, after] = [minuteText(beforeMin), minuteText(afterMin)];
  return before === after ? 'same' : `${before} → ${after} min`;
}

/** Room as minutes; what is past a limit without a figure is said to be. */
function roomChange({ entry, roomBefore, roomAfter }: LaterChange): string {
  const text = (room: MinutesRoom): string =>
    room.min === null ? roomOfDive(entry, room) : minuteText(room.min);
  const [before, after] = [text(roomBefore), text(roomAfter)];
  if (before === after) return 'same';
  return `${before} → ${after}${roomAfter.min === null ? '' : ' min'}`;
}

function cnsChange({ cnsBefore, cnsAfter }: LaterChange): string {
  const [before, after] = [percentText(cnsBefore, 'up', 1), percentText(cnsAfter, 'up', 1)];
  return before === after ? 'same' : `${before} → ${after}`;
}

/** Changes that can be read; what differs past the first decimal is none to plan by. */
export function readable(changes: readonly LaterChange[]): readonly LaterChange[] {
  return changes.filter(
    (change) =>
      roomChange(change) !== 'same' ||
      minuteChange(change.noStopBeforeMin, change.noStopAfterMin) !== 'same' ||
      cnsChange(change) !== 'same',
  );
}

export function divesText(count: number): string {
  return count === 1 ? '1 dive' : `${count} dives`;
}

function LaterRow({ change, trip }: { readonly change: LaterChange; readonly trip: Trip }): ReactNode {
  const clock = useDesk(({ settings }) => settings.clock);
  const diver = trip.party.find(({ id }) => id === change.diverId);
  const isMin = roomOrder(change.entry, change.roomAfter);
  const isLess = isMin < roomOrder(change.entry, change.roomBefore);
  return (
    <tr>
      <th scope="row">{diveName(trip, change.dive, clock)}</th>
      <td>{diver?.name ?? change.diverId}</td>
      <td className={isLess && isMin < 0 ? 'care' : ''}>{roomChange(change)}</td>
      <td>{minuteChange(change.noStopBeforeMin, change.noStopAfterMin)}</td>
      <td>{cnsChange(change)}</td>
    </tr>
  );
}

/** What another mix would change later, dive by dive. */
export function Later({ choice, trip }: { readonly choice: MixChoice; readonly trip: Trip }): ReactNode {
  const name = mixText(choice.mix.analysedO2 ?? choice.mix.o2);
  const changes = readable(choice.later);
  if (changes.length === 0) return null;
  return (
    <details className={styles.later}>
      <summary>
        What {name} changes later: {divesText(changes.length)}
      </summary>
      <WideTable label={`Later dives with ${name}`}>
        <table className={styles.table}>
          <thead>
            <tr>
              <th scope="col">Dive</th>
              <th scope="col">Then tightest</th>
              <th scope="col">Room</th>
              <th scope="col">No-stop time</th>
              <th scope="col">CNS on surfacing</th>
            </tr>
          </thead>
          <tbody>
            {changes.map((change) => (
              <LaterRow key={change.dive.id} change={change} trip={trip} />
            ))}
          </tbody>
        </table>
      </WideTable>
    </details>
  );
}
