import { memo, useMemo, useRef, type ReactElement, type ReactNode } from 'react';
import {
  CartesianGrid,
  ComposedChart,
  Line,
  Scatter,
  Tooltip,
  XAxis,
  YAxis,
  type TooltipContentProps,
} from 'recharts';
import type { StockList } from '../../../core/mixes/stock';
import { listSaid, measureSaid, roomMinSaid } from '../../../core/mixes/stock-words';
import type { Trip } from '../../../core/document/types';
import { figure, said, type Said } from '../../../core/words/said';
import { moneySaid } from '../../../core/words/terms';
import { useChartSize } from './use-chart-size';
import { useWords } from '../../parts/use-words';
import { niceTicks, placeLabels } from './chart-scale';
import { listKey } from './mixes-words';
import styles from './stock-chart.module.css';

/** Less than so much left on some dive is shown as a ring. Source: this project's; what a dive may run over by. */
const SNUG_MIN = 5;

const MARGIN = { top: 24, right: 18, bottom: 20, left: 8 } as const;
const AXIS_PX = 40;
const FOOT_PX = 24;
const HEIGHT_PX = 290;

type Kind = 'firm' | 'snug' | 'outside';

interface Mark {
  readonly key: string;
  readonly x: number;
  readonly y: number;
  readonly kind: Kind;
  readonly list: StockList;
}

function marksOf(lists: readonly StockList[], dives: number, byCost: boolean): readonly Mark[] {
  return lists.flatMap((list) => {
    const y = list.nitrogenRoomMin;
    // Without an end, or past the limit without a figure, a list has no place on the scale; the table has it.
    if (y === null || !Number.isFinite(y)) return [];
    const room = list.smallestRoomMin ?? Infinity;
    const kind: Kind = list.divesWithin < dives ? 'outside' : room >= SNUG_MIN ? 'firm' : 'snug';
    return [{ key: listKey(list), x: byCost ? list.cost : list.fills, y, kind, list }];
  });
}

/** What more money buys: the corners of the line above which there is no list that keeps every dive. */
function stairOf(marks: readonly Mark[]): readonly { readonly x: number; readonly y: number }[] {
  const stair: { x: number; y: number }[] = [];
  for (const { x, y } of marks
    .filter(({ kind }) => kind !== 'outside')
    .toSorted((a, b) => a.x - b.x || b.y - a.y)) {
    if (y > (stair.at(-1)?.y ?? -Infinity)) stair.push({ x, y });
  }
  return stair;
}

function shapeOf(cx: number, cy: number, mark: Mark, chosen: string | null): ReactElement {
  const isChosen = mark.key === chosen;
  if (mark.kind === 'outside') {
    const d = `M${cx - 4},${cy - 4}l8,8m0,-8l-8,8`;
    return <path d={d} className={isChosen ? styles.outsideChosen : styles.outside} />;
  }
  return (
    <circle
      cx={cx}
      cy={cy}
      r={isChosen ? 7.5 : 4.8}
      className={isChosen ? styles.chosen : mark.kind === 'firm' ? styles.firm : styles.snug}
    />
  );
}

function Key(): ReactNode {
  return (
    <p className={styles.key}>
      <svg width={12} height={12} aria-hidden="true">
        <circle cx={6} cy={6} r={4.6} className={styles.firm} />
      </svg>{' '}
      {SNUG_MIN} min or more left on every dive
      <svg width={12} height={12} aria-hidden="true">
        <circle cx={6} cy={6} r={4.6} className={styles.snug} />
      </svg>{' '}
      less
      <svg width={12} height={12} aria-hidden="true">
        <path d="M2,2l8,8m0,-8l-8,8" className={styles.outside} />
      </svg>{' '}
      a dive outside its limits
    </p>
  );
}

