import { useMemo, useRef, type KeyboardEvent, type ReactElement, type ReactNode } from 'react';
import {
  ReferenceArea,
  ReferenceLine,
  Scatter,
  ScatterChart,
  Tooltip,
  XAxis,
  YAxis,
  type TooltipContentProps,
} from 'recharts';
import type { CompareRow } from '../../../core/mixes/compare';
import { depthCurves } from '../../../core/mixes/depth-curve';
import type { Diver, Trip } from '../../../core/document/types';
import { forOwnWaterSaid } from '../../../core/ledger/water-said';
import { fromUnit, toUnit, type System } from '../../../core/words/quantity';
import { bare, figure, said } from '../../../core/words/said';
import { mixSaid } from '../../../core/words/terms';
import { unitText } from '../../figures/format';
import { useChartSize } from './use-chart-size';
import { useWords } from '../../parts/use-words';
import { mixLines, strokeOf, type MixLine } from './mix-line';
import { SeaLabels } from './sea-labels';
import { isSnug, markSaid, seaMarks, seaPlans, type SeaMark, type SeaPlan } from './sea-marks';
import { apart } from './chart-scale';
import {
  BEYOND_MIN,
  LONGEST_MIN,
  MINUTE_TICKS,
  namesPx,
  seaScale,
  SHORTEST_MIN,
  type SeaScale,
} from './sea-scale';
import styles from './sea-chart.module.css';

/** A site and a mix that is pointed at, by their places in the table. */
export interface Pointed {
  readonly siteId: string;
  readonly mixId: string;
}

const MARGIN = { top: 4, bottom: 4, left: 4 } as const;
const DEPTHS_PX = 44;
const MINUTES_PX = 30;
const NAMES_PX = 19;

/** Depths that have a line, in the unit of the reader. */
function depthTicks(fromM: number, toM: number, units: System): readonly number[] {
  const step = units === 'imperial' ? 30 : 10;
  const from = Math.ceil(toUnit(fromM, 'depth', units) / step);
  const to = Math.floor(toUnit(toM, 'depth', units) / step);
  return Array.from({ length: Math.max(0, to - from + 1) }, (_, i) =>
    fromUnit((from + i) * step, 'depth', units),
  );
}

/** The weight of a lead line: where a mix ends, and what is planned. */
function Weight(props: {
  readonly xPx: number;
  readonly yPx: number;
  readonly className: string | undefined;
  readonly fill?: string;
}): ReactNode {
  const { xPx, yPx, className, fill } = props;
  return <path d={`M${xPx - 4},${yPx - 6}h8l2,12h-12z`} className={className} {...(fill ? { fill } : {})} />;
}

function Ends(props: {
  readonly scale: SeaScale;
  readonly curves: ReturnType<typeof depthCurves>;
  readonly lines: readonly MixLine[];
}): ReactNode {
  const { scale, curves, lines } = props;
  const words = useWords();
  return curves.map(({ mix, modM, points }, at) => {
    const end = points.at(-1);
    if (!end) return null;
    const name = words(mixSaid(mix.analysedO2 ?? mix.o2));
    const mod = words(said`${figure('depthLimit', modM)}`);
    const [x, y] = [scale.xPx(end.noStopMin), scale.yPx(end.depthM)];
    if (modM > scale.toM) {
      return (
        <text key={mix.id} x={x - 10} y={y - 6} textAnchor={x - scale.left > 90 ? 'end' : 'start'}>
          <tspan className={styles.strong}>{name}</tspan>, to {mod}
        </text>
      );
    }
    return (
      <g key={mix.id}>
        <Weight xPx={x} yPx={y} className={undefined} fill={lines[at]!.colour} />
        <text x={x + 13} y={y + 5}>
          <tspan className={styles.strong}>{name}</tspan> ends at its MOD,{' '}
          <tspan className={styles.care}>{mod}</tspan>
        </text>
      </g>
    );
  });
}

/** The planned minutes as a weight, and what is left of them as a bar to the limit. */
function Plan({ plan, scale }: { readonly plan: SeaPlan; readonly scale: SeaScale }): ReactNode {
  const words = useWords();
  const y = scale.yPx(plan.depthM);
  const [from, to] = [scale.xPx(plan.min), scale.xPx(plan.noStopMin)];
  const tone = isSnug(plan) ? styles.careBar : styles.bar;
  return (
    <g className={tone}>
      <line x1={from} x2={to} y1={y} y2={y} />
      <Weight xPx={from} yPx={y - 3} className={styles.weight} />
      <text x={from} y={y + 17} textAnchor="middle">
        {words(said`${bare('minutesSet', plan.min)}`)}
      </text>
    </g>
  );
}

/** A mark as recharts hands it back, with all that it is drawn by: it may be a frame behind the rest. */
interface Drawn {
  readonly mark: SeaMark;
  readonly colour: string;
  readonly isPointed: boolean;
}

/** A line's own points have no mark. */
function unmarked(): ReactElement {
  return <g />;
}

