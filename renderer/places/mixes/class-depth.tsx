import type { KeyboardEvent, PointerEvent, ReactNode } from 'react';
import type { ClassCurve } from '../../../core/mixes/class-curves';
import { CLASS_DEPTHS_M, type ClassAtDepth } from '../../../core/mixes/class-dive';
import { ambientBar } from '../../../core/water';
import { fromUnit, toUnit, type System } from '../../../core/words/quantity';
import { bare, figure, said, worked } from '../../../core/words/said';
import { useWords } from '../../parts/use-words';
import {
  depthAt,
  depthTicks,
  minutesLabels,
  minX,
  po2X,
  TO_M,
  wholeDepth,
  yPx,
  type ClassFrame,
} from './class-frame';
import { column, StillPictures } from './class-still';
import type { MixLine } from './mix-line';
import styles from './class-pictures.module.css';

const STEPS: Readonly<Record<string, number>> = {
  ArrowDown: 1,
  ArrowRight: 1,
  ArrowUp: -1,
  ArrowLeft: -1,
  PageDown: 5,
  PageUp: -5,
};

/** Depths down the sea and the pressure at each; those that the depth in hand would cover are left out. */
function DepthTicks(props: {
  readonly frame: ClassFrame;
  readonly depthM: number;
  readonly units: System;
}): ReactNode {
  const { frame, depthM, units } = props;
  const words = useWords();
  const { left, right, textPx } = frame;
  const pressureX = (left.to + right.from) / 2;
  return (
    <>
      <text x={pressureX} y={frame.topPx - textPx * 1.1} textAnchor="middle" className={styles.tick}>
        ambient
      </text>
      {depthTicks(units).map((tickM) => {
        const y = yPx(frame, tickM);
        if (Math.abs(y - yPx(frame, depthM)) < textPx * 1.4) return null;
        return (
          <g key={tickM}>
            <text
              x={left.from - textPx * 0.5}
              y={y + textPx * 0.35}
              textAnchor="end"
              className={styles.depthTick}
            >
              {words(said`${figure('depthSet', tickM)}`)}
            </text>
            <text x={pressureX} y={y + textPx * 0.35} textAnchor="middle" className={styles.tick}>
              {words(said`${worked(ambientBar(tickM, column), 1)} bar`)}
            </text>
          </g>
        );
      })}
    </>
  );
}

/** The minutes at each crossing. */
function Minutes(props: {
  readonly frame: ClassFrame;
  readonly gases: readonly ClassAtDepth[];
  readonly lines: readonly MixLine[];
  readonly y: number;
  readonly untilMin: number;
}): ReactNode {
  const { frame, gases, lines, y, untilMin } = props;
  const words = useWords();
  const { textPx } = frame;
  const met = gases
    .map(({ id, past, curve: { meetsMin } }, at) => ({ id, past, meetsMin, line: lines[at]! }))
    .filter(({ past, meetsMin }) => past === null && meetsMin <= untilMin)
    .toSorted((a, b) => a.meetsMin - b.meetsMin)
    .map((each) => ({
      ...each,
      xPx: minX(frame, each.meetsMin, untilMin),
      text: words(said`${bare('minutesLeft', each.meetsMin)}`),
    }));
  const labels = minutesLabels(
    met.map(({ xPx, text }) => ({ xPx, digits: text.length })),
    textPx,
  );
  return met.map(({ id, line, xPx, text }, at) => (
    <g key={id}>
      <line x1={xPx} x2={xPx} y1={y} y2={frame.upperPx} stroke={line.colour} strokeDasharray="2 3" />
      <circle cx={xPx} cy={y} r={textPx * 0.43} fill={line.colour} />
      <text
        x={labels[at]!.xPx}
        y={y - textPx * (0.55 + 1.25 * labels[at]!.line)}
        textAnchor={labels[at]!.anchor}
        className={styles.minutes}
      >
        {text}
      </text>
    </g>
  ));
}

/** The depth as a lead line: dragged by its weight or anywhere on it, or moved by keys. */
export function DepthPictures(props: {
  readonly gases: readonly ClassAtDepth[];
  readonly lines: readonly MixLine[];
  readonly curves: readonly ClassCurve[];
  readonly depthM: number;
  readonly setDepth: (depthM: number) => void;
  readonly untilMin: number;
  readonly frame: ClassFrame;
  readonly units: System;
}): ReactNode {
  const { gases, depthM, setDepth, lines, curves, untilMin, frame, units } = props;
  const words = useWords();
  const { left, right, topPx, upperPx, textPx } = frame;
  const y = yPx(frame, depthM);
  const depth = words(said`${figure('depthSet', depthM)}`);
  const pressure = words(said`${worked(ambientBar(depthM, column), 2)} bar`);
  const leadX = textPx * 1.6;
  const toDepth = (event: PointerEvent<SVGElement>): void => {
    const box = event.currentTarget.ownerSVGElement!.getBoundingClientRect();
    setDepth(wholeDepth(depthAt(frame, event.clientY - box.top), event.shiftKey, units));
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const steps = STEPS[event.key];
    if (steps === undefined) return;
    event.preventDefault();
    const by = event.shiftKey ? steps / 10 : steps;
    const next = fromUnit(toUnit(depthM, 'depth', units) + by, 'depth', units);
    setDepth(wholeDepth(next, event.shiftKey, units));
  };
  return (
    <svg className={styles.picture} width={frame.widthPx} height={upperPx} fontSize={textPx}>
      <StillPictures lines={lines} curves={curves} untilMin={untilMin} frame={frame} />
      <DepthTicks frame={frame} depthM={depthM} units={units} />
      <line x1={leadX} x2={right.to} y1={y} y2={y} className={styles.depth} />
      {gases.map(({ id, po2Bar: bar, past }, at) => (
        <circle
          key={id}
          cx={po2X(frame, bar)}
          cy={y}
          r={textPx * 0.43}
          fill={past === null ? lines[at]!.colour : 'var(--sheet)'}
          stroke={past === null ? lines[at]!.colour : 'var(--caution)'}
          strokeWidth={2}
        />
      ))}
      <Minutes frame={frame} gases={gases} lines={lines} y={y} untilMin={untilMin} />
      <text
        x={(left.to + right.from) / 2}
        y={y + textPx * 0.35}
        textAnchor="middle"
        className={styles.pressure}
      >
        {pressure}
      </text>
      <g
        role="slider"
        tabIndex={0}
        aria-label="Depth"
        aria-orientation="vertical"
        aria-valuemin={CLASS_DEPTHS_M[0]}
        aria-valuemax={TO_M}
        aria-valuenow={depthM}
        aria-valuetext={`${depth}, ${pressure}`}
        className={styles.lead}
        onKeyDown={onKeyDown}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          toDepth(event);
        }}
        onPointerMove={(event) => {
          if (event.currentTarget.hasPointerCapture(event.pointerId)) toDepth(event);
        }}
      >
        <rect x={0} y={topPx} width={left.from - textPx * 3} height={upperPx - topPx} fill="transparent" />
        <line x1={leadX - textPx * 0.8} x2={leadX + textPx * 0.8} y1={topPx} y2={topPx} />
        <line x1={leadX} x2={leadX} y1={topPx} y2={y} />
        <path
          d={`M${leadX - textPx * 0.6},${y - textPx * 0.95}h${textPx * 1.2}l${textPx * 0.25},${textPx * 1.8}h${-textPx * 1.7}z`}
        />
        <text x={leadX + textPx * 1.1} y={y - textPx * 0.4} className={styles.depthText}>
          {depth}
        </text>
      </g>
    </svg>
  );
}
