import { useRef, type ReactNode } from 'react';
import { CartesianGrid, Line, LineChart, ReferenceArea, ReferenceLine, XAxis, YAxis } from 'recharts';
import { leadingCompartments, type NitrogenCurve } from '../../../core/mixes/nitrogen-curve';
import { COMPARTMENTS } from '../../../core/tissues/compartments';
import { bare, figure, said } from '../../../core/words/said';
import { shortText } from '../../figures/format';
import { useChartSize } from './use-chart-size';
import { useWords } from '../../parts/use-words';
import { apart, niceTicks } from './chart-scale';
import { strokeOf, type MixLine } from './mix-line';
import styles from './nitrogen-chart.module.css';

/** A mix in the picture. */
export interface NitrogenLine {
  readonly id: string;
  readonly name: string;
  readonly line: MixLine;
  readonly curve: NitrogenCurve;
}

const MARGIN = { top: 26, right: 74, bottom: 4, left: 4 } as const;
const SHARES_PX = 50;
const MINUTES_PX = 26;
/** Past the limit so much is shown, as a share. Source: this project's; what lies higher is past it all the same. */
const MOST_SHARE = 1.3;
const NAMES_PX = 17;

/**
 * Nitrogen, were the dive left now: the leading share of each mix over the minutes, the compartments of the mix in
 * hand beneath, and a drop line where each meets the limit.
 */
