import { useMemo, useRef, type ReactNode } from 'react';
import {
  CartesianGrid,
  Scatter,
  ScatterChart,
  Tooltip,
  XAxis,
  YAxis,
  ZAxis,
  type TooltipContentProps,
} from 'recharts';
import type { StockList } from '../../../core/mixes/stock';
import { numberText, percentText } from '../../figures/format';
import { useSize } from '../../parts/use-size';
import { listKey, listName, moneyText, roomText } from './mixes-words';

/** A list as a mark: what it costs against the room it leaves, the larger the more oxygen. */
interface Mark {
  readonly key: string;
  readonly name: string;
  readonly x: number;
  readonly room: number;
  readonly peak: number;
  readonly list: StockList;
}

function marksOf(lists: readonly StockList[], byCost: boolean): readonly Mark[] {
  return lists.flatMap((list) =>
    // A list without a limit in reach, or without a figure, has no place on the scale; the table has it.
    list.smallestRoomMin === null || !Number.isFinite(list.smallestRoomMin) || list.oxygenPeak === null
      ? []
      : [
          {
            key: listKey(list),
            name: listName(list),
            x: byCost ? list.cost : list.fills,
            room: list.smallestRoomMin,
            peak: list.oxygenPeak,
            list,
          },
        ],
  );
}

function Readout({ mark, byCost }: { readonly mark: Mark; readonly byCost: boolean }): ReactNode {
  return (
    <p className="stock-readout">
      <strong>{mark.name}</strong> {mark.list.divesWithin} dives within limits, {roomText(mark.room)} of room,
      oxygen {percentText(mark.peak, 'up')}, {byCost ? `cost ${moneyText(mark.list.cost)}` : ''}{' '}
      {mark.list.fills} fills
    </p>
  );
}

/** From one whole minute to another, with a little water under the lowest mark. */
const WHOLE_MINUTES = [
  (least: number) => Math.floor(least - 0.2),
  (most: number) => Math.ceil(most + 0.2),
] as const;

/** The lists told, cost (or fills, where nothing has a price) across, least room up. */
export function StockChart(props: {
  readonly lists: readonly StockList[];
  readonly chosen: string | null;
  readonly choose: (key: string) => void;
}): ReactNode {
  const { lists, chosen, choose } = props;
  const box = useRef<HTMLDivElement>(null);
  const size = useSize(box);
  const byCost = lists.some(({ cost }) => cost > 0);
  const marks = useMemo(() => marksOf(lists, byCost), [lists, byCost]);
  const others = useMemo(() => marks.filter(({ key }) => key !== chosen), [marks, chosen]);
  const taken = useMemo(() => marks.filter(({ key }) => key === chosen), [marks, chosen]);
  const readout = (content: TooltipContentProps): ReactNode => {
    const payload: unknown = content.active ? content.payload[0]?.payload : null;
    // Recharts hands back the very object it was given.
    return payload ? <Readout mark={payload as Mark} byCost={byCost} /> : null;
  };
  const onClick = (point: { readonly payload?: unknown }): void => choose((point.payload as Mark).key);
  return (
    <figure className="stock-chart">
      <figcaption>
        Least room in minutes against {byCost ? 'cost' : 'fills of anything but air'}; a larger mark is more
        oxygen. The table below has the same figures.
      </figcaption>
      <div ref={box} className="stock-chart-box">
        {size === null || marks.length === 0 ? null : (
          <ScatterChart
            width={size.widthPx}
            height={240}
            margin={{ top: 8, right: 16, bottom: 8, left: 0 }}
            title="Lists that nothing beats"
          >
            <CartesianGrid stroke="var(--rule)" strokeDasharray="2 4" />
            <XAxis
              dataKey="x"
              type="number"
              domain={['auto', 'auto']}
              stroke="var(--ink-soft)"
              tickLine={false}
              tickFormatter={(value: number) => moneyText(value)}
            />
            <YAxis
              dataKey="room"
              type="number"
              domain={WHOLE_MINUTES}
              allowDecimals={false}
              stroke="var(--ink-soft)"
              tickLine={false}
              tickFormatter={(value: number) => numberText(value, 0, 'near')}
              width={44}
            />
            <ZAxis dataKey="peak" type="number" range={[24, 150]} />
            <Tooltip content={readout} isAnimationActive={false} cursor={false} />
            <Scatter
              data={[...others]}
              fill="var(--tint-4)"
              stroke="var(--nitrogen)"
              isAnimationActive={false}
              onClick={onClick}
            />
            <Scatter
              data={[...taken]}
              fill="var(--chosen)"
              stroke="var(--ink)"
              shape="diamond"
              isAnimationActive={false}
            />
          </ScatterChart>
        )}
      </div>
    </figure>
  );
}
