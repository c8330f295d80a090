import { memo } from 'react';
import type { DiveView } from './dive-view';
import { MIX_LINE_PX } from './labels';
import { CARE_SIGN, mixLabel, type Mark } from './marks';

type Shown = Pick<
  DiveView,
  | 'id'
  | 'sounding'
  | 'mix'
  | 'interval'
  | 'part'
  | 'isAbsent'
  | 'isAsDived'
  | 'isTightestOfTrip'
  | 'isTightestOfDay'
  | 'care'
  | 'name'
>;

export interface DiveMarkProps extends Mark, Shown {
  readonly textScale: number;
  readonly isChosen: boolean;
  /** One dive of the strip is on the way of the Tab key; the others are reached from it. */
  readonly isTabStop: boolean;
}

/** Half the width of what can be taken hold of, wider than what is drawn. */
const REACH_PX = 7;
const BAR_REACH_PX = 12;

function classNames(props: DiveMarkProps): string {
  return [
    'dive',
    props.isChosen && 'is-chosen',
    props.isTightestOfTrip && 'is-tightest',
    props.isTightestOfDay && 'is-tightest-of-day',
    props.isAbsent && 'is-absent',
    props.part !== null && 'is-part',
    props.isAsDived && 'is-dived',
  ]
    .filter(Boolean)
    .join(' ');
}

function Weight({ lineX, weightY, part, isTightestOfTrip }: DiveMarkProps) {
  return (
    <>
      {/* As charts ring a danger with dots: the shape tells it, whatever the colour. */}
      {isTightestOfTrip && <circle className="dive-ring" cx={lineX} cy={weightY - 1} r={10.5} />}
      <path
        className={part === null ? 'dive-weight' : 'dive-weight dive-weight-hollow'}
        d={`M${lineX - 3.2} ${weightY - 5.5}h6.4l1.8 9h-10z`}
      />
    </>
  );
}

/**
 * One dive under the waterline. It has no handlers of its own: the strip reads `data-grip` and `data-dive`,
 * so that all its properties are plain values and an unchanged dive is not drawn again.
 */
export const DiveMark = memo(function DiveMark(props: DiveMarkProps) {
  const { id, lineX, weightY, barEndX, barEndY, surfacesX } = props;
  const endFromX = Math.max(barEndX - 4, lineX + REACH_PX + 1);
  return (
    <>
      <g
        className={classNames(props)}
        role="option"
        aria-selected={props.isChosen}
        aria-label={props.name}
        tabIndex={props.isTabStop ? 0 : -1}
        data-dive={id}
      >
        {/* What is not written beside it is told under the pointer. */}
        {!props.showsSounding && <title>{props.name}</title>}
        <rect
          className="dive-ground"
          x={lineX - 4}
          y={0}
          width={Math.max(surfacesX - lineX + 8, 14)}
          height={Math.max(weightY, barEndY) + 8}
        />
        <path className="dive-line" d={`M${lineX} 0V${weightY - 5}`} />
        <path className="dive-up" d={props.upPath} />
        <path className="dive-bar" d={props.barPath} />
        <Weight {...props} />
        <rect
          className="grip grip-start"
          data-grip="start"
          x={lineX - REACH_PX}
          y={-2}
          width={2 * REACH_PX}
          height={Math.max(weightY - BAR_REACH_PX, 4)}
        />
        <rect
          className="grip grip-time"
          data-grip="time"
          x={endFromX}
          y={barEndY - BAR_REACH_PX}
          width={BAR_REACH_PX}
          height={2 * BAR_REACH_PX}
        />
        <rect
          className="grip grip-depth"
          data-grip="depth"
          x={lineX - REACH_PX - 2}
          y={weightY - BAR_REACH_PX}
          width={2 * REACH_PX + 3}
          height={2 * BAR_REACH_PX}
        />
      </g>
      {/* Beside the option, not within it: its name says all of this in words, and a name that differs from
        the text inside is one that speech control cannot call. */}
      <g className={classNames(props)} aria-hidden="true" data-dive={id}>
        {props.showsSounding && (
          <text className="dive-sounding" x={props.soundingX} y={props.soundingY}>
            <tspan className="dive-figure">{props.sounding}</tspan>
            {props.care !== null && <tspan className="dive-care">{CARE_SIGN[props.care]}</tspan>}
            {props.mixPlace === 'beside' && (
              <tspan className="dive-mix" dx={3}>
                {mixLabel(props)}
              </tspan>
            )}
            {props.mixPlace === 'below' && (
              <tspan className="dive-mix" x={props.soundingX} dy={MIX_LINE_PX * props.textScale}>
                {mixLabel(props)}
              </tspan>
            )}
          </text>
        )}
        {props.showsInterval && (
          <text className="dive-interval" x={props.intervalX} y={-4}>
            {props.interval}
          </text>
        )}
      </g>
    </>
  );
});
