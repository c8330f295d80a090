import { memo, useMemo, type KeyboardEvent, type PointerEvent, type ReactNode } from 'react';
import { CLASS_DEPTHS_M, CLASS_DIVER, type ClassMix } from '../../../core/mixes/class-dive';
import type { DepthCurve } from '../../../core/mixes/depth-curve';
import { ambientBar } from '../../../core/water';
import { surroundingsOf } from '../../../core/profile';
import { classTrip } from '../../../core/mixes/class-dive';
import { po2Bar } from '../../../core/gas';
import { fromUnit, rounded, toUnit, type System } from '../../../core/words/quantity';
import { bare, figure, said, worked } from '../../../core/words/said';
import { mixSaid } from '../../../core/words/terms';
import { useWords } from '../../parts/use-words';
import { apart, niceTicks } from './chart-scale';
import { strokeOf, type MixLine } from './mix-line';
import styles from './class-pictures.module.css';

/** The water of the class: gauge water at sea level, whatever is dived. */
const { column } = surroundingsOf(classTrip(CLASS_DEPTHS_M[0], []));

const TO_M = CLASS_DEPTHS_M[1];
const HEIGHT_PX = 340;
const LOWER_PX = 250;
const TOP_PX = 40;
/** Pressures across, bar. */
const PO2_FROM = 0.2;
const PO2_TO = 1.7;
const MOST_SHARE = 1.18;

/** Where things stand across: the same for the pictures above one another. */
function framesOf(widthPx: number, isLarge: boolean) {
  const gutter = isLarge ? 120 : 84;
  const left = { from: isLarge ? 190 : 130, to: widthPx * 0.42 };
  const right = { from: widthPx * 0.42 + (isLarge ? 120 : 76), to: widthPx - gutter };
  return { left, right };
}

function yPx(depthM: number): number {
  return TOP_PX + ((HEIGHT_PX - TOP_PX - 4) * depthM) / TO_M;
}

/** Depths that have a name, in whole tens of metres or thirties of feet. */
function depthTicks(units: System): readonly number[] {
  return [0, 1, 2, 3, 4].map((i) => fromUnit(i * (units === 'imperial' ? 30 : 10), 'depth', units));
}

/** To the whole metre or foot, or to a tenth, so that what is told of a depth is told of that very depth. */
function wholeDepth(depthM: number, isFine: boolean, units: System): number {
  return fromUnit(rounded(toUnit(depthM, 'depth', units), isFine ? 1 : 0, 'near'), 'depth', units);
}

