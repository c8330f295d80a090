/** Nitrogen and oxygen carried, unbroken from the first dive to the flight home, in step with the strip. */
import { memo, useMemo } from 'react';
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
import { percentText } from '../../../figures/format';
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
      <strong>{momentText(at.atMin, reader)}</strong> {children}
      {more !== undefined && <span className="band-all">{more}</span>}
    </p>
  );
}

function nitrogenText(at: BandPoint): string {
  return `nitrogen ${percentText(at.share, 'up')} of the limit, compartment ${at.compartment} leading`;
}

/** Each compartment in words, where all are drawn: sixteen lines cannot be told apart by eye. */
function allText(shares: readonly number[]): string {
  return shares.map((share, i) => `${i + 1}: ${percentText(share, 'up')}`).join('  ');
}

export const NitrogenBand = memo(function NitrogenBand(
  props: BandProps & { readonly shares: readonly (readonly number[])[] | null },
) {
  const { points, widthPx, heightPx, top, reader, shares } = props;
  const data = useMemo(
    () => (shares === null ? [...points] : points.map((point, i) => ({ ...point, shares: shares[i] }))),
    [points, shares],
  );
  const readout = (content: TooltipContentProps) => {
    const at = pointOf(content);
    return at === null ? null : (
      <Readout at={at} reader={reader} more={at.shares && allText(at.shares)}>
        {nitrogenText(at)}
      </Readout>
    );
  };
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
      <XAxis dataKey="x" type="number" domain={[0, widthPx]} hide allowDataOverflow />
      <YAxis type="number" domain={[0, top]} hide allowDataOverflow />
      <Area
        dataKey="share"
        type="linear"
        stroke="var(--nitrogen)"
        strokeWidth={1.5}
        fill="var(--nitrogen-wash)"
        fillOpacity={1}
        isAnimationActive={false}
      />
      {shares !== null &&
        shares[0]?.map((_, i) => (
          <Area
            // A compartment is its place in the row.
            // eslint-disable-next-line react/no-array-index-key
            key={i}
            dataKey={(point: FullPoint) => point.shares?.[i] ?? null}
            type="linear"
            stroke="var(--nitrogen)"
            strokeOpacity={0.7}
            strokeWidth={0.6}
            strokeDasharray={i % 2 === 0 ? '' : '3 2'}
            fill="none"
            activeDot={false}
            isAnimationActive={false}
          />
        ))}
      <ReferenceLine y={1} stroke="var(--caution)" strokeWidth={1.2} strokeDasharray="7 3 1 3" />
      <Tooltip content={readout} cursor={CURSOR} isAnimationActive={false} position={{ y: 4 }} />
    </AreaChart>
  );
});

export const OxygenBand = memo(function OxygenBand({ points, widthPx, heightPx, top, reader }: BandProps) {
  const data = useMemo(() => [...points], [points]);
  const readout = (content: TooltipContentProps) => {
    const at = pointOf(content);
    return at === null ? null : (
      <Readout at={at} reader={reader}>
        {`CNS clock ${percentText(at.cns, 'up')}, rolling 24 h ${percentText(at.cnsDay, 'up')}`}
      </Readout>
    );
  };
  return (
    <LineChart
      width={widthPx}
      height={heightPx}
      data={data}
      margin={NO_MARGIN}
      syncId={SYNC}
      syncMethod={nearestPoint}
      title="Oxygen carried"
    >
      <XAxis dataKey="x" type="number" domain={[0, widthPx]} hide allowDataOverflow />
      <YAxis type="number" domain={[0, top]} hide allowDataOverflow />
      {top >= 1 && (
        <ReferenceLine y={1} stroke="var(--caution)" strokeWidth={1.2} strokeDasharray="7 3 1 3" />
      )}
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
      <Tooltip content={readout} cursor={CURSOR} isAnimationActive={false} position={{ y: 4 }} />
    </LineChart>
  );
});
