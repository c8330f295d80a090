/** What the bands' curves are at the pointer and the keyboard; loaded after the curves stand. */
import { memo, useCallback, useMemo } from 'react';
import type { DiverLedger } from '../../../../core/ledger/ledger-types';
import {
  Line,
  LineChart,
  Tooltip,
  useActiveTooltipDataPoints,
  XAxis,
  YAxis,
  type TooltipContentProps,
} from 'recharts';
import { NitrogenReadout, OxygenReadout, type FullPoint } from './band-readout';
import { heightOf, type CurveScale } from './curve';
import { StayedLines } from './stayed-lines';
import type { TimeScale } from './time-scale';

/** The bands have the same points, so that both are read at one moment. */
const SYNC = 'carried';

const NO_MARGIN = { top: 0, right: 0, bottom: 0, left: 0 };
const CURSOR = { stroke: 'var(--ink-soft)', strokeWidth: 1 };
/** Above the band, over the words that explain it: the peaks beside the one that is read stay in sight. */
const READOUT_AT = { y: -24 };

/** A figure of a point, and the colour of its curve. */
interface Series {
  readonly key: 'share' | 'cns' | 'cnsDay';
  readonly colour: string;
}

const SERIES = {
  nitrogen: [{ key: 'share', colour: 'var(--nitrogen)' }],
  oxygen: [
    { key: 'cns', colour: 'var(--oxygen)' },
    { key: 'cnsDay', colour: 'var(--oxygen)' },
  ],
} as const satisfies Record<string, readonly Series[]>;

const READOUTS = { nitrogen: NitrogenReadout, oxygen: OxygenReadout } as const;

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

export interface ReadingProps extends CurveScale {
  readonly points: readonly FullPoint[];
  readonly widthPx: number;
  readonly isRead: boolean;
  readonly title: string;
  readonly of: keyof typeof SERIES;
  /** Whose dives are drawn on as if they stayed, where there is room for it. */
  readonly stays?: DiverLedger | null | false | undefined;
  readonly time?: TimeScale | undefined;
}

/**
 * What is read under the pointer and the keyboard. It is given points only where they are read: to lay them out
 * takes longer than the frame of an edit.
 */
export const ReadingChart = memo(function ReadingChart(props: ReadingProps) {
  const { points, isRead, widthPx, heightPx, top, title, of, stays, time } = props;
  const series: readonly Series[] = SERIES[of];
  const Readout = READOUTS[of];
  const axes = useMemo(
    () => (
      <>
        <XAxis dataKey="x" type="number" domain={[0, widthPx]} hide allowDataOverflow />
        <YAxis type="number" domain={[0, top]} hide allowDataOverflow />
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
      return at === null || at === undefined ? null : <Readout at={at as FullPoint} />;
    },
    [Readout, isRead],
  );
  const chart = (
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
  return (
    <>
      {stays && time && (
        <StayedLines shown={stays} time={time} widthPx={widthPx} heightPx={heightPx} top={top} />
      )}
      {chart}
    </>
  );
});
