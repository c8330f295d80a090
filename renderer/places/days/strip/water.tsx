/** The ground of the strip: tints by depth, nights, lines of equal depth; the waterline with its hours; the light. */
import { memo } from 'react';
import { useDesk } from '../../../store/store';
import type { DepthScale } from './depth-scale';
import type { DiveView } from './dive-view';
import styles from './dives.module.css';
import type { HourMark } from './hours';
import type { Mark } from './marks';
import { NIGHT, placeOf, type TimeScale } from './time-scale';

const TINTS = [styles.tint1, styles.tint2, styles.tint3, styles.tint4, styles.tint5] as const;

interface WaterProps {
  readonly time: TimeScale;
  readonly depth: DepthScale;
  readonly heightPx: number;
  /** What is past lies under a veil, up to here; null where nothing is. */
  readonly pastX: number | null;
}

export const Water = memo(function Water({ time, depth, heightPx, pastX }: WaterProps) {
  const bandPx = heightPx / TINTS.length;
  return (
    <g aria-hidden="true">
      {TINTS.map((tint, i) => (
        <rect key={tint} className={tint} x={0} y={i * bandPx} width={time.widthPx} height={bandPx + 0.5} />
      ))}
      {nightsOf(time).map(({ day, fromX, untilX }) => (
        <rect
          key={day}
          className={styles.night}
          x={fromX}
          y={0}
          width={Math.max(untilX - fromX, 0)}
          height={heightPx}
        />
      ))}
      {depth.marks.map(({ depthM }) => (
        <path key={depthM} className={styles.depthLine} d={`M0 ${depthM * depth.pxPerM}H${time.widthPx}`} />
      ))}
      {pastX !== null && pastX > 0 && (
        <rect className={styles.veil} x={0} y={0} width={Math.min(pastX, time.widthPx)} height={heightPx} />
      )}
    </g>
  );
});

interface WaterlineProps {
  readonly widthPx: number;
  readonly hours: readonly HourMark[];
  readonly textScale: number;
}

/** The waterline and the hours beneath it. */
export const Waterline = memo(function Waterline({ widthPx, hours, textScale }: WaterlineProps) {
  return (
    <g aria-hidden="true">
      <path className={styles.waterline} d={`M0 0H${widthPx}`} />
      {hours.map(({ x, label, isTold }) => (
        <g key={x}>
          <path className={styles.hourTick} d={`M${x} 0v${(isTold ? 6 : 3) * textScale}`} />
          {isTold && (
            <text className={styles.hour} data-part="hour" x={x} y={17 * textScale}>
              {label}
            </text>
          )}
        </g>
      ))}
    </g>
  );
});

/** The light around a chosen dive, at 100 % text: before its line, after it surfaced, and its least width. */
const LIT_PX = { before: 7, after: 5, least: 16 };

interface LampsProps {
  readonly views: readonly DiveView[];
  readonly marks: readonly Mark[];
  readonly heightPx: number;
  readonly textScale: number;
}

/** The chosen dives stand in light. */
export const Lamps = memo(function Lamps({ views, marks, heightPx, textScale }: LampsProps) {
  const diveIds = useDesk(({ selection }) => selection.diveIds);
  return (
    <g aria-hidden="true">
      {marks
        .filter((_mark, at) => diveIds.includes(views[at]!.id))
        .map(({ lineX, surfacesX }, at) => {
          const fromX = lineX - LIT_PX.before * textScale;
          const untilX = Math.max(surfacesX + LIT_PX.after * textScale, lineX + LIT_PX.least * textScale);
          return (
            // The light goes from dive to dive: it is the same light.
            // oxlint-disable-next-line react/no-array-index-key
            <g key={at} data-part="lamp">
              <rect className={styles.lamp} x={fromX} y={0} width={untilX - fromX} height={heightPx} />
              <path className={styles.lampEdge} d={`M${fromX} 0V${heightPx}M${untilX} 0V${heightPx}`} />
            </g>
          );
        })}
    </g>
  );
});

/** From dusk to dawn, and the two ends of the page. */
function nightsOf(
  time: TimeScale,
): readonly { readonly day: number; readonly fromX: number; readonly untilX: number }[] {
  const nights = [];
  for (let day = time.firstDay; day <= time.firstDay + time.dayCount; day += 1) {
    const duskMin = (day - 1) * 1440 + NIGHT.beginsAtMin;
    const dawnMin = day * 1440 + NIGHT.endsAtMin;
    nights.push({
      day,
      fromX: Math.max(0, placeOf(time, duskMin)),
      untilX: Math.min(time.widthPx, placeOf(time, dawnMin)),
    });
  }
  return nights;
}
