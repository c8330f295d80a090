/** What runs across strip and bands alike: the days, the moment flying is clear, the flight. */
import { memo } from 'react';
import type { Box } from './labels';
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

/** Baseline of what is written beside the flight, under the waterline, and beside the line; at 100 % text. */
const FLIGHT_LINE_PX = 13;
const BESIDE_PX = 6;
/** A character of it, a little generous: IBM Plex Sans italic 11.5 px. */
const CHARACTER_PX = 6.2;
const DESCENDER_PX = 4;

/** Where the flight is written, from the waterline down, so that no dive is written over it; null for nowhere. */
export function flightBox(
  time: TimeScale,
  flightMin: number | null,
  text: string,
  textScale: number,
): Box | null {
  if (flightMin === null) return null;
  const x = placeOf(time, flightMin);
  if (x < 0 || x > time.widthPx) return null;
  const widthPx = text.length * CHARACTER_PX * textScale;
  const left = isLeftOf(x, time) ? x - BESIDE_PX - widthPx : x + BESIDE_PX;
  return { left, right: left + widthPx, top: 0, bottom: (FLIGHT_LINE_PX + DESCENDER_PX) * textScale };
}

/** Words stand on the side where there is more of the page. */
function isLeftOf(x: number, time: TimeScale): boolean {
  return x > time.widthPx / 2;
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
        textY={fromY + FLIGHT_LINE_PX * textScale}
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
  const isLeft = isLeftOf(x, time);
  return (
    <g className={className}>
      <path d={`M${x} ${props.fromY}V${props.untilY}`} />
      <text x={isLeft ? x - BESIDE_PX : x + BESIDE_PX} y={props.textY} textAnchor={isLeft ? 'end' : 'start'}>
        {props.text}
      </text>
    </g>
  );
}
