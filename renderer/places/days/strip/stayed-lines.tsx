/** Had the diver stayed: of each dive ahead the nitrogen curve goes on, dotted, to where it meets the limit. */
import { useMemo, type ReactNode } from 'react';
import type { Id } from '../../../../core/document/types';
import { hadYouStayed, type Stayed } from '../../../../core/ledger/had-you-stayed';
import type { DiverLedger } from '../../../../core/ledger/ledger-types';
import { minutesText } from '../../../figures/format';
import { useTypeScale } from '../../../parts/type-scale';
import { selectAhead } from '../../../store/clock';
import { useDesk } from '../../../store/store';
import { curvePath, heightOf, UNITS_PER_PX, type CurveScale } from './curve';
import styles from './stayed-lines.module.css';
import { textWidth } from './text-width';
import { placeOf, type TimeScale } from './time-scale';

/** Longer than this nobody stays to see. */
const MOST_MIN = 30;
const STEP_MIN = 0.5;
/** Between two measures. */
const GAP_PX = 6;
/** Of the words, at 100 % text. */
const WORDS_PX = 12.5;

interface StayedLinesProps extends CurveScale {
  readonly shown: DiverLedger;
  readonly time: TimeScale;
  readonly widthPx: number;
}

export function StayedLines({ shown, time, widthPx, ...scale }: StayedLinesProps): ReactNode {
  const k = useTypeScale();
  const trip = useDesk((state) => state.trip);
  const ahead = useDesk(selectAhead);
  const stays = useMemo(
    () =>
      shown.entries.flatMap((entry, i) => {
        if (!ahead.has(entry.dive.id)) return [];
        const next = shown.entries[i + 1];
        const leavesMin = entry.startMin + entry.bottomMin;
        // Where the next dive begins the band has its own curve.
        const mostMin = Math.min(MOST_MIN, (next?.startMin ?? Infinity) - leavesMin);
        const stayed = mostMin > 0 ? hadYouStayed(entry, trip, mostMin, STEP_MIN) : null;
        return stayed === null ? [] : [{ id: entry.dive.id, ...stayed }];
      }),
    [shown, trip, ahead],
  );
  const limitY = heightOf(1, scale);
  const lines = useMemo(() => linesOf(stays, time, k), [stays, time, k]);
  return (
    <svg
      className={styles.lines}
      width={widthPx}
      height={scale.heightPx}
      viewBox={`0 0 ${widthPx * UNITS_PER_PX} ${scale.heightPx * UNITS_PER_PX}`}
      aria-hidden="true"
    >
      {lines.map(({ id, points, fromX, toX, words }) => (
        <g key={id} data-part="stayed">
          <path className={styles.stayed} d={curvePath(points, (point) => point.fractionOfLimit, scale)} />
          {words !== '' && (
            <g transform={`scale(${UNITS_PER_PX})`}>
              <path
                className={styles.measure}
                d={`M${fromX} ${limitY - 6}v5M${toX} ${limitY - 6}v5M${fromX} ${limitY - 3.5}H${toX}`}
              />
              <text className={styles.words} x={(fromX + toX) / 2} y={limitY - 9 * k}>
                {words}
              </text>
            </g>
          )}
        </g>
      ))}
    </svg>
  );
}

interface StayedLine {
  readonly id: Id;
  readonly points: readonly { readonly x: number; readonly fractionOfLimit: number }[];
  readonly fromX: number;
  readonly toX: number;
  /** Empty where the limit is not met, or the words before it stand there. */
  readonly words: string;
}

function linesOf(
  stays: readonly (Stayed & { readonly id: Id })[],
  time: TimeScale,
  textScale: number,
): readonly StayedLine[] {
  let takenUntilX = -Infinity;
  return stays.map(({ id, points, limitInMin }) => {
    const placed = points.map(({ atMin, fractionOfLimit }) => ({ x: placeOf(time, atMin), fractionOfLimit }));
    const fromX = placed[0]!.x;
    const toX = placed.at(-1)!.x;
    const words = limitInMin === null ? '' : `${minutesText(limitInMin, 'down')} to the limit`;
    const halfPx = textWidth(words, 'condensed', WORDS_PX * textScale) / 2;
    const middleX = (fromX + toX) / 2;
    const isTold = words !== '' && middleX - halfPx > takenUntilX + GAP_PX;
    if (isTold) takenUntilX = middleX + halfPx;
    return { id, points: placed, fromX, toX, words: isTold ? words : '' };
  });
}
