/** The figures at the left edge, which stay when the strip is scrolled. */
import { memo } from 'react';
import type { DepthScale } from './depth-scale';
import type { StripLayout } from './strip-layout';

interface AxisProps {
  readonly depth: DepthScale;
  readonly layout: StripLayout;
  readonly widthPx: number;
  readonly nitrogenTop: number;
  readonly oxygenTop: number;
  readonly unit: string;
  /** False where a table stands in the place of the bands. */
  readonly hasBands: boolean;
}

export const Axis = memo(function Axis(props: AxisProps) {
  const { depth, layout, widthPx, nitrogenTop, oxygenTop, hasBands } = props;
  const waterY = layout.headPx + layout.intervalPx;
  const nitrogenY = waterY + layout.waterPx + layout.titlePx;
  const oxygenY = nitrogenY + layout.nitrogenPx + layout.titlePx;
  const heightPx = hasBands ? layout.totalPx : waterY + layout.waterPx;
  return (
    <svg className="strip-axis" width={widthPx} height={heightPx} aria-hidden="true">
      <text className="axis-depth" x={widthPx - 8} y={waterY} dy="0.35em">
        {`0 ${props.unit}`}
      </text>
      {depth.marks.map(({ depthM, label }) => (
        <text
          key={label}
          className="axis-depth"
          x={widthPx - 8}
          y={waterY + depthM * depth.pxPerM}
          dy="0.35em"
        >
          {label}
        </text>
      ))}
      {hasBands && (
        <>
          <BandAxis y={nitrogenY} heightPx={layout.nitrogenPx} top={nitrogenTop} x={widthPx - 8} />
          <BandAxis y={oxygenY} heightPx={layout.oxygenPx} top={oxygenTop} x={widthPx - 8} />
        </>
      )}
    </svg>
  );
});

function BandAxis({ y, heightPx, top, x }: { y: number; heightPx: number; top: number; x: number }) {
  const shares = top >= 1 ? [0, 0.5, 1] : [0, 0.25, 0.5, 0.75].filter((share) => share < top);
  return (
    <>
      {shares.map((share) => (
        <text
          key={share}
          className={share === 1 ? 'axis-share axis-limit' : 'axis-share'}
          x={x}
          y={y + heightPx * (1 - share / top)}
          dy="0.35em"
        >
          {share === 0 ? '0' : share === 1 ? 'limit' : `${share * 100} %`}
        </text>
      ))}
    </>
  );
}
