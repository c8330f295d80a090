import type { ReactNode } from 'react';
import { classGasSaid, type ClassAtDepth } from '../../../core/mixes/class-dive';
import { leadingCompartments } from '../../../core/mixes/nitrogen-curve';
import { COMPARTMENTS } from '../../../core/tissues/compartments';
import { bare, figure, said } from '../../../core/words/said';
import { shortText } from '../../figures/format';
import { useWords } from '../../parts/use-words';
import { niceTicks } from './chart-scale';
import { cutAt, LEFT_SHARE, minX, MOST_SHARE, pathOf, shareY, type ClassFrame } from './class-frame';
import { linePx } from './class-still';
import { strokeOf, type MixLine } from './mix-line';
import styles from './class-pictures.module.css';

/** The name of a thin line stands so far along it, each slower one further on: there they lie apart. */
const NAMED_FROM = 0.1;
const NAMED_STEP = 0.085;

/** The nitrogen of each gas over the minutes at the depth, beneath the no-stop times and on the same scale. */
export function MinutesPicture(props: {
  readonly gases: readonly ClassAtDepth[];
  readonly lines: readonly MixLine[];
  readonly untilMin: number;
  readonly frame: ClassFrame;
  /** Whose compartments are drawn too; null: nobody's. */
  readonly inHand: ClassAtDepth | null;
  /** The depth, worded. */
  readonly depth: string;
}): ReactNode {
  const { gases, lines, untilMin, frame, inHand, depth } = props;
  const words = useWords();
  const { textPx, lowerPx, lower, right, widthPx } = frame;
  const startPx = widthPx * LEFT_SHARE;
  const x = (min: number): number => minX(frame, min, untilMin) - startPx;
  const fromPx = right.from - startPx;
  const toPx = right.to - startPx;
  const topPx = shareY(frame, MOST_SHARE);
  const limitPx = shareY(frame, 1);
  const told = gases
    .filter(({ curve, past }) => past === null && Number.isFinite(curve.meetsMin))
    .map((gas) =>
      words(said`${classGasSaid(gas)} meets the limit at ${figure('minutesLeft', gas.curve.meetsMin)}`),
    );
  const path = (points: readonly (readonly [number, number])[]): string =>
    pathOf(
      cutAt(
        points.map(([min, share]) => [x(min), shareY(frame, share)] as const),
        1,
        topPx,
        false,
      ),
    );
  const leading = inHand === null ? [] : leadingCompartments(inHand.curve);
  return (
    <svg
      className={styles.picture}
      width={widthPx - startPx}
      height={lowerPx}
      fontSize={textPx}
      role="img"
      aria-label={`Nitrogen over the minutes: ${told.join(', ')}`}
    >
      <rect x={fromPx} y={topPx} width={toPx - fromPx} height={lower.bottom - topPx} fill="var(--sheet)" />
      <rect
        x={fromPx}
        y={topPx}
        width={toPx - fromPx}
        height={limitPx - topPx}
        fill="var(--caution-wash)"
        fillOpacity={0.62}
      />
      {niceTicks(0, untilMin, 6).map((min) => (
        <line key={min} x1={x(min)} x2={x(min)} y1={topPx} y2={lower.bottom} className={styles.rule} />
      ))}
      <line x1={fromPx} x2={toPx} y1={shareY(frame, 0.5)} y2={shareY(frame, 0.5)} className={styles.rule} />
      <line x1={fromPx} x2={toPx} y1={lower.bottom} y2={lower.bottom} className={styles.axis} />
      {leading.map((compartment) => (
        <path
          key={compartment}
          data-part="compartment"
          d={path(inHand!.curve.points.map(({ min, shares }) => [min, shares[compartment]!]))}
          className={styles.thin}
        />
      ))}
      {gases.map((gas, at) => (
        <path
          key={gas.id}
          data-part="nitrogen"
          data-gas={words(classGasSaid(gas))}
          d={path(gas.curve.points.map(({ min, share }) => [min, share]))}
          fill="none"
          opacity={gas.past === null ? 1 : 0.25}
          {...strokeOf(lines[at]!, linePx(frame))}
        />
      ))}
      {leading.map((compartment, at) => {
        const { points } = inHand!.curve;
        const point = points[Math.round((points.length - 1) * Math.min(1, NAMED_FROM + NAMED_STEP * at))]!;
        const share = point.shares[compartment]!;
        if (share < 0.06 || share > MOST_SHARE) return null;
        return (
          <text
            key={compartment}
            x={x(point.min)}
            y={shareY(frame, share) + textPx * 0.35}
            textAnchor="middle"
            className={styles.halfTime}
          >
            {shortText(COMPARTMENTS[compartment]!.halfTimeMin, 1)}
          </text>
        );
      })}
      <line x1={fromPx} x2={toPx} y1={limitPx} y2={limitPx} className={styles.working} />
      {gases.map(({ id, curve, past }, at) =>
        past !== null || curve.meetsMin > untilMin ? null : (
          <g key={id} stroke={lines[at]!.colour}>
            <line
              x1={x(curve.meetsMin)}
              x2={x(curve.meetsMin)}
              y1={0}
              y2={lower.bottom}
              strokeDasharray="2 3"
            />
            <circle cx={x(curve.meetsMin)} cy={limitPx} r={textPx * 0.43} fill={lines[at]!.colour} />
          </g>
        ),
      )}
      <text x={fromPx} y={textPx * 1.35} className={styles.over}>
        <tspan className={styles.title}>Nitrogen</tspan>
        {` were ${depth} left after so many minutes`}
      </text>
      {inHand === null ? null : (
        // Every line rises: this corner is free, and over the picture there is no room for both on paper.
        <text
          x={toPx - textPx * 0.4}
          y={lower.bottom - textPx * 0.6}
          textAnchor="end"
          className={`${styles.over} ${styles.tick}`}
        >
          {`thin: compartments on ${words(classGasSaid(inHand))}, half-time in min`}
        </text>
      )}
      {niceTicks(0, untilMin, 6).map((min) => (
        <text key={min} x={x(min)} y={lowerPx - textPx * 0.45} textAnchor="middle" className={styles.tick}>
          {words(said`${bare('minutesTyped', min)}`)}
        </text>
      ))}
      <text x={toPx + textPx * 0.5} y={limitPx + textPx * 0.35} className={styles.limit}>
        limit
      </text>
      <text x={toPx + textPx * 0.5} y={shareY(frame, 0.5) + textPx * 0.35} className={styles.tick}>
        half
      </text>
      <text x={toPx + textPx * 0.5} y={lower.bottom + textPx * 0.2} className={styles.tick}>
        at rest
      </text>
    </svg>
  );
}
