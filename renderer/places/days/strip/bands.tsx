/** Nitrogen and oxygen carried, unbroken from the first dive to the flight home, in step with the strip. */
import { memo, useCallback, useMemo, type ReactNode } from 'react';
import {
  Line,
  LineChart,
  ReferenceLine,
  Tooltip,
  useActiveTooltipDataPoints,
  XAxis,
  YAxis,
  type TooltipContentProps,
} from 'recharts';
import { depthText, percentText } from '../../../figures/format';
import type { BandPoint } from './band-data';
import { heightOf, NitrogenCurves, OxygenCurves, UNITS_PER_PX, type CurveScale } from './curve';
import { momentText, type Reader } from './strip-words';

/** The bands have the same points, so that both are read at one moment. */
const SYNC = 'carried';

const NO_MARGIN = { top: 0, right: 0, bottom: 0, left: 0 };
const CURSOR = { stroke: 'var(--ink-soft)', strokeWidth: 1 };
/** Above the band, over the words that explain it: the peaks beside the one that is read stay in sight. */
const READOUT_AT = { y: -24 };
const LIMIT = <ReferenceLine y={1} stroke="var(--caution)" strokeWidth={1.2} strokeDasharray="7 3 1 3" />;

/** A point with the share of every compartment, where those are drawn. */
type FullPoint = BandPoint & { readonly shares?: readonly number[] };

/** Points, and for each the share of every compartment where those are drawn. */
export interface Carried {
  readonly points: readonly BandPoint[];
  readonly shares: readonly (readonly number[])[] | null;
}

interface BandProps extends CurveScale {
  readonly points: readonly BandPoint[];
  readonly widthPx: number;
  readonly reader: Reader;
  /** What the charts were given to read, which an edit leaves behind; both bands are read at once. */
  readonly given: Carried;
  readonly isRead: boolean;
}

/** A figure of a point, and the colour of its curve. */
interface Series {
  readonly key: 'share' | 'cns' | 'cnsDay';
  readonly colour: string;
}

const NITROGEN: readonly Series[] = [{ key: 'share', colour: 'var(--nitrogen)' }];
const OXYGEN: readonly Series[] = [
  { key: 'cns', colour: 'var(--oxygen)' },
  { key: 'cnsDay', colour: 'var(--oxygen)' },
];

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

const NO_BREAK = '\u00a0';

/** Each compartment in words, where all are drawn: sixteen lines cannot be told apart by eye. */
function allText(shares: readonly number[]): string {
  return shares
    .map((share, i) => `${i + 1}: ${percentText(share, 'up')}`.replaceAll(' ', NO_BREAK))
    .join('  ');
}

/** Where the curves are read: the point that the pointer or the keyboard stands at. */
function ReadPoints({ series, scale }: { readonly series: readonly Series[]; readonly scale: CurveScale }) {
  const at = useActiveTooltipDataPoints<FullPoint>()?.[0];
  if (at === undefined) return null;
  return series.map(({ key, colour }) => {
    const value = at[key];
    return value === null ? null : (
      <circle key={key} cx={at.x} cy={heightOf(value, scale)} r={3} fill={colour} stroke="var(--sheet)" />
    );
  });
}

interface ReadingProps extends Omit<BandProps, 'points' | 'given'> {
  readonly points: readonly FullPoint[];
  readonly title: string;
  readonly series: readonly Series[];
  readonly wordsOf: (at: FullPoint) => ReactNode;
}

/**
 * The limit, and what is read under the pointer and the keyboard. It is given points only where they are read:
 * to lay them out takes longer than the frame of an edit.
 */
const ReadingChart = memo(function ReadingChart(props: ReadingProps) {
  const { points, isRead, widthPx, heightPx, top, title, series, wordsOf } = props;
  const axes = useMemo(
    () => (
      <>
        <XAxis dataKey="x" type="number" domain={[0, widthPx]} hide allowDataOverflow />
        <YAxis type="number" domain={[0, top]} hide allowDataOverflow />
        {top >= 1 && LIMIT}
        {isRead && <ReadPoints series={series} scale={{ top, heightPx }} />}
      </>
    ),
    [widthPx, heightPx, top, series, isRead],
  );
  const lines = useMemo(
    () => series.map(({ key }) => <Line key={key} dataKey={key} hide isAnimationActive={false} />),
    [series],
  );
  const readout = useCallback(
    ({ active, payload }: TooltipContentProps) => {
      // Recharts hands back the very object it was given.
      const at: unknown = active && isRead ? payload[0]?.payload : null;
      return at === null || at === undefined ? null : wordsOf(at as FullPoint);
    },
    [wordsOf, isRead],
  );
  return (
    <LineChart width={widthPx} height={heightPx} data={points} margin={NO_MARGIN} syncId={SYNC} title={title}>
      {axes}
      {lines}
      <Tooltip
        content={readout}
        cursor={isRead && CURSOR}
        includeHidden
        isAnimationActive={false}
        position={READOUT_AT}
      />
    </LineChart>
  );
});

function Band({ curves, ...reading }: ReadingProps & { readonly curves: ReactNode }) {
  const { widthPx, heightPx } = reading;
  return (
    <div className="band" style={{ width: widthPx, height: heightPx }}>
      <svg
        className="band-curves"
        width={widthPx}
        height={heightPx}
        viewBox={`0 0 ${widthPx * UNITS_PER_PX} ${heightPx * UNITS_PER_PX}`}
        aria-hidden="true"
      >
        {curves}
      </svg>
      <ReadingChart {...reading} />
    </div>
  );
}

export const NitrogenBand = memo(function NitrogenBand({
  points,
  shares,
  given,
  ...band
}: BandProps & Carried) {
  const { reader, top, heightPx } = band;
  const full = useMemo(
    () =>
      given.shares === null
        ? given.points
        : given.points.map((point, i) => ({ ...point, shares: given.shares![i]! })),
    [given],
  );
  const wordsOf = useCallback(
    (at: FullPoint) => (
      <Readout at={at} reader={reader} more={at.shares && allText(at.shares)}>
        {nitrogenText(at)}
      </Readout>
    ),
    [reader],
  );
  return (
    <Band
      {...band}
      points={full}
      title="Nitrogen carried"
      series={NITROGEN}
      wordsOf={wordsOf}
      curves={<NitrogenCurves points={points} shares={shares} top={top} heightPx={heightPx} />}
    />
  );
});

export const OxygenBand = memo(function OxygenBand({ points, given, ...band }: BandProps) {
  const { reader, top, heightPx } = band;
  const wordsOf = useCallback(
    (at: FullPoint) => (
      <Readout at={at} reader={reader}>
        {`CNS clock ${percentText(at.cns, 'up')}, rolling 24 h ${percentText(at.cnsDay, 'up')}`}
      </Readout>
    ),
    [reader],
  );
  return (
    <Band
      {...band}
      points={given.points}
      title="Oxygen carried"
      series={OXYGEN}
      wordsOf={wordsOf}
      curves={<OxygenCurves points={points} top={top} heightPx={heightPx} />}
    />
  );
});
