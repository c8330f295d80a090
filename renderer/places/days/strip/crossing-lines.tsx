/** What runs across strip and bands alike, past their titles: the days, the moment flying is clear, the flight, now. */
import { memo, type ReactNode } from 'react';
import { useDesk } from '../../../store/store';
import styles from './bands.module.css';
import type { BoardDay } from './board-view';
import type { DiveView } from './dive-view';
import type { Mark } from './marks';
import { BOARD_ROW_PX, HEAD_PX } from './strip-layout';
import { textWidth } from './text-width';
import { placeOf, type TimeScale } from './time-scale';

/** A part of the page that lines run through, from top to bottom. */
export interface Stretch {
  readonly fromY: number;
  readonly untilY: number;
}

interface CrossingLinesProps {
  readonly time: TimeScale;
  readonly heightPx: number;
  readonly waterlineY: number;
  /** The water, then each band. */
  readonly stretches: readonly Stretch[];
  readonly textScale: number;
  readonly lastSurfacingMin: number | null;
  readonly flyAfterMin: number | null;
  readonly flightMin: number | null;
  readonly nowMin: number | null;
  /** "Now 20:40" */
  readonly nowText: string;
}

/** Above the waterline, at 100 % text: the staff of a line, and the bar that leads to it. */
const STAFF_PX = 8;
const BAR_PX = 4;

export const CrossingLines = memo(function CrossingLines(props: CrossingLinesProps): ReactNode {
  const { time, heightPx, stretches, waterlineY, textScale, flyAfterMin, lastSurfacingMin } = props;
  const days = Array.from({ length: time.dayCount - 1 }, (_, i) => (i + 1) * time.dayWidthPx);
  const [water, ...bands] = stretches;
  const dayRules = [{ fromY: 0, untilY: water?.untilY ?? 0 }, ...bands];
  const staffed = [{ fromY: waterlineY - STAFF_PX * textScale, untilY: water?.untilY ?? 0 }, ...bands];
  const flyX = flyAfterMin === null ? null : placeOf(time, flyAfterMin);
  const fromX = lastSurfacingMin === null ? null : placeOf(time, lastSurfacingMin) + 2;
  const barY = waterlineY - BAR_PX * textScale;
  return (
    <svg className={styles.lines} data-part="lines" width={time.widthPx} height={heightPx} aria-hidden="true">
      <path className={styles.lineDay} d={days.map((x) => through(x, dayRules)).join('')} />
      {flyX !== null && fromX !== null && flyX > fromX && (
        <path className={styles.flyBar} d={`M${fromX} ${barY}H${Math.min(flyX, time.widthPx)}`} />
      )}
      <Moment part="fly" className={styles.lineFly} atMin={flyAfterMin} time={time} stretches={staffed} />
      <Now {...props} stretches={[{ fromY: waterlineY - 2, untilY: water?.untilY ?? 0 }, ...bands]} />
      <Moment
        part="flight"
        className={styles.lineFlight}
        atMin={props.flightMin}
        time={time}
        stretches={staffed}
      />
    </svg>
  );
});

const TAG_PX = 12;

/** Where the clock is: done to the left of it, to come to the right. */
function Now(props: CrossingLinesProps): ReactNode {
  const { nowMin, nowText, time, stretches, waterlineY, textScale: k } = props;
  if (nowMin === null) return null;
  const x = placeOf(time, nowMin);
  if (x < 0 || x > time.widthPx) return null;
  const width = textWidth(nowText, 'condensedBold', TAG_PX * k) + 8 * k;
  const left = Math.max(0, x - width);
  return (
    <g data-part="now">
      <path className={styles.now} d={through(x, stretches)} />
      <rect className={styles.nowTag} x={left} y={waterlineY - 19 * k} width={width} height={16 * k} />
      <path
        className={styles.nowTag}
        d={`M${x - 5 * k} ${waterlineY - 3.4 * k}h${10 * k}l${-5 * k} ${6 * k}z`}
      />
      <text className={styles.nowWords} x={left + width / 2} y={waterlineY - 7 * k}>
        {nowText}
      </text>
    </g>
  );
}

/** One line through several parts of the page. */
function through(x: number, stretches: readonly Stretch[]): string {
  return stretches.map(({ fromY, untilY }) => `M${x} ${fromY}V${untilY}`).join('');
}

function Moment(props: {
  readonly part: string;
  readonly className: string | undefined;
  readonly atMin: number | null;
  readonly time: TimeScale;
  readonly stretches: readonly Stretch[];
}): ReactNode {
  const { atMin, time, className, part, stretches } = props;
  if (atMin === null) return null;
  const x = placeOf(time, atMin);
  if (x < 0 || x > time.widthPx) return null;
  return <path className={className} data-part={part} d={through(x, stretches)} />;
}

interface ElbowProps {
  readonly views: readonly DiveView[];
  readonly marks: readonly Mark[];
  readonly board: readonly BoardDay[];
  readonly time: TimeScale;
  readonly waterlineY: number;
  readonly textScale: number;
}

/** From the row of the one dive that is chosen down to its line; none where it has no row. */
export function Elbow(props: ElbowProps): ReactNode {
  const { views, marks, board, time, waterlineY, textScale } = props;
  const diveIds = useDesk(({ selection }) => selection.diveIds);
  if (diveIds.length !== 1) return null;
  const [chosen] = diveIds;
  const mark = marks[views.findIndex(({ id }) => id === chosen)];
  const dayAt = board.findIndex((day) => day.rows.some(({ id }) => id === chosen));
  if (mark === undefined || dayAt === -1) return null;
  const row = board[dayAt]!.rows.findIndex(({ id }) => id === chosen);
  const rowY = (HEAD_PX + (row + 1) * BOARD_ROW_PX) * textScale;
  const turnY = waterlineY - 5 * textScale;
  return (
    <svg
      className={styles.lines}
      data-part="elbow"
      width={time.widthPx}
      height={waterlineY}
      aria-hidden="true"
    >
      <path
        className={styles.elbow}
        d={`M${dayAt * time.dayWidthPx + 3} ${rowY}V${turnY}H${mark.lineX}V${waterlineY}`}
      />
    </svg>
  );
}