function drawn(given: {
  readonly cx?: number | undefined;
  readonly cy?: number | undefined;
  readonly payload?: unknown;
}): ReactElement {
  const { mark, colour, isPointed } = given.payload as Drawn;
  return (
    <circle
      cx={given.cx ?? 0}
      cy={given.cy ?? 0}
      r={isPointed ? 7 : 5}
      fill={mark.isUsed ? colour : 'var(--sheet)'}
      stroke={colour}
      strokeWidth={2}
    />
  );
}

/**
 * No-stop time by depth for each mix, down to its MOD, with the sites on it: as a first dive, or in the trip with the
 * planned time of the site's tightest dive. The table beneath has the same figures.
 */
export function SeaChart(props: {
  readonly trip: Trip;
  /** Deepest last. */
  readonly rows: readonly CompareRow[];
  readonly divers: readonly Diver[];
  readonly inTrip: boolean;
  readonly units: System;
  readonly pointed: Pointed | null;
  readonly point: (at: Pointed | null) => void;
}): ReactNode {
  const { trip, rows, divers, inTrip, units, pointed, point } = props;
  const words = useWords();
  const box = useRef<HTMLDivElement>(null);
  const size = useChartSize(box);
  const mixes = useMemo(() => rows[0]?.cells.map(({ mix }) => mix) ?? [], [rows]);
  const lines = useMemo(() => mixLines(mixes), [mixes]);
  const depths = rows.map(({ site }) => site.depthM);
  const fromM = Math.max(2, Math.min(...depths) - 4);
  const toM = Math.max(...depths) + 6;
  const curves = useMemo(
    () => depthCurves(trip, mixes, divers, fromM, toM, 0.5),
    [trip, mixes, divers, fromM, toM],
  );
  const marks = useMemo(() => seaMarks(rows, inTrip), [rows, inTrip]);
  const plans = useMemo(() => (inTrip ? seaPlans(rows) : []), [rows, inTrip]);
  const widthPx = size?.widthPx ?? 0;
  const heightPx = size?.heightPx ?? 0;
  const margin = useMemo(
    () => ({
      ...MARGIN,
      right: namesPx(
        rows.map(({ site }) => site.name),
        widthPx,
      ),
    }),
    [rows, widthPx],
  );
  const scale = seaScale(
    {
      left: MARGIN.left + DEPTHS_PX,
      right: widthPx - margin.right,
      top: MARGIN.top + MINUTES_PX,
      bottom: heightPx - MARGIN.bottom,
    },
    fromM,
    toM,
  );
  const isPointed = ({ siteAt, mixAt }: SeaMark) =>
    pointed?.siteId === rows[siteAt]!.site.id && pointed.mixId === mixes[mixAt]!.id;
  const pointAt = ({ siteAt, mixAt }: SeaMark) =>
    point({ siteId: rows[siteAt]!.site.id, mixId: mixes[mixAt]!.id });
  const onKeyDown = (event: KeyboardEvent): void => {
    const by = { ArrowDown: [1, 0], ArrowUp: [-1, 0], ArrowRight: [0, 1], ArrowLeft: [0, -1] }[event.key];
    if (!by || marks.length === 0) return;
    event.preventDefault();
    const now = marks.find(isPointed);
    if (!now) {
      pointAt(marks[0]!);
      return;
    }
    const [bySite, byMix] = by as [number, number];
    // The next site that this mix may go to, or the next mix of this site.
    const next = marks
      .filter(({ siteAt, mixAt }) =>
        bySite === 0
          ? siteAt === now.siteAt && (mixAt - now.mixAt) * byMix > 0
          : mixAt === now.mixAt && (siteAt - now.siteAt) * bySite > 0,
      )
      .toSorted((a, b) => (a.siteAt - b.siteAt) * bySite + (a.mixAt - b.mixAt) * byMix)[0];
    if (next) pointAt(next);
  };
  const told = marks.find(isPointed);
  const nameYs = apart(
    rows.map(({ site }) => scale.yPx(site.depthM)),
    NAMES_PX,
    scale.bottom - 4,
  );
  const readout = ({ active, payload }: TooltipContentProps): ReactNode => {
    const held: unknown = active ? payload[0]?.payload : null;
    const mark = (held as { readonly mark?: SeaMark } | null)?.mark;
    return mark && rows[mark.siteAt]?.cells[mark.mixAt] ? (
      <p className={styles.readout}>{words(markSaid(mark, rows, trip))}</p>
    ) : null;
  };
  return (
    <figure className={styles.chart}>
      {/* Arrow keys walk what the table has as cells; what is pointed at is read out beneath. */}
      <div
        ref={box}
        className={styles.box}
        role="application"
        aria-label="No-stop time by depth and mix. Arrow keys go from site to site and from mix to mix"
        // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex
        tabIndex={0}
        onKeyDown={onKeyDown}
        onBlur={() => point(null)}
      >
        {size === null ? null : (
          <ScatterChart width={widthPx} height={heightPx} margin={margin} accessibilityLayer={false}>
            {Array.from({ length: Math.ceil(toM / 10) }, (_, i) => (
              <ReferenceArea
                key={i}
                y1={Math.max(fromM, i * 10)}
                y2={Math.min(toM, (i + 1) * 10)}
                fill={`var(--tint-${Math.min(5, i + 1)})`}
                fillOpacity={1}
                ifOverflow="hidden"
              />
            ))}
            <XAxis
              dataKey="x"
              type="number"
              scale="log"
              orientation="top"
              domain={[SHORTEST_MIN, BEYOND_MIN]}
              ticks={[...MINUTE_TICKS]}
              allowDataOverflow
              interval={0}
              height={MINUTES_PX}
              stroke="var(--line)"
              tick={{ fill: 'var(--ink-soft)', fontSize: 13 }}
              tickFormatter={(min: number) => (min >= 120 ? `${min / 60} h` : String(min))}
            />
            <YAxis
              dataKey="y"
              type="number"
              reversed
              domain={[fromM, toM]}
              ticks={[...depthTicks(fromM, toM, units)]}
              allowDataOverflow
              interval={0}
              width={DEPTHS_PX}
              axisLine={false}
              tickLine={false}
              tick={{ fill: 'var(--ink-soft)', fontSize: 13, fontStyle: 'italic' }}
              tickFormatter={(depthM: number) => words(said`${bare('depthSet', depthM)}`)}
            />
            <Tooltip content={readout} isAnimationActive={false} cursor={false} />
            {MINUTE_TICKS.map((min) => (
              <ReferenceLine key={min} x={min} stroke="var(--paper)" />
            ))}
            {rows.map(({ site }) => (
              <ReferenceLine
                key={site.id}
                y={site.depthM}
                stroke="var(--ink)"
                strokeOpacity={pointed?.siteId === site.id ? 0.9 : 0.35}
                strokeWidth={pointed?.siteId === site.id ? 1.6 : 0.8}
              />
            ))}
            {curves.map(({ mix, points }, at) => (
              <Scatter
                key={mix.id}
                name={words(mixSaid(mix.o2))}
                data={points
                  .filter(({ noStopMin }) => noStopMin !== null && noStopMin <= LONGEST_MIN)
                  .map(({ noStopMin, depthM }) => ({ x: noStopMin!, y: depthM }))}
                line={{ ...strokeOf(lines[at]!), fill: 'none' }}
                shape={unmarked}
                isAnimationActive={false}
                tooltipType="none"
              />
            ))}
            <Scatter
              data={marks.map((mark) => ({
                // What has no end, or lies beyond the scale, stands in the place beyond it, a mix beside the other.
                x:
                  mark.min === null || mark.min > LONGEST_MIN
                    ? 262 + 22 * (mark.mixAt % 3)
                    : Math.max(SHORTEST_MIN, mark.min),
                y: mark.depthM,
                mark,
                colour: lines[mark.mixAt]!.colour,
                isPointed: isPointed(mark),
              }))}
              shape={drawn}
              onMouseEnter={(given: { readonly payload?: unknown }) => pointAt((given.payload as Drawn).mark)}
              isAnimationActive={false}
            />
          </ScatterChart>
        )}
        {/* Above what recharts draws, in the same pixels. */}
        {size === null ? null : (
          <svg className={styles.over} width={widthPx} height={heightPx} aria-hidden="true">
            <g className={styles.labels}>
              {plans.map((plan) => (
                <Plan key={plan.siteAt} plan={plan} scale={scale} />
              ))}
              <Ends scale={scale} curves={curves} lines={lines} />
              <text
                x={(scale.right + scale.beyond) / 2}
                y={scale.top - 8}
                textAnchor="middle"
                className={styles.soft}
              >
                over 4 h
              </text>
              <line
                x1={scale.right}
                x2={scale.right}
                y1={scale.top}
                y2={scale.bottom}
                className={styles.beyond}
              />
              {rows.map(({ site }, at) => (
                <g key={site.id}>
                  <path
                    d={`M${scale.beyond},${scale.yPx(site.depthM)}h8L${scale.beyond + 18},${nameYs[at]!}`}
                    className={styles.elbow}
                  />
                  <text x={scale.beyond + 22} y={nameYs[at]! + 4.5} className={styles.site}>
                    {site.name}{' '}
                    <tspan className={styles.depth}>{words(said`${figure('depthSet', site.depthM)}`)}</tspan>
                  </text>
                </g>
              ))}
            </g>
            <SeaLabels marks={marks} plans={plans} scale={scale} />
          </svg>
        )}
      </div>
      <figcaption className={styles.caption}>
        <strong>No-stop time</strong> in minutes across, on a scale by its logarithm; <strong>depth</strong>{' '}
        in {unitText(0, 'depth', units, 'near').slice(2)} down; each mix to its MOD, as a first dive.{' '}
        {words(forOwnWaterSaid(trip))}
        {inTrip
          ? ' A weight is the planned time of the site’s tightest dive, a bar what is left of its limit.'
          : ''}{' '}
        <span role="status">{told ? words(markSaid(told, rows, trip)) : ''}</span>
      </figcaption>
    </figure>
  );
}
