/** The bands as figures: the same points, where something begins or ends. */
import { memo } from 'react';
import { percentText } from '../../../figures/format';
import type { TimelinePoint } from '../../../../core/ledger/timeline';
import type { DayView } from './day-view';
import { otuText } from './day-view';
import type { DiveView } from './dive-view';
import { momentText, type Reader } from './strip-words';
import { dateText } from '../../../figures/format';
import styles from './bands.module.css';

interface BandsTableProps {
  readonly timeline: readonly TimelinePoint[];
  /** One row of 16 for each point of the timeline, where asked for. */
  readonly shares: readonly (readonly number[])[] | null;
  readonly dives: readonly DiveView[];
  readonly days: readonly DayView[];
  readonly diverName: string;
  readonly reader: Reader;
}

interface Row {
  readonly key: string;
  readonly what: string;
  readonly point: TimelinePoint;
  readonly shares: readonly number[] | null;
}

/** Each dive as it begins and as it surfaces, and the end; between them the curves only rise or fall. */
export function rowsOf(
  timeline: readonly TimelinePoint[],
  shares: readonly (readonly number[])[] | null,
  dives: readonly DiveView[],
): readonly Row[] {
  const rows: Row[] = [];
  const add = (key: string, what: string, index: number) => {
    const point = timeline[index];
    if (point) rows.push({ key, what, point, shares: shares?.[index] ?? null });
  };
  for (const dive of dives) {
    if (dive.isAbsent) continue;
    const begins = timeline.findLastIndex(({ atMin, depthM }) => near(atMin, dive.startMin) && depthM === 0);
    const surfaces = timeline.findIndex(({ atMin, depthM }) => near(atMin, dive.surfacesMin) && depthM === 0);
    add(`${dive.id} begins`, `Dive ${dive.number} begins`, begins);
    add(`${dive.id} ends`, `Dive ${dive.number} surfaces`, surfaces);
  }
  add('end', 'The bands end', timeline.length - 1);
  return rows;
}

/** Sums of leg times miss a moment by rounding alone. */
function near(a: number, b: number): boolean {
  return Math.abs(a - b) < 1e-6;
}

export const BandsTable = memo(function BandsTable(props: BandsTableProps) {
  const { timeline, shares, dives, days, diverName, reader } = props;
  const rows = rowsOf(timeline, shares, dives);
  return (
    // A region that scrolls must be reachable by keyboard.
    // eslint-disable-next-line jsx-a11y/no-noninteractive-tabindex
    <div className={styles.table} tabIndex={0} role="region" aria-label="The bands as a table">
      <table>
        <caption>Nitrogen and oxygen carried by {diverName}; shares rounded up</caption>
        <thead>
          <tr>
            <th scope="col">When</th>
            <th scope="col">What</th>
            <th scope="col">Nitrogen, share of the limit</th>
            <th scope="col">Leading compartment</th>
            <th scope="col">CNS clock</th>
            <th scope="col">Rolling 24 h</th>
            {shares !== null &&
              Array.from({ length: 16 }, (_, i) => (
                // A compartment is its place in the row.
                // eslint-disable-next-line react/no-array-index-key
                <th key={i} scope="col">
                  <abbr title={`Compartment ${i + 1}, share of its limit`}>{i + 1}</abbr>
                </th>
              ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ key, what, point, shares: all }) => (
            <tr key={key}>
              <th scope="row">{momentText(point.atMin, reader)}</th>
              <td>{what}</td>
              <td>{percentText(point.fractionOfLimit, 'up')}</td>
              <td>{point.compartment}</td>
              <td>{percentText(point.cns, 'up')}</td>
              <td>{percentText(point.cnsDay, 'up')}</td>
              {all?.map((share, i) => (
                // eslint-disable-next-line react/no-array-index-key
                <td key={i}>{percentText(share, 'up')}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      <table>
        <caption>Oxygen dose of each day</caption>
        <thead>
          <tr>
            <th scope="col">Day</th>
            <th scope="col">Taken, of what is allowed</th>
            <th scope="col">Peak of the rolling 24 h</th>
          </tr>
        </thead>
        <tbody>
          {days.map((day) => (
            <tr key={day.day}>
              <th scope="row">{dateText(day.date, true)}</th>
              <td>{day.otu === null ? 'no dives' : otuText(day.otu)}</td>
              <td>{day.otu === null ? '' : percentText(day.cnsDayPeak, 'up')}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
});
