/** The figures at the left edge, which stay when the strip is scrolled. */
import { memo } from 'react';
import { percentText } from '../../../figures/format';
import { shareMarks } from './band-data';
import type { DepthScale } from './depth-scale';
import type { StripLayout } from './strip-layout';
import styles from './strip.module.css';

interface AxisProps {
  readonly depth: DepthScale;
  readonly layout: StripLayout;
  readonly widthPx: number;
  readonly nitrogenTop: number;
  readonly oxygenTop: number;
  readonly unit: string;
  readonly textScale: number;
  /** False where a table stands in the place of the bands. */
  readonly hasBands: boolean;
}

export const Axis = memo(function Axis(props: AxisProps) {
  const { depth, layout, widthPx, hasBands } = props;
  const band = { x: widthPx - 8, textScale: props.textScale };
  const waterY = layout.boardPx + layout.skyPx;
  const nitrogenY = waterY + layout.waterPx + layout.titlePx;
  const oxygenY = nitrogenY + layout.nitrogenPx + layout.titlePx;
  const heightPx = hasBands ? layout.totalPx : waterY + layout.waterPx;
  return (
    <svg className={styles.axis} width={widthPx} height={heightPx} aria-hidden="true">
      <text className={styles.depth} x={widthPx - 8} y={waterY} dy="0.35em">
        {`0 ${props.unit}`}
      </text>
      {depth.marks.map(({ depthM, label }) => (
        <text
          key={label}
          className={styles.depth}
          x={widthPx - 8}
          y={waterY + depthM * depth.pxPerM}
          dy="0.35em"
        >
          {label}
        </text>
      ))}
      {hasBands && (
        <>
          <BandAxis y={nitrogenY} heightPx={layout.nitrogenPx} top={props.nitrogenTop} {...band} />
          <BandAxis y={oxygenY} heightPx={layout.oxygenPx} top={props.oxygenTop} {...band} />
        </>
      )}
    </svg>
  );
});

/** Figures closer than this, at 100 % text, run into each other. */
const FIGURE_PX = 18;

interface BandAxisProps {
  readonly y: number;
  readonly heightPx: number;
  readonly top: number;
  readonly x: number;
  readonly textScale: number;
}

function BandAxis({ y, heightPx, top, x, textScale }: BandAxisProps) {
  const shares = shareMarks(top, heightPx, FIGURE_PX * textScale);
  return (
    <>
      {shares.map((share) => (
        <text
          key={share}
          className={share === 1 ? styles.limit : styles.share}
          x={x}
          y={y + heightPx * (1 - share / top)}
          dy="0.35em"
        >
          {share === 0 ? '0' : share === 1 ? 'limit' : percentText(share, 'near')}
        </text>
      ))}
    </>
  );
}
