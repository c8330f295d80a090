import { Fragment, memo, type ReactNode } from 'react';
import { capital } from '../../../core/words/reader';
import { siteName } from '../../../core/document/site-of';
import type { Trip } from '../../../core/document/types';
import type { Sturdiness, SturdyCell } from '../../../core/sturdiness/sturdiness';
import { mostBySaid, passedSaid, roomAtSaid } from '../../../core/sturdiness/sturdiness-said';
import { figure, inRow, moment, said, type Said } from '../../../core/words/said';
import { useWords } from '../../parts/use-words';
import { diveNumber } from '../../store/selectors';
import styles from './sturdy.module.css';

/** A dive as a row names it: "8, Tue 16 Mar 07:30, Anvil Head". */
export function placeSaid(trip: Trip, diveId: string): Said {
  const dive = trip.dives.find(({ id }) => id === diveId)!;
  const site = siteName(trip, dive);
  return said`dive ${diveNumber(trip, diveId)}, ${inRow([moment(dive.startsAt), site])}`;
}

function Row({ trip, cell }: { readonly trip: Trip; readonly cell: SturdyCell }): ReactNode {
  const words = useWords();
  const name = trip.party.find(({ id }) => id === cell.diverId)?.name ?? cell.diverId;
  return (
    <tr>
      <th scope="row">{name}</th>
      <td className={styles.figure}>{words(roomAtSaid(cell.room5Min))}</td>
      <td className={styles.figure}>{words(roomAtSaid(cell.room50Min))}</td>
      <td className={styles.figure}>{words(said`${figure('shareMet', cell.passes)}`)}</td>
      <td className={styles.limits}>
        {passedSaid(cell).map((each) => (
          <span key={words(each)}>{words(each)}</span>
        ))}
      </td>
      <td>{words(mostBySaid(cell))}</td>
    </tr>
  );
}

/** Each diver on each dive ahead, in the order of the dives. */
export const SturdyTable = memo(function SturdyTable({
  trip,
  sturdiness,
}: {
  readonly trip: Trip;
  readonly sturdiness: Sturdiness;
}): ReactNode {
  const words = useWords();
  const { cells, dives, easeFirst } = sturdiness;
  return (
    <table className={styles.table}>
      <caption className="unseen">How often each diver passes a limit on each dive</caption>
      <thead>
        <tr>
          <th scope="col">diver</th>
          <th scope="col" className={styles.figure}>
            5 %
          </th>
          <th scope="col" className={styles.figure}>
            50 %
          </th>
          <th scope="col" className={styles.figure}>
            passes
          </th>
          <th scope="col">which limits</th>
          <th scope="col">does most</th>
        </tr>
      </thead>
      <tbody>
        {dives.map(({ diveId, passes }) => {
          const often =
            passes === 0
              ? said`no run passes a limit`
              : said`${figure('shareMet', passes)} of the runs pass a limit`;
          const isFirst = diveId === easeFirst;
          const line = words(said`${placeSaid(trip, diveId)}: ${often}`);
          return (
            <Fragment key={diveId}>
              <tr>
                <th scope="rowgroup" colSpan={6} className={styles.dive}>
                  {capital(line)}
                  {isFirst ? <span className={styles.first}>. Ease first</span> : null}
                </th>
              </tr>
              {cells.map((cell) =>
                cell.diveId === diveId ? <Row key={cell.diverId} trip={trip} cell={cell} /> : null,
              )}
            </Fragment>
          );
        })}
      </tbody>
    </table>
  );
});