/** The lists told: what they cost (or how many fills they take) against the nitrogen room of the middle dive. */
export const StockChart = memo(function StockChart(props: {
  readonly lists: readonly StockList[];
  readonly trip: Trip;
  readonly chosen: string | null;
  readonly choose: (key: string) => void;
}): ReactNode {
  const { lists, trip, chosen, choose } = props;
  const words = useWords();
  const box = useRef<HTMLDivElement>(null);
  const size = useChartSize(box);
  const byCost = new Set(lists.map(({ cost }) => cost)).size > 1;
  const marks = useMemo(() => marksOf(lists, trip.dives.length, byCost), [lists, trip, byCost]);
  const stair = useMemo(() => stairOf(marks), [marks]);
  const xs = marks.map(({ x }) => x);
  const ys = marks.map(({ y }) => y);
  const widthPx = size?.widthPx ?? 0;
  const xTicks = niceTicks(Math.min(...xs), Math.max(...xs), Math.max(3, Math.round(widthPx / 110)));
  const yTicks = niceTicks(Math.min(...ys), Math.max(...ys), 5);
  const frame = {
    left: MARGIN.left + AXIS_PX,
    right: widthPx - MARGIN.right,
    top: MARGIN.top,
    bottom: HEIGHT_PX - MARGIN.bottom - FOOT_PX,
  };
  const xPx = (x: number) =>
    frame.left + ((x - xTicks[0]!) / (xTicks.at(-1)! - xTicks[0]!)) * (frame.right - frame.left);
  const yPx = (y: number) =>
    frame.bottom - ((y - yTicks[0]!) / (yTicks.at(-1)! - yTicks[0]!)) * (frame.bottom - frame.top);
  const onStair = (mark: Mark) => stair.some(({ x, y }) => x === mark.x && y === mark.y);
  const wanted = (mark: Mark) =>
    mark.key === chosen ? 0 : onStair(mark) ? 1 : mark.kind === 'outside' ? 3 : 2;
  const labels = placeLabels(
    marks
      .toSorted((a, b) => wanted(a) - wanted(b))
      .map(({ key, x, y, list }) => ({ key, xPx: xPx(x), yPx: yPx(y), text: list.percents.join(' + ') })),
    frame,
  );
  const readout = (content: TooltipContentProps): ReactNode => {
    // Recharts hands back the very object it was given.
    const mark = content.active
      ? (content.payload
          .map(({ payload }: { payload?: unknown }) => payload as Partial<Mark>)
          .find((each) => each.list) ?? null)
      : null;
    if (!mark?.list) return null;
    const { list } = mark;
    const told: Said = said`${listSaid(list)}: ${measureSaid('within', list, trip)} dives within limits, least room ${roomMinSaid(list.smallestRoomMin)}, half of the dives keep ${roomMinSaid(list.nitrogenRoomMin)} or more of nitrogen room, oxygen ${figure('shareMet', list.oxygenPeak)} at most, ${list.fills} fills, ${moneySaid(list.cost, trip.currency)}.`;
    return <p className={styles.readout}>{words(told)}</p>;
  };
  // Recharts hands back each mark with where it stands.
  const drawn = (point: {
    readonly cx?: number | undefined;
    readonly cy?: number | undefined;
    readonly payload?: unknown;
  }) => shapeOf(point.cx ?? 0, point.cy ?? 0, point.payload as Mark, chosen);
  const axisName = byCost ? 'Cost of all fills' : 'Fills of anything but air';
  return (
    <figure className={styles.chart}>
      <div ref={box} className={styles.box}>
        {size === null || marks.length < 2 ? null : (
          <ComposedChart
            width={size.widthPx}
            height={HEIGHT_PX}
            margin={MARGIN}
            title={`Lists by ${byCost ? 'cost' : 'fills'} and nitrogen room; the table has the same figures`}
          >
            <CartesianGrid stroke="var(--rule)" />
            <XAxis
              dataKey="x"
              type="number"
              domain={[xTicks[0]!, xTicks.at(-1)!]}
              ticks={[...xTicks]}
              height={FOOT_PX}
              stroke="var(--line)"
              tickLine={false}
              tick={{ fill: 'var(--ink-soft)', fontSize: 13 }}
              tickFormatter={(value: number) =>
                byCost ? words(said`${moneySaid(value, trip.currency)}`) : String(value)
              }
            />
            <YAxis
              dataKey="y"
              type="number"
              domain={[yTicks[0]!, yTicks.at(-1)!]}
              ticks={[...yTicks]}
              width={AXIS_PX}
              axisLine={false}
              tickLine={false}
              tick={{ fill: 'var(--ink-soft)', fontSize: 13 }}
            />
            <Tooltip content={readout} isAnimationActive={false} cursor={false} shared={false} />
            <Line
              data={[...stair]}
              dataKey="y"
              type="stepAfter"
              stroke="var(--nitrogen)"
              strokeOpacity={0.55}
              dot={false}
              activeDot={false}
              isAnimationActive={false}
              tooltipType="none"
            />
            <Scatter
              data={[...marks]}
              dataKey="y"
              isAnimationActive={false}
              shape={drawn}
              onClick={(point: { readonly payload?: unknown }) => choose((point.payload as Mark).key)}
            />
          </ComposedChart>
        )}
        {/* Above what recharts draws, in the same pixels. */}
        {size === null || marks.length < 2 ? null : (
          <svg className={styles.over} width={widthPx} height={HEIGHT_PX} aria-hidden="true">
            <g className={styles.labels}>
              <text className={styles.axisName} x={frame.left + 8} y={frame.top - 8}>
                Nitrogen room of the middle dive, minutes
              </text>
              <text className={styles.axisName} x={frame.right} y={HEIGHT_PX - 5} textAnchor="end">
                {axisName}
              </text>
              {labels.map(({ key, text, xPx: x, yPx: y, anchor }) => (
                <text
                  key={key}
                  x={x}
                  y={y}
                  textAnchor={anchor}
                  className={key === chosen ? styles.chosenLabel : ''}
                >
                  {text}
                </text>
              ))}
            </g>
          </svg>
        )}
      </div>
      <Key />
    </figure>
  );
});
