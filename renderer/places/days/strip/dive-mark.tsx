import { memo, type ReactNode } from 'react';
import { useDesk } from '../../../store/store';
import type { DiveView } from './dive-view';
import styles from './dives.module.css';
import { STYLES, type Row } from './label-rows';
import type { PlacedLabel, Placement } from './labels';
import { wordsOfChosen, type Mark, type MarksSource } from './marks';

type Shown = Pick<
  DiveView,
  'id' | 'interval' | 'part' | 'isAbsent' | 'isAsDived' | 'isMissed' | 'isPast' | 'isTightestOfTrip' | 'name'
>;

export interface DiveMarkProps extends Mark, Shown {
  readonly textScale: number;
}

/** Half the width of what can be taken hold of, wider than what is drawn. */
const REACH_PX = 7;
const BAR_REACH_PX = 12;
/** What lies beyond a limit is hatched. */
export const HATCH_ID = 'beyond-the-limit';

/** States are told by shape; the look asks for them by these. */
function statesOf(props: Omit<Shown, 'id'>, isChosen: boolean) {
  return {
    'data-chosen': isChosen || undefined,
    'data-past': props.isPast || undefined,
    'data-absent': props.isAbsent || undefined,
    'data-dived': props.isAsDived || undefined,
    'data-missed': props.isMissed || undefined,
  };
}

/** A lead weight, its middle a little above its foot. */
export function weightPath(x: number, y: number, k: number): string {
  return `M${x - 3.4 * k} ${y - 5 * k}h${6.8 * k}l${1.8 * k} ${9 * k}h${-10.4 * k}z`;
}

/** A pennant on a staff of its own, flown from the waterline. */
export function pennantPath(x: number, y: number, k: number): string {
  return `M${x} ${y}v${-15 * k}l${11 * k} ${4.4 * k}l${-11 * k} ${4.4 * k}`;
}

function Weight({ lineX, weightY, part, isTightestOfTrip, textScale }: DiveMarkProps): ReactNode {
  return (
    <>
      {/* As charts ring a danger with dots: the shape tells it, whatever the colour. */}
      {isTightestOfTrip && (
        <circle className={styles.ring} data-part="ring" cx={lineX} cy={weightY} r={11.5 * textScale} />
      )}
      <path
        className={part === null ? styles.weight : styles.hollow}
        data-part={part === null ? 'weight' : 'hollow weight'}
        d={weightPath(lineX, weightY, textScale)}
      />
    </>
  );
}

/** Past a limit: a pennant on the waterline, a stroke where the limit is met, and hatched what lies beyond it. */
function Beyond({ lineX, limitX, barEndX, barEndY, textScale: k }: DiveMarkProps): ReactNode {
  return (
    <>
      <path className={styles.pennant} data-part="pennant" d={pennantPath(lineX, 0, k)} />
      {limitX !== null && (
        <>
          <rect
            className={styles.beyond}
            x={limitX}
            y={barEndY - 4.5 * k}
            width={Math.max(barEndX - limitX, 1)}
            height={9 * k}
            fill={`url(#${HATCH_ID})`}
          />
          <path className={styles.limit} d={`M${limitX} ${barEndY - 9 * k}v${18 * k}`} />
        </>
      )}
    </>
  );
}

/** The plan behind what was dived; alone and crossed out where nothing was. */
function Ghost({ ghostPath, ghostX, ghostY, barEndX, isMissed, textScale: k }: DiveMarkProps): ReactNode {
  if (ghostPath === '') return null;
  const [left, right] = [ghostX - 8 * k, Math.max(barEndX, ghostX) + 8 * k];
  return (
    <>
      <path className={styles.ghost} data-part="ghost" d={ghostPath} />
      <path className={styles.ghostWeight} d={weightPath(ghostX, ghostY, 0.86 * k)} />
      {isMissed && (
        <path
          className={styles.strike}
          data-part="strike"
          d={`M${left} ${ghostY - 10 * k}L${right} ${ghostY + 8 * k}M${left} ${ghostY + 8 * k}L${right} ${ghostY - 10 * k}`}
        />
      )}
    </>
  );
}

/** What was dived is closed and filled, and its way up as solid as its way down. */
function Dived({ filledPath, barPath }: DiveMarkProps): ReactNode {
  return (
    <>
      <path className={styles.dived} data-part="dived" d={`${filledPath}Z`} />
      <path className={styles.divedLine} d={filledPath} />
      <path className={styles.bar} d={barPath} />
    </>
  );
}

/** What is planned hangs from the waterline: a line, a weight, a bar as long as the bottom time, the way up dotted. */
function Planned(props: DiveMarkProps): ReactNode {
  const { lineX, weightY } = props;
  return (
    <>
      <path className={styles.line} d={`M${lineX} 0V${weightY - 4}`} />
      {props.upPath !== '' && <path className={styles.up} d={props.upPath} />}
      <path className={styles.bar} d={props.barPath} />
      <RoomLeft {...props} />
      {props.isPast && <Beyond {...props} />}
      <Weight {...props} />
    </>
  );
}

/** The bar goes on, open, to where the limit would be met. */
function RoomLeft({ barEndX, barEndY, roomEndX, textScale: k }: DiveMarkProps): ReactNode {
  if (roomEndX === null || roomEndX <= barEndX) return null;
  return (
    <>
      <rect
        className={styles.room}
        x={barEndX}
        y={barEndY - 2.2 * k}
        width={roomEndX - barEndX}
        height={4.4 * k}
      />
      <path className={styles.roomEnd} d={`M${roomEndX} ${barEndY - 7 * k}v${14 * k}`} />
    </>
  );
}

