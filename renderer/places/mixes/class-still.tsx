import { memo, type ReactNode } from 'react';
import type { ClassCurve, Po2Stretch } from '../../../core/mixes/class-curves';
import { CLASS_DEPTHS_M, classGasSaid, classTrip } from '../../../core/mixes/class-dive';
import { surroundingsOf } from '../../../core/profile';
import { bare, figure, said } from '../../../core/words/said';
import { useWords } from '../../parts/use-words';
import { apart, niceTicks } from './chart-scale';
import { cutAt, minX, pathOf, PO2_FROM, PO2_LIMITS, po2X, TO_M, yPx, type ClassFrame } from './class-frame';
import { strokeOf, type MixLine } from './mix-line';
import styles from './class-pictures.module.css';

/** The water of the class: gauge water at sea level, whatever is dived. */
export const { column } = surroundingsOf(classTrip({ depthM: CLASS_DEPTHS_M[0], percents: [], loop: null }));

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

/** Both ends of a stretch in the picture; what lies left of its axis stands on it. */
function endsOf(frame: ClassFrame, { fromM, toM, fromBar, toBar }: Po2Stretch): [number, number][] {
  return [
    [po2X(frame, Math.max(PO2_FROM, fromBar)), yPx(frame, fromM)],
    [po2X(frame, Math.max(PO2_FROM, toBar)), yPx(frame, toM)],
  ];
}

/** Of the type size: how wide a letter is. */
const LETTER = 0.45;

/** What a loop does along its line: where it switches, and where it cannot hold its setpoint. */
function LoopLaws({ frame, curves }: { readonly frame: ClassFrame; readonly curves: readonly ClassCurve[] }) {
  const words = useWords();
  const { textPx } = frame;
  return curves.flatMap(({ gas: { loop }, po2 }) => {
    if (loop === null) return [];
    const { lowBar, highBar, switchM } = loop;
    const hasSwitch = lowBar < highBar && switchM > 0 && switchM < TO_M;
    const marks = [
      ...(hasSwitch
        ? [{ depthM: switchM, bar: highBar, says: said`switch at ${figure('depthSet', switchM)}` }]
        : []),
      ...po2
        .filter(({ law }) => law === 'not-reached')
        .map(({ toM, toBar }) => ({
          depthM: toM,
          bar: toBar,
          says: said`not reached above ${figure('depthMet', toM)}`,
        })),
      ...po2
        .filter(({ law }) => law === 'diluent')
        .map(({ fromM, toM, fromBar, toBar }) => ({
          depthM: (fromM + toM) / 2,
          bar: (fromBar + toBar) / 2,
          says: said`diluent alone, from ${figure('depthMet', fromM)}`,
        })),
    ];
    return marks.map(({ depthM, bar, says }) => {
      const text = words(says);
      const x = po2X(frame, bar);
      const isBefore = x + textPx * (0.7 + LETTER * text.length) > frame.left.to;
      return (
        <text
          key={text}
          x={isBefore ? x - textPx * 0.7 : x + textPx * 0.7}
          y={yPx(frame, depthM) + textPx * (isBefore ? 1 : 0.35)}
          textAnchor={isBefore ? 'end' : 'start'}
          className={styles.law}
        >
          {text}
        </text>
      );
    });
  });
}

/** Sea, axes and the gases' lines over depth: none of it moves with the depth in hand. */
export const StillPictures = memo(function StillPictures(props: {
  readonly lines: readonly MixLine[];
  readonly curves: readonly ClassCurve[];
  readonly untilMin: number;
  readonly frame: ClassFrame;
}): ReactNode {
  const { lines, curves, untilMin, frame } = props;
  const words = useWords();
  const { left, right, textPx } = frame;
  const drawn = curves.map(({ gas, po2, points }) => {
    const timed = points.filter(({ noStopMin }) => noStopMin !== null);
    const all = timed.map(({ depthM, noStopMin }): [number, number] => [
      minX(frame, noStopMin!, untilMin),
      yPx(frame, depthM),
    ]);
    return { gas, po2, times: cutAt(all, 0, right.to, true) };
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
      {drawn.map(({ gas, po2, times }, at) => {
        const line = strokeOf(lines[at]!, linePx(frame));
        const { id, modM } = gas;
        const deepest = po2.at(-1)!;
        const [modX, modY] = [po2X(frame, deepest.toBar), yPx(frame, deepest.toM)];
        const end = times.at(-1);
        return (
          <g key={id} data-gas={words(classGasSaid(gas))}>
            <path
              data-part="po2"
              d={pathOf(po2.flatMap((stretch) => endsOf(frame, stretch)))}
              fill="none"
              {...line}
            />
            <path data-part="no-stop" d={pathOf(times)} fill="none" {...line} />
            {modM <= TO_M ? (
              <g fill={lines[at]!.colour}>
                <Weight frame={frame} x={modX} y={modY} />
                {gas.loop === null ? (
                  <text x={modX + textPx * 0.7} y={modY + textPx * 0.35} className={styles.limit}>
                    {words(said`${figure('depthLimit', modM)}`)}
                  </text>
                ) : null}
                {end ? <Weight frame={frame} x={end[0]} y={end[1]} /> : null}
              </g>
            ) : null}
          </g>
        );
      })}
      <LoopLaws frame={frame} curves={curves} />
      {named.map(({ gas, times }, at) => (
        <g key={gas.id}>
          <path
            d={pathOf([
              [Math.max(times[0]![0], right.to), times[0]![1]],
              [right.to + textPx * 0.5, nameYs[at]!],
            ])}
            className={styles.elbow}
          />
          <text x={right.to + textPx * 0.6} y={nameYs[at]! + textPx * 0.35} className={styles.name}>
            {words(classGasSaid(gas))}
          </text>
        </g>
      ))}
    </>
  );
});