function pathOf(points: readonly (readonly [number, number])[]): string {
  return points
    .map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${Math.round(x * 10) / 10} ${Math.round(y * 10) / 10}`)
    .join('');
}

function Sea({ from, to }: { readonly from: number; readonly to: number }): ReactNode {
  return Array.from({ length: 5 }, (_, i) => (
    <rect
      key={i}
      x={from}
      width={to - from}
      y={yPx(i * 10)}
      height={yPx(Math.min(TO_M, (i + 1) * 10)) - yPx(i * 10)}
      fill={`var(--tint-${i + 1})`}
    />
  ));
}

interface Still {
  readonly lines: readonly MixLine[];
  readonly curves: readonly DepthCurve[];
  readonly untilMin: number;
  readonly widthPx: number;
  readonly isLarge: boolean;
  readonly units: System;
}

/** Sea, axes and the mixes' lines over depth: none of it moves with the depth in hand. */
const StillPictures = memo(function StillPictures({
  lines,
  curves,
  untilMin,
  widthPx,
  isLarge,
  units,
}: Still): ReactNode {
  const words = useWords();
  const { left, right } = framesOf(widthPx, isLarge);
  const po2X = (bar: number) => left.from + ((left.to - left.from) * (bar - PO2_FROM)) / (PO2_TO - PO2_FROM);
  const minX = (min: number) => right.from + ((right.to - right.from) * min) / untilMin;
  const { working, contingency } = CLASS_DIVER.po2;
  const firstYs = curves.map(({ points }) => {
    const first = points.find(({ noStopMin }) => noStopMin !== null && noStopMin <= untilMin);
    return yPx(first?.depthM ?? 0);
  });
  const nameYs = apart(firstYs, isLarge ? 24 : 16, HEIGHT_PX - 8);
  return (
    <>
      <Sea {...left} />
      <Sea {...right} />
      <text x={left.from} y={14} className={styles.title}>
        Oxygen pressure, PO2 in bar
      </text>
      <text x={right.from} y={14} className={styles.title}>
        No-stop time by depth, minutes
      </text>
      {[0.4, 0.6, 0.8, 1, 1.2].map((bar) => (
        <g key={bar}>
          <line x1={po2X(bar)} x2={po2X(bar)} y1={TOP_PX} y2={HEIGHT_PX - 4} className={styles.grid} />
          <text x={po2X(bar)} y={TOP_PX - 7} textAnchor="middle" className={styles.tick}>
            {words(said`${bare('po2Limit', bar)}`)}
          </text>
        </g>
      ))}
      {niceTicks(0, untilMin, 6).map((min) => (
        <g key={min}>
          <line x1={minX(min)} x2={minX(min)} y1={TOP_PX} y2={HEIGHT_PX - 4} className={styles.grid} />
          <text x={minX(min)} y={TOP_PX - 7} textAnchor="middle" className={styles.tick}>
            {min}
          </text>
        </g>
      ))}
      {depthTicks(units).map((depthM) => (
        <g key={depthM}>
          <text x={left.from - 8} y={yPx(depthM) + 5} textAnchor="end" className={styles.depthTick}>
            {words(said`${figure('depthTyped', depthM)}`)}
          </text>
          <text
            x={(left.to + right.from) / 2}
            y={yPx(depthM) + 5}
            textAnchor="middle"
            className={styles.tick}
          >
            {words(said`${worked(ambientBar(depthM, column), 1)} bar`)}
          </text>
        </g>
      ))}
      {[working, contingency].map((bar) => (
        <g key={bar}>
          <line
            x1={po2X(bar)}
            x2={po2X(bar)}
            y1={TOP_PX}
            y2={HEIGHT_PX - 4}
            className={bar === working ? styles.working : styles.contingency}
          />
          <text x={po2X(bar)} y={TOP_PX - 7} textAnchor="middle" className={styles.limit}>
            {words(said`${bare('po2Limit', bar)}`)}
          </text>
        </g>
      ))}
      {curves.map(({ mix, modM, points }, at) => {
        const deepest = Math.min(modM, TO_M);
        const slope: [number, number][] = [0, deepest].map((depthM) => [
          po2X(Math.max(PO2_FROM, po2Bar(mix.o2, ambientBar(depthM, column)))),
          yPx(depthM),
        ]);
        const shown = points.filter(({ noStopMin }) => noStopMin !== null && noStopMin <= untilMin);
        const end = shown.at(-1);
        return (
          <g key={mix.id}>
            <path d={pathOf(slope)} fill="none" {...strokeOf(lines[at]!, isLarge ? 3.4 : 2.4)} />
            <path
              d={pathOf(shown.map(({ depthM, noStopMin }) => [minX(noStopMin!), yPx(depthM)]))}
              fill="none"
              {...strokeOf(lines[at]!, isLarge ? 3.4 : 2.4)}
            />
            {shown[0] ? (
              <text x={right.to + 6} y={nameYs[at]! + 5} className={styles.name}>
                {words(mixSaid(mix.o2))}
              </text>
            ) : null}
            {modM <= TO_M ? (
              <g fill={lines[at]!.colour}>
                <path d={`M${slope[1]![0] - 4},${slope[1]![1] - 6}h8l2,12h-12z`} />
                <text x={slope[1]![0] + 10} y={slope[1]![1] + 5} className={styles.limit}>
                  {words(said`${figure('depthLimit', modM)}`)}
                </text>
                {end ? <path d={`M${minX(end.noStopMin!) - 4},${yPx(end.depthM) - 6}h8l2,12h-12z`} /> : null}
              </g>
            ) : null}
          </g>
        );
      })}
    </>
  );
});

/** The depth as a lead line: dragged by its weight or anywhere on it, or moved by keys. */
export function DepthPictures(
  props: Still & {
    readonly mixes: readonly ClassMix[];
    readonly depthM: number;
    readonly setDepth: (depthM: number) => void;
  },
): ReactNode {
  const { mixes, depthM, setDepth, lines, curves, untilMin, widthPx, isLarge, units } = props;
  const words = useWords();
  const { left, right } = useMemo(() => framesOf(widthPx, isLarge), [widthPx, isLarge]);
  const y = yPx(depthM);
  const depth = words(said`${figure('depthTyped', depthM)}`);
  const pressure = words(said`${worked(ambientBar(depthM, column), 2)} bar`);
  const toDepth = (event: PointerEvent<SVGElement>): void => {
    const box = event.currentTarget.ownerSVGElement!.getBoundingClientRect();
    const at = ((event.clientY - box.top - TOP_PX) * TO_M) / (HEIGHT_PX - TOP_PX - 4);
    setDepth(wholeDepth(at, event.shiftKey, units));
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const step = event.shiftKey ? 0.1 : 1;
    const by = {
      ArrowDown: step,
      ArrowRight: step,
      ArrowUp: -step,
      ArrowLeft: -step,
      PageDown: 5,
      PageUp: -5,
    }[event.key];
    if (by === undefined) return;
    event.preventDefault();
    const next = fromUnit(toUnit(depthM, 'depth', units) + by, 'depth', units);
    setDepth(wholeDepth(next, event.shiftKey, units));
  };
  const po2X = (bar: number) =>
    left.from + ((left.to - left.from) * (Math.min(PO2_TO, bar) - PO2_FROM)) / (PO2_TO - PO2_FROM);
  const minX = (min: number) => right.from + ((right.to - right.from) * min) / untilMin;
  return (
    <svg className={isLarge ? styles.largePicture : styles.picture} width={widthPx} height={HEIGHT_PX}>
      <StillPictures
        lines={lines}
        curves={curves}
        untilMin={untilMin}
        widthPx={widthPx}
        isLarge={isLarge}
        units={units}
      />
      <line x1={24} x2={right.to} y1={y} y2={y} className={styles.depth} />
      {mixes.map(({ mix, po2Bar: bar, isPastMod }, at) => (
        <circle
          key={mix.id}
          cx={po2X(bar)}
          cy={y}
          r={6}
          fill={isPastMod ? 'var(--sheet)' : lines[at]!.colour}
          stroke={isPastMod ? 'var(--caution)' : lines[at]!.colour}
          strokeWidth={2}
        />
      ))}
      {mixes.map(({ mix, isPastMod, curve }, at) =>
        isPastMod || curve.meetsMin > untilMin ? null : (
          <g key={mix.id}>
            <line
              x1={minX(curve.meetsMin)}
              x2={minX(curve.meetsMin)}
              y1={y}
              y2={HEIGHT_PX}
              stroke={lines[at]!.colour}
              strokeDasharray="2 3"
            />
            <circle cx={minX(curve.meetsMin)} cy={y} r={6} fill={lines[at]!.colour} />
            <text x={minX(curve.meetsMin) + 8} y={y - 8} className={styles.minutes}>
              {words(said`${bare('minutesLeft', curve.meetsMin)}`)}
            </text>
          </g>
        ),
      )}
      <text x={(left.to + right.from) / 2} y={y + 5} textAnchor="middle" className={styles.pressure}>
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
        <rect x={0} y={TOP_PX} width={left.from - 40} height={HEIGHT_PX - TOP_PX} fill="transparent" />
        <line x1={24} x2={24} y1={TOP_PX} y2={y} />
        <path d={`M16,${y - 13}h16l4,25h-24z`} />
        <text x={42} y={y - 6} className={styles.depthText}>
          {depth}
        </text>
      </g>
    </svg>
  );
}

/** The nitrogen of each mix over the minutes at the depth, beneath the no-stop times and on the same scale. */
export function MinutesPicture(props: {
  readonly mixes: readonly ClassMix[];
  readonly lines: readonly MixLine[];
  readonly untilMin: number;
  readonly widthPx: number;
  readonly isLarge: boolean;
}): ReactNode {
  const { mixes, lines, untilMin, widthPx, isLarge } = props;
  const words = useWords();
  const { right } = framesOf(widthPx, isLarge);
  const fromPx = right.from - widthPx * 0.42;
  const toPx = right.to - widthPx * 0.42;
  const minX = (min: number) => fromPx + ((toPx - fromPx) * min) / untilMin;
  const top = 24;
  const bottom = LOWER_PX - 24;
  const shareY = (share: number) =>
    bottom - ((bottom - top) * Math.min(MOST_SHARE, Math.max(0, share))) / MOST_SHARE;
  const told = mixes
    .filter(({ curve, isPastMod }) => !isPastMod && Number.isFinite(curve.meetsMin))
    .map(({ mix, curve }) =>
      words(said`${mixSaid(mix.o2)} meets the limit at ${figure('minutesLeft', curve.meetsMin)}`),
    );
  return (
    <svg
      className={isLarge ? styles.largePicture : styles.picture}
      width={widthPx * 0.58}
      height={LOWER_PX}
      role="img"
      aria-label={`Nitrogen over the minutes: ${told.join(', ')}`}
    >
      <rect x={fromPx} y={top} width={toPx - fromPx} height={bottom - top} fill="var(--sheet)" />
      <rect
        x={fromPx}
        y={top}
        width={toPx - fromPx}
        height={shareY(1) - top}
        fill="var(--caution-wash)"
        fillOpacity={0.62}
      />
      <text x={fromPx} y={14}>
        <tspan className={styles.title}>Nitrogen</tspan> were the depth left after so many minutes
      </text>
      <line x1={fromPx} x2={toPx} y1={shareY(0.5)} y2={shareY(0.5)} className={styles.rule} />
      <line x1={fromPx} x2={toPx} y1={bottom} y2={bottom} className={styles.axis} />
      {mixes.map(({ mix, curve, isPastMod }, at) => {
        const shown = curve.points.filter(
          ({ share }, i, all) => share <= MOST_SHARE || (all[i - 1]?.share ?? 2) <= MOST_SHARE,
        );
        return (
          <path
            key={mix.id}
            d={pathOf(shown.map(({ min, share }) => [minX(min), shareY(share)]))}
            fill="none"
            opacity={isPastMod ? 0.25 : 1}
            {...strokeOf(lines[at]!, isLarge ? 3.4 : 2.4)}
          />
        );
      })}
      <line x1={fromPx} x2={toPx} y1={shareY(1)} y2={shareY(1)} className={styles.working} />
      {mixes.map(({ mix, curve, isPastMod }, at) =>
        isPastMod || curve.meetsMin > untilMin ? null : (
          <g key={mix.id} stroke={lines[at]!.colour}>
            <line
              x1={minX(curve.meetsMin)}
              x2={minX(curve.meetsMin)}
              y1={0}
              y2={bottom}
              strokeDasharray="2 3"
            />
            <circle cx={minX(curve.meetsMin)} cy={shareY(1)} r={6} fill={lines[at]!.colour} />
          </g>
        ),
      )}
      {niceTicks(0, untilMin, 6).map((min) => (
        <text key={min} x={minX(min)} y={LOWER_PX - 6} textAnchor="middle" className={styles.tick}>
          {min}
        </text>
      ))}
      <text x={toPx + 6} y={shareY(1) + 5} className={styles.limit}>
        limit
      </text>
      <text x={toPx + 6} y={shareY(0.5) + 5} className={styles.tick}>
        half
      </text>
      <text x={toPx + 6} y={bottom + 5} className={styles.tick}>
        at rest
      </text>
    </svg>
  );
}