export function NitrogenChart(props: {
  readonly lines: readonly NitrogenLine[];
  readonly inHand: string | null;
  /** Null: none is planned. */
  readonly plannedMin: number | null;
  readonly untilMin: number;
  readonly label: string;
  readonly hasHalfTimes: boolean;
}): ReactNode {
  const { lines, inHand, plannedMin, untilMin, label, hasHalfTimes } = props;
  const words = useWords();
  const box = useRef<HTMLDivElement>(null);
  const size = useChartSize(box);
  const widthPx = size?.widthPx ?? 0;
  const heightPx = size?.heightPx ?? 0;
  const frame = {
    left: MARGIN.left + SHARES_PX,
    right: widthPx - MARGIN.right,
    top: MARGIN.top,
    bottom: heightPx - MARGIN.bottom - MINUTES_PX,
  };
  const xPx = (min: number) => frame.left + (min / untilMin) * (frame.right - frame.left);
  const yPx = (share: number) => frame.bottom - (share / MOST_SHARE) * (frame.bottom - frame.top);
  const ticks = niceTicks(0, untilMin, Math.max(3, Math.round(widthPx / 90))).filter(
    (min) => min <= untilMin,
  );
  const held = lines.find(({ id }) => id === inHand) ?? null;
  const leading = held === null ? [] : leadingCompartments(held.curve);
  const drops = lines.filter(({ curve }) => curve.meetsMin <= untilMin && curve.meetsMin > 0);
  const ends = lines
    .map(({ curve, name, id }) => ({ id, name, y: yPx(Math.min(MOST_SHARE, curve.points.at(-1)!.share)) }))
    .toSorted((a, b) => a.y - b.y);
  const endYs = apart(
    ends.map(({ y }) => y),
    NAMES_PX,
    frame.bottom,
  );
  return (
    <div ref={box} className={styles.box}>
      {size === null ? null : (
        <>
          <LineChart width={widthPx} height={heightPx} margin={MARGIN} title={label}>
            <ReferenceArea y1={1} y2={MOST_SHARE} fill="var(--caution-wash)" fillOpacity={0.62} />
            <CartesianGrid stroke="var(--rule)" />
            <XAxis
              dataKey="min"
              type="number"
              domain={[0, untilMin]}
              ticks={[...ticks]}
              interval={0}
              height={MINUTES_PX}
              stroke="var(--line)"
              tickLine={false}
              tick={{ fill: 'var(--ink-soft)', fontSize: 13 }}
              tickFormatter={(min: number) => words(said`${bare('minutesTyped', min)}`)}
            />
            <YAxis
              dataKey="share"
              type="number"
              domain={[0, MOST_SHARE]}
              ticks={[0, 0.5, 1]}
              allowDataOverflow
              interval={0}
              width={SHARES_PX}
              axisLine={false}
              tickLine={false}
              tick={{ fill: 'var(--ink-soft)', fontSize: 13 }}
              tickFormatter={(share: number) => words(said`${figure('shareTyped', share)}`)}
            />
            <ReferenceLine y={1} stroke="var(--caution)" strokeWidth={1.5} strokeDasharray="9 3 2 3" />
            {plannedMin === null ? null : <ReferenceLine x={plannedMin} stroke="var(--line)" />}
            {leading.map((compartment) => (
              <Line
                key={`thin ${compartment}`}
                data={held!.curve.points.map(({ min, shares }) => ({
                  min,
                  share: Math.max(0, shares[compartment]!),
                }))}
                dataKey="share"
                stroke="var(--nitrogen)"
                strokeOpacity={0.6}
                strokeWidth={0.9}
                dot={false}
                activeDot={false}
                isAnimationActive={false}
              />
            ))}
            {lines.map(({ id, line, curve }) => (
              <Line
                key={id}
                data={curve.points.map(({ min, share }) => ({ min, share: Math.max(0, share) }))}
                dataKey="share"
                {...strokeOf(line, id === inHand ? 3 : 2.2)}
                dot={false}
                activeDot={false}
                isAnimationActive={false}
              />
            ))}
          </LineChart>
          <svg className={styles.over} width={widthPx} height={heightPx} aria-hidden="true">
            <text x={frame.left + 10} y={yPx(1) - 8} className={styles.limit}>
              limit: above it, stops on the way up
            </text>
            {hasHalfTimes
              ? leading.map((compartment) => {
                  const { points } = held!.curve;
                  // Set into its line where it leads, as a depth is into its contour.
                  const own = points.filter(({ shares, share }) => shares[compartment] === share);
                  const at = own[Math.floor(own.length / 2)]!;
                  if (at.share > 0.96 || at.share < 0.05) return null;
                  return (
                    <text
                      key={compartment}
                      x={xPx(at.min)}
                      y={yPx(at.share) + 16}
                      className={styles.halfTime}
                    >
                      {shortText(COMPARTMENTS[compartment]!.halfTimeMin, 1)}
                    </text>
                  );
                })
              : null}
            {drops.map(({ id, line, curve, name }) => (
              <g key={id}>
                <line
                  x1={xPx(curve.meetsMin)}
                  x2={xPx(curve.meetsMin)}
                  y1={yPx(1)}
                  y2={frame.bottom}
                  stroke={line.colour}
                  strokeDasharray="2 3"
                />
                <circle
                  cx={xPx(curve.meetsMin)}
                  cy={yPx(1)}
                  r={6}
                  fill={id === inHand ? line.colour : 'var(--sheet)'}
                  stroke={line.colour}
                  strokeWidth={2}
                />
                <text
                  x={xPx(curve.meetsMin)}
                  y={frame.bottom - 10}
                  textAnchor="middle"
                  className={styles.met}
                  data-mix={name}
                >
                  {words(said`${figure('minutesLeft', curve.meetsMin)}`)}
                </text>
              </g>
            ))}
            {ends.map(({ id, name }, i) => (
              <text key={id} x={frame.right + 8} y={endYs[i]! + 5} className={styles.name}>
                {name}
              </text>
            ))}
            {plannedMin === null ? null : (
              <g>
                <path
                  d={`M${xPx(plannedMin) - 4},${frame.bottom - 12}h8l2,12h-12z`}
                  className={styles.weight}
                />
                <text x={xPx(plannedMin)} y={frame.top - 8} textAnchor="middle">
                  planned {words(said`${figure('minutesSet', plannedMin)}`)}
                </text>
              </g>
            )}
          </svg>
        </>
      )}
    </div>
  );
}
