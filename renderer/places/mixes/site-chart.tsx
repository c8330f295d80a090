import { useMemo, type ReactNode } from 'react';
import { shareCurve, type CompareRow, type SharePoint } from '../../../core/mixes/compare';
import { LEANEST_PERCENT, RICHEST_PERCENT } from '../../../core/mixes/shares';
import type { Diver } from '../../../core/document/types';
import { minutesText, mixText, unitText } from '../../figures/format';
import { useDesk } from '../../store/store';

const WIDTH = 132;
const HEIGHT = 56;
const TOP = 4;
const FOOT = 44;

const PERCENTS = Array.from({ length: RICHEST_PERCENT - LEANEST_PERCENT + 1 }, (_, i) => LEANEST_PERCENT + i);

function xOf(percent: number): number {
  return 4 + ((percent - LEANEST_PERCENT) / (RICHEST_PERCENT - LEANEST_PERCENT)) * (WIDTH - 8);
}

/** A line through the points that have a value, scaled to the most of them. */
function path(
  points: readonly { readonly x: number; readonly value: number | null }[],
  most: number,
): string {
  let isDrawing = false;
  return points
    .map(({ x, value }) => {
      if (value === null) {
        isDrawing = false;
        return '';
      }
      const y = FOOT - (Math.max(0, value) / most) * (FOOT - TOP);
      const step = `${isDrawing ? 'L' : 'M'}${x.toFixed(1)} ${y.toFixed(1)}`;
      isDrawing = true;
      return step;
    })
    .join(' ');
}

function words(points: readonly SharePoint[], units: 'metric' | 'imperial'): string {
  const told = points.filter(({ percent }) => [21, 28, 32, 36, 40].includes(percent));
  const each = told.map(
    ({ percent, noStopMin, modM }) =>
      `${percent} %: ${noStopMin === null ? 'no limit' : minutesText(noStopMin, 'down')}, MOD ${unitText(modM, 'depth', units, 'down')}`,
  );
  return `No-stop time from rest and MOD by oxygen: ${each.join('; ')}`;
}

/**
 * No-stop time and MOD over the oxygen share at one site, the mixes marked: filled where they may go, open
 * where not. The dashed line is the MOD, read against the depth of the site at half height.
 */
export function SiteChart({
  row,
  divers,
}: {
  readonly row: CompareRow;
  readonly divers: readonly Diver[];
}): ReactNode {
  const trip = useDesk((state) => state.trip);
  const units = useDesk(({ settings }) => settings.units);
  const { depthM } = row.site;
  const points = useMemo(() => shareCurve(trip, depthM, divers, PERCENTS), [trip, depthM, divers]);
  // Beyond four hours nobody plans a dive by it; past that the line leaves at the top.
  const longest = Math.min(240, Math.max(1, ...points.map(({ noStopMin }) => noStopMin ?? 240)));
  const noStop = points.map(({ percent, noStopMin }) => ({
    x: xOf(percent),
    value: noStopMin === null ? null : Math.min(noStopMin, longest),
  }));
  const mod = points.map(({ percent, modM }) => ({ x: xOf(percent), value: Math.min(modM, 2 * depthM) }));
  const reachTo = points.findLast(({ allowed }) => allowed)?.percent ?? null;
  const y = (FOOT + TOP) / 2;
  return (
    <svg
      className="site-chart"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      width={WIDTH}
      height={HEIGHT}
      role="img"
      aria-label={words(points, units)}
    >
      {reachTo === null ? null : (
        <rect
          x={xOf(LEANEST_PERCENT)}
          y={TOP}
          width={xOf(reachTo) - xOf(LEANEST_PERCENT)}
          height={FOOT - TOP}
          className="chart-allowed"
        />
      )}
      <line x1={4} x2={WIDTH - 4} y1={FOOT} y2={FOOT} className="chart-foot" />
      <line x1={4} x2={WIDTH - 4} y1={y} y2={y} className="chart-depth" />
      <path d={path(mod, 2 * depthM)} className="chart-mod" />
      <path d={path(noStop, longest)} className="chart-time" />
      {row.cells
        .filter(({ o2 }) => o2 <= RICHEST_PERCENT / 100)
        .map(({ mix, o2, allowed }) => (
          <g key={mix.id}>
            <title>{mixText(o2)}</title>
            <circle
              cx={xOf(o2 * 100)}
              cy={FOOT}
              r={2.6}
              className={allowed ? 'chart-mix' : 'chart-mix not'}
            />
          </g>
        ))}
      <text x={4} y={HEIGHT - 1}>
        21
      </text>
      {reachTo !== null && reachTo >= 34 && reachTo < RICHEST_PERCENT ? null : (
        <text x={WIDTH - 4} y={HEIGHT - 1} textAnchor="end">
          {RICHEST_PERCENT} %
        </text>
      )}
      {reachTo !== null && reachTo > 24 && reachTo < RICHEST_PERCENT ? (
        <text x={xOf(reachTo)} y={HEIGHT - 1} textAnchor="middle">
          {reachTo}
          {reachTo >= 34 ? ' %' : ''}
        </text>
      ) : null}
    </svg>
  );
}
