/** The ground of the strip: tints by depth, nights, lines of equal depth, the waterline. */
import { memo } from 'react';
import { NIGHT, placeOf, type TimeScale } from './time-scale';
import type { DepthScale } from './depth-scale';

const TINTS = [1, 2, 3, 4, 5] as const;

interface WaterProps {
  readonly time: TimeScale;
  readonly depth: DepthScale;
  readonly heightPx: number;
}

export const Water = memo(function Water({ time, depth, heightPx }: WaterProps) {
  const bandPx = heightPx / TINTS.length;
  return (
    <g aria-hidden="true">
      {TINTS.map((tint, i) => (
        <rect
          key={tint}
          className={`water-${tint}`}
          x={0}
          y={i * bandPx}
          width={time.widthPx}
          height={bandPx + 0.5}
        />
      ))}
      {nightsOf(time).map(({ day, fromX, untilX }) => (
        <rect
          key={day}
          className="water-night"
          x={fromX}
          y={0}
          width={Math.max(untilX - fromX, 0)}
          height={heightPx}
        />
      ))}
      {depth.marks.map(({ depthM }) => (
        <path key={depthM} className="water-depth" d={`M0 ${depthM * depth.pxPerM}H${time.widthPx}`} />
      ))}
      <path className="water-line" d={`M0 0H${time.widthPx}`} />
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
