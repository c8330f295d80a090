/** The ground of the strip: tints by depth, nights, lines of equal depth, hours, the waterline. */
import { memo } from 'react';
import type { DepthScale } from './depth-scale';
import styles from './dives.module.css';
import type { HourMark } from './hours';
import { NIGHT, placeOf, type TimeScale } from './time-scale';

const TINTS = [styles.tint1, styles.tint2, styles.tint3, styles.tint4, styles.tint5] as const;

/** Where a chosen dive stands in light, pixels from the strip's left edge. */
export interface Lit {
  readonly id: string;
  readonly fromX: number;
  readonly untilX: number;
}

interface WaterProps {
  readonly time: TimeScale;
  readonly depth: DepthScale;
  readonly heightPx: number;
  readonly hours: readonly HourMark[];
  readonly lit: readonly Lit[];
  /** What is past lies under a veil, up to here; null where nothing is. */
  readonly pastX: number | null;
  readonly textScale: number;
}

export const Water = memo(function Water({
  time,
  depth,
  heightPx,
  hours,
  lit,
  pastX,
  textScale,
}: WaterProps) {
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
      {lit.map(({ fromX, untilX }, i) => (
        // The light goes from dive to dive: it is the same light.
        // oxlint-disable-next-line react/no-array-index-key
        <g key={i} data-part="lamp">
          <rect className={styles.lamp} x={fromX} y={0} width={untilX - fromX} height={heightPx} />
          <path className={styles.lampEdge} d={`M${fromX} 0V${heightPx}M${untilX} 0V${heightPx}`} />
        </g>
      ))}
      <path className={styles.waterline} d={`M0 0H${time.widthPx}`} />
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
