/** What runs across strip and bands alike: the days, the moment flying is clear, the flight. */
import { memo } from 'react';
import { placeOf, type TimeScale } from './time-scale';

interface CrossingLinesProps {
  readonly time: TimeScale;
  readonly heightPx: number;
  readonly fromY: number;
  /** Baseline of what is written beside the lines: between the water and the bands, where no dive is. */
  readonly textY: number;
  readonly textScale: number;
  readonly flyAfterMin: number | null;
  readonly flightMin: number | null;
  readonly flyText: string;
  readonly flightText: string;
}

export const CrossingLines = memo(function CrossingLines(props: CrossingLinesProps) {
  const { time, heightPx, fromY, textY, textScale } = props;
  const days = Array.from({ length: time.dayCount - 1 }, (_, i) => (i + 1) * time.dayWidthPx);
  return (
    <svg className="strip-lines" width={time.widthPx} height={heightPx} aria-hidden="true">
      {days.map((x) => (
        <path key={x} className="line-day" d={`M${x} 0V${heightPx}`} />
      ))}
      <Moment
        className="line-fly"
        atMin={props.flyAfterMin}
        text={props.flyText}
        textY={textY}
        time={time}
        fromY={fromY}
        untilY={heightPx}
      />
      <Moment
        className="line-flight"
        atMin={props.flightMin}
        text={props.flightText}
        textY={fromY + 13 * textScale}
        time={time}
        fromY={fromY}
        untilY={heightPx}
      />
    </svg>
  );
});

function Moment(props: {
  readonly className: string;
  readonly atMin: number | null;
  readonly text: string;
  readonly textY: number;
  readonly time: TimeScale;
  readonly fromY: number;
  readonly untilY: number;
}) {
  const { atMin, time, className } = props;
  if (atMin === null) return null;
  const x = placeOf(time, atMin);
  if (x < 0 || x > time.widthPx) return null;
  const isLeft = x > time.widthPx / 2;
  return (
    <g className={className}>
      <path d={`M${x} ${props.fromY}V${props.untilY}`} />
      <text x={isLeft ? x - 6 : x + 6} y={props.textY} textAnchor={isLeft ? 'end' : 'start'}>
        {props.text}
      </text>
    </g>
  );
}
