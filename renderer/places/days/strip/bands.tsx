/** Nitrogen and oxygen carried, unbroken from the first dive to the flight home, in step with the strip. */
import { memo, useCallback, useMemo, type ReactNode } from 'react';
import {
  Area,
  AreaChart,
  Line,
  LineChart,
  ReferenceLine,
  Tooltip,
  XAxis,
  YAxis,
  type TooltipContentProps,
} from 'recharts';
import { depthText, percentText } from '../../../figures/format';
import { COMPARTMENT_COUNT } from '../../../../core/tissues/compartments';
import type { BandPoint } from './band-data';
import { momentText, type Reader } from './strip-words';

const SYNC = 'carried';

/** The two bands bend in different places: the other one reads out its point nearest in time. */
function nearestPoint(
  ticks: readonly { readonly coordinate: number }[],
  from: { readonly activeCoordinate?: { readonly x: number } | undefined },
): number {
  const x = from.activeCoordinate?.x ?? 0;
  let nearest = 0;
  ticks.forEach((tick, i) => {
    if (Math.abs(tick.coordinate - x) < Math.abs(ticks[nearest]!.coordinate - x)) nearest = i;
  });
  return nearest;
}

const NO_MARGIN = { top: 0, right: 0, bottom: 0, left: 0 };
const CURSOR = { stroke: 'var(--ink-soft)', strokeWidth: 1 };

/** A point with the share of every compartment, where those are drawn. */
type FullPoint = BandPoint & { readonly shares?: readonly number[] };

interface BandProps {
  readonly points: readonly BandPoint[];
  readonly widthPx: number;
  readonly heightPx: number;
  readonly top: number;
  readonly reader: Reader;
}

function pointOf(content: TooltipContentProps): FullPoint | null {
  const payload: unknown = content.active ? content.payload[0]?.payload : null;
  // Recharts hands back the very object it was given.
  return (payload as FullPoint | null | undefined) ?? null;
}

interface ReadoutProps {
  readonly at: BandPoint;
  readonly reader: Reader;
  readonly children: string;
  readonly more?: string | undefined;
}

function Readout({ at, reader, children, more }: ReadoutProps) {
  return (
    <p className="band-readout" role="status">
      <strong>{momentText(at.atMin, reader)}</strong>
      {at.depthM > 0.05 && ` at ${depthText(at.depthM, reader.units)}`} {children}
      {more !== undefined && <span className="band-all">{more}</span>}
    </p>
  );
}

/** Of the limit at the surface: at depth a fast compartment may pass it, and is below it again on surfacing. */
function nitrogenText(at: BandPoint): string {
  return `nitrogen ${percentText(at.share, 'up')} of the surface limit, compartment ${at.compartment} leading`;
}

/** Each compartment in words, where all are drawn: sixteen lines cannot be told apart by eye. */
function allText(shares: readonly number[]): string {
  return shares.map((share, i) => `${i + 1}: ${percentText(share, 'up')}`).join('  ');
}

/** A lane a compartment: the same functions for every trip, as a new one would have the chart laid out anew. */
const COMPARTMENTS = Array.from({ length: COMPARTMENT_COUNT }, (_, i) => ({
  key: `compartment ${i + 1}`,
  shareOf: (point: FullPoint) => point.shares?.[i] ?? null,
  dashes: i % 2 === 0 ? '' : '3 2',
}));

/**
 * What of a band does not depend on its points. The same elements as before, so that an edit of the trip makes
 * the chart take new points and nothing else.
 */
function useBandFrame(
  widthPx: number,
  top: number,
  readout: (content: TooltipContentProps) => ReactNode,
): { readonly axes: ReactNode; readonly limit: ReactNode; readonly tooltip: ReactNode } {
  const axes = useMemo(
    () => (
      <>
        <XAxis dataKey="x" type="number" domain={[0, widthPx]} hide allowDataOverflow />
        <YAxis type="number" domain={[0, top]} hide allowDataOverflow />
      </>
    ),
    [widthPx, top],
  );
  const tooltip = useMemo(
    () => <Tooltip content={readout} cursor={CURSOR} isAnimationActive={false} position={READOUT_AT} />,
    [readout],
  );
  return { axes, limit: top >= 1 && LIMIT, tooltip };
}

const READOUT_AT = { y: 4 };
const LIMIT = <ReferenceLine y={1} stroke="var(--caution)" strokeWidth={1.2} strokeDasharray="7 3 1 3" />;

const NITROGEN = (
  <Area
    dataKey="share"
    type="linear"
    stroke="var(--nitrogen)"
    strokeWidth={1.5}
    fill="var(--nitrogen-wash)"
    fillOpacity={1}
    isAnimationActive={false}
  />
);

const ALL_COMPARTMENTS = COMPARTMENTS.map(({ key, shareOf, dashes }) => (
  <Area
    key={key}
    dataKey={shareOf}
    type="linear"
    stroke="var(--nitrogen)"
    strokeOpacity={0.7}
    strokeWidth={0.6}
    strokeDasharray={dashes}
    fill="none"
    activeDot={false}
    isAnimationActive={false}
  />
));

const OXYGEN = (
  <>
    <Line
      dataKey="cnsDay"
      type="linear"
      stroke="var(--oxygen)"
      strokeWidth={1}
      strokeDasharray="4 3"
      dot={false}
      isAnimationActive={false}
    />
    <Line
      dataKey="cns"
      type="linear"
      stroke="var(--oxygen)"
      strokeWidth={1.7}
      dot={false}
      isAnimationActive={false}
    />
  </>
);

export const NitrogenBand = memo(function NitrogenBand(
  props: BandProps & { readonly shares: readonly (readonly number[])[] | null },
) {
  const { points, widthPx, heightPx, top, reader, shares } = props;
  const data = useMemo(
    () => (shares === null ? points : points.map((point, i) => ({ ...point, shares: shares[i] }))),
    [points, shares],
  );
  const readout = useCallback(
    (content: TooltipContentProps) => {
      const at = pointOf(content);
      return at === null ? null : (
        <Readout at={at} reader={reader} more={at.shares && allText(at.shares)}>
          {nitrogenText(at)}
        </Readout>
      );
    },
    [reader],
  );
  const { axes, limit, tooltip } = useBandFrame(widthPx, top, readout);
  return (
    <AreaChart
      width={widthPx}
      height={heightPx}
      data={data}
      margin={NO_MARGIN}
      syncId={SYNC}
      syncMethod={nearestPoint}
      title="Nitrogen carried"
    >
      {axes}
      {NITROGEN}
      {shares !== null && ALL_COMPARTMENTS}
      {limit}
      {tooltip}
    </AreaChart>
  );
});

export const OxygenBand = memo(function OxygenBand(props: BandProps) {
  const { points, widthPx, heightPx, top, reader } = props;
  const readout = useCallback(
    (content: TooltipContentProps) => {
      const at = pointOf(content);
      return at === null ? null : (
        <Readout at={at} reader={reader}>
          {`CNS clock ${percentText(at.cns, 'up')}, rolling 24 h ${percentText(at.cnsDay, 'up')}`}
        </Readout>
      );
    },
    [reader],
  );
  const { axes, limit, tooltip } = useBandFrame(widthPx, top, readout);
  return (
    <LineChart
      width={widthPx}
      height={heightPx}
      data={points}
      margin={NO_MARGIN}
      syncId={SYNC}
      syncMethod={nearestPoint}
      title="Oxygen carried"
    >
      {axes}
      {limit}
      {OXYGEN}
      {tooltip}
    </LineChart>
  );
});