function Words({
  row,
  x,
  y,
  k,
}: {
  readonly row: Row;
  readonly x: number;
  readonly y: number;
  readonly k: number;
}) {
  return (
    <text x={x} y={y}>
      {row.map(({ style, text }, i) => (
        <tspan
          key={`${style} ${text}`}
          data-style={style}
          className={STYLE_NAMES[style]}
          dx={i === 0 ? undefined : text.startsWith('/') ? 1 : 4 * k}
        >
          {text}
        </tspan>
      ))}
    </text>
  );
}

const STYLE_NAMES: Readonly<Record<keyof typeof STYLES, string | undefined>> = {
  depth: styles.depth,
  note: styles.note,
  mix: styles.mix,
  italic: styles.italic,
  past: styles.past,
  care: styles.care,
  name: styles.site,
};

function Label({ label, k }: { readonly label: PlacedLabel; readonly k: number }): ReactNode {
  const { rows, leader } = label;
  return (
    <>
      {leader && (
        <path className={styles.leader} d={`M${leader[0].x} ${leader[0].y}L${leader[1].x} ${leader[1].y}`} />
      )}
      {rows.map(({ x, y, pieces }) => (
        <Words key={y} row={pieces} x={x} y={y} k={k} />
      ))}
    </>
  );
}

/** The time at the surface before it, between two strokes. */
function Interval({ intervalFromX, lineX, interval, textScale: k }: DiveMarkProps): ReactNode {
  if (intervalFromX === null) return null;
  const [from, to, y] = [intervalFromX + 3, lineX - 3, -9 * k];
  const middle = (from + to) / 2;
  const half = (interval.length * 3.5 + 5) * k;
  return (
    <>
      <path
        className={styles.interval}
        d={`M${from} ${y}H${middle - half}M${middle + half} ${y}H${to}M${from} ${y - 4}v8M${to} ${y - 4}v8`}
      />
      <text className={styles.intervalWords} x={middle} y={y} dy="0.35em">
        {interval}
      </text>
    </>
  );
}

function isSame(before: DiveMarkProps, now: DiveMarkProps): boolean {
  let key: keyof DiveMarkProps;
  for (key in now) if (key !== 'label' && before[key] !== now[key]) return false;
  return true;
}

interface ChosenWordsProps {
  readonly source: MarksSource;
  readonly placement: Placement;
}

/**
 * One dive under the waterline. It has no handlers of its own: the strip reads `data-grip` and `data-dive`,
 * so that all its properties are plain values and an unchanged dive is not drawn again.
 */
export const DiveMark = memo(function DiveMark(props: DiveMarkProps) {
  const { id, lineX, weightY, barEndX, barEndY, surfacesX, textScale: k } = props;
  const isChosen = useDesk(({ selection }) => selection.diveIds.includes(id));
  const states = statesOf(props, isChosen);
  const endFromX = Math.max(barEndX - 4, lineX + REACH_PX + 1);
  return (
    <>
      <g
        className={styles.dive}
        {...states}
        role="option"
        aria-selected={isChosen}
        aria-label={props.name}
        tabIndex={-1}
        data-dive={id}
      >
        {/* What is not written beside it is told under the pointer. */}
        <title>{props.name}</title>
        <rect
          className={styles.ground}
          x={lineX - 4}
          y={0}
          width={Math.max(surfacesX - lineX + 8, 14)}
          height={Math.max(weightY, barEndY) + 8}
        />
        <Ghost {...props} />
        {props.isAsDived ? <Dived {...props} /> : !props.isMissed && <Planned {...props} />}
        <rect
          className={styles.grip}
          data-grip="start"
          x={lineX - REACH_PX}
          y={-2}
          width={2 * REACH_PX}
          height={Math.max(weightY - BAR_REACH_PX, 4)}
        />
        <rect
          className={styles.grip}
          data-grip="time"
          x={endFromX}
          y={barEndY - BAR_REACH_PX}
          width={BAR_REACH_PX}
          height={2 * BAR_REACH_PX}
        />
        <rect
          className={styles.grip}
          data-grip="depth"
          x={lineX - REACH_PX - 2}
          y={weightY - BAR_REACH_PX}
          width={2 * REACH_PX + 3}
          height={2 * BAR_REACH_PX}
        />
      </g>
      {/* Beside the option, not within it: its name says all of this in words, and a name that differs from
        the text inside is one that speech control cannot call. */}
      <g className={styles.words} {...states} aria-hidden="true" data-dive={id}>
        {props.label && <Label label={props.label} k={k} />}
        <Interval {...props} />
      </g>
    </>
  );
}, isSame);

/** The words of the one chosen dive, where it has none of its own. */
export function ChosenWords({ source, placement }: ChosenWordsProps): ReactNode {
  const diveIds = useDesk(({ selection }) => selection.diveIds);
  const view = diveIds.length === 1 ? source.views.find(({ id }) => id === diveIds[0]) : undefined;
  const label = view && wordsOfChosen(source, placement, view);
  if (!label) return null;
  return (
    <g className={styles.words} {...statesOf(view, true)} aria-hidden="true" data-dive={view.id}>
      <Label label={label} k={source.textScale} />
    </g>
  );
}
