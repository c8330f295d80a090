import { memo, type ReactNode } from 'react';
import type { DepthCurve } from '../../../core/mixes/depth-curve';
import { CLASS_DEPTHS_M, classTrip } from '../../../core/mixes/class-dive';
import { po2Bar } from '../../../core/gas';
import { surroundingsOf } from '../../../core/profile';
import { ambientBar } from '../../../core/water';
import { bare, figure, said } from '../../../core/words/said';
import { mixSaid } from '../../../core/words/terms';
import { useWords } from '../../parts/use-words';
import { apart, niceTicks } from './chart-scale';
import { cutAt, minX, pathOf, PO2_FROM, PO2_LIMITS, po2X, TO_M, yPx, type ClassFrame } from './class-frame';
import { strokeOf, type MixLine } from './mix-line';
import styles from './class-pictures.module.css';

/** The water of the class: gauge water at sea level, whatever is dived. */
export const { column } = surroundingsOf(classTrip(CLASS_DEPTHS_M[0], []));

/** Width of the lines of mixes, pixels. */
export function linePx({ isLarge }: ClassFrame): number {
  return isLarge ? 3.4 : 2.4;
}

/** Every ten metres of depth a step darker. */
function Sea({ frame, side }: { readonly frame: ClassFrame; readonly side: 'left' | 'right' }): ReactNode {
  const { from, to } = frame[side];
  return Array.from({ length: 5 }, (_, i) => (
    <rect
      key={i}
      x={from}
      width={to - from}
      y={yPx(frame, i * 10)}
      height={yPx(frame, Math.min(TO_M, (i + 1) * 10)) - yPx(frame, i * 10)}
      fill={`var(--tint-${i + 1})`}
    />
  ));
}

/** A rule down the sea with its figure above. */
function Across(props: {
  readonly frame: ClassFrame;
  readonly x: number;
  readonly text: string;
  readonly line: string | undefined;
  readonly words: string | undefined;
}): ReactNode {
  const { frame, x, text, line, words } = props;
  return (
    <g>
      <line x1={x} x2={x} y1={frame.topPx} y2={yPx(frame, TO_M)} className={line} />
      <text x={x} y={frame.topPx - frame.textPx * 0.5} textAnchor="middle" className={words}>
        {text}
      </text>
    </g>
  );
}

/** A weight as lead lines have it: where a mix ends. */
function Weight({ frame, x, y }: { readonly frame: ClassFrame; readonly x: number; readonly y: number }) {
  const half = frame.textPx * 0.42;
  return (
    <path d={`M${x - half * 0.7},${y - half}h${half * 1.4}l${half * 0.4},${2 * half}h${-2.2 * half}z`} />
  );
}

/** Sea, axes and the mixes' lines over depth: none of it moves with the depth in hand. */
export const StillPictures = memo(function StillPictures(props: {
  readonly lines: readonly MixLine[];
  readonly curves: readonly DepthCurve[];
  readonly untilMin: number;
  readonly frame: ClassFrame;
}): ReactNode {
  const { lines, curves, untilMin, frame } = props;
  const words = useWords();
  const { left, right, textPx } = frame;
  const drawn = curves.map(({ mix, modM, points }) => {
    const timed = points.filter(({ noStopMin }) => noStopMin !== null);
    const all = timed.map(({ depthM, noStopMin }): [number, number] => [
      minX(frame, noStopMin!, untilMin),
      yPx(frame, depthM),
    ]);
    return { mix, modM, times: cutAt(all, 0, right.to, true) };
  });
  const named = drawn.filter(({ times }) => times.length > 0);
  const nameYs = apart(
    named.map(({ times }) => times[0]![1]),
    textPx * 1.15,
    frame.upperPx - textPx * 0.5,
  );
  return (
    <>
      <Sea frame={frame} side="left" />
      <Sea frame={frame} side="right" />
      <text x={left.from} y={textPx} className={styles.title}>
        PO2, bar
      </text>
      <text
        x={po2X(frame, (PO2_LIMITS[0] + PO2_LIMITS[1]) / 2)}
        y={textPx}
        textAnchor="middle"
        className={styles.limit}
      >
        limits
      </text>
      <text x={right.from} y={textPx} className={styles.title}>
        No-stop time by depth, minutes
      </text>
      {[0.4, 0.6, 0.8, 1, 1.2].map((bar) => (
        <Across
          key={bar}
          frame={frame}
          x={po2X(frame, bar)}
          text={words(said`${bare('po2Limit', bar)}`)}
          line={styles.grid}
          words={styles.tick}
        />
      ))}
      {niceTicks(0, untilMin, 6).map((min) => (
        <Across
          key={min}
          frame={frame}
          x={minX(frame, min, untilMin)}
          text={words(said`${bare('minutesTyped', min)}`)}
          line={styles.grid}
          words={styles.tick}
        />
      ))}
      {PO2_LIMITS.map((bar, i) => (
        <Across
          key={bar}
          frame={frame}
          x={po2X(frame, bar)}
          text={words(said`${bare('po2Limit', bar)}`)}
          line={i === 0 ? styles.working : styles.contingency}
          words={styles.limit}
        />
      ))}
      {drawn.map(({ mix, modM, times }, at) => {
        const line = strokeOf(lines[at]!, linePx(frame));
        const deepest = Math.min(modM, TO_M);
        const slope: [number, number][] = [0, deepest].map((depthM) => [
          po2X(frame, Math.max(PO2_FROM, po2Bar(mix.o2, ambientBar(depthM, column)))),
          yPx(frame, depthM),
        ]);
        const [modX, modY] = slope[1]!;
        const end = times.at(-1);
        return (
          <g key={mix.id} data-mix={words(mixSaid(mix.o2))}>
            <path data-part="po2" d={pathOf(slope)} fill="none" {...line} />
            <path data-part="no-stop" d={pathOf(times)} fill="none" {...line} />
            {modM <= TO_M ? (
              <g fill={lines[at]!.colour}>
                <Weight frame={frame} x={modX} y={modY} />
                <text x={modX + textPx * 0.7} y={modY + textPx * 0.35} className={styles.limit}>
                  {words(said`${figure('depthLimit', modM)}`)}
                </text>
                {end ? <Weight frame={frame} x={end[0]} y={end[1]} /> : null}
              </g>
            ) : null}
          </g>
        );
      })}
      {named.map(({ mix, times }, at) => (
        <g key={mix.id}>
          <path
            d={pathOf([
              [Math.max(times[0]![0], right.to), times[0]![1]],
              [right.to + textPx * 0.5, nameYs[at]!],
            ])}
            className={styles.elbow}
          />
          <text x={right.to + textPx * 0.6} y={nameYs[at]! + textPx * 0.35} className={styles.name}>
            {words(mixSaid(mix.o2))}
          </text>
        </g>
      ))}
    </>
  );
});
