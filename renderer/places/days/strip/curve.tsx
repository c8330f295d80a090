/**
 * The curves of the bands, drawn with the strip in the frame of an edit. A chart that draws them takes longer
 * than all the rest of that frame: it is given the points afterwards, for what is read out of it.
 */
import { memo, useMemo, type ReactNode } from 'react';
import type { BandPoint } from './band-data';
import styles from './bands.module.css';

export interface CurveScale {
  /** The value at the top of the band; 0 lies at its foot. */
  readonly top: number;
  readonly heightPx: number;
}

/** Units of a path to the pixel: whole numbers, which are written down in a third of the time of fractions. */
export const UNITS_PER_PX = 10;

/** Pixels from the top of the band. */
export function heightOf(value: number, { top, heightPx }: CurveScale): number {
  return heightPx * (1 - value / top);
}

/** A place in the units of a path. */
function inUnits(px: number): number {
  return Math.round(px * UNITS_PER_PX);
}

/**
 * Straight lines through the points, each a tenth of a pixel exact.
 * @param valueOf what of a point is drawn; null where it has no figure, and the line has a gap
 * @returns the path in SVG's own words, in tenths of a pixel; empty for no points
 */
export function curvePath<P extends { readonly x: number }>(
  points: readonly P[],
  valueOf: (point: P, index: number) => number | null,
  scale: CurveScale,
): string {
  let path = '';
  let isDrawn = false;
  points.forEach((point, i) => {
    const value = valueOf(point, i);
    if (value !== null) {
      path += `${isDrawn ? 'L' : 'M'}${inUnits(point.x)} ${inUnits(heightOf(value, scale))}`;
    }
    isDrawn = value !== null;
  });
  return path;
}

/** A curve without gaps, closed along the foot of the band. */
export function washPath(curve: string, points: readonly { readonly x: number }[], heightPx: number): string {
  const [first] = points;
  const last = points.at(-1);
  if (first === undefined || last === undefined) return '';
  const foot = inUnits(heightPx);
  return `${curve}L${inUnits(last.x)} ${foot}L${inUnits(first.x)} ${foot}Z`;
}

/** Across the whole band, where it reaches that high. */
export function LimitLine({ widthPx, ...scale }: CurveScale & { readonly widthPx: number }): ReactNode {
  if (scale.top < 1) return null;
  return (
    <path
      className={styles.limit}
      data-part="limit"
      d={`M0 ${inUnits(heightOf(1, scale))}H${inUnits(widthPx)}`}
    />
  );
}

interface CurvesProps extends CurveScale {
  readonly points: readonly BandPoint[];
}

export const NitrogenCurves = memo(function NitrogenCurves(
  props: CurvesProps & { readonly shares: readonly (readonly number[])[] | null },
): ReactNode {
  const { points, shares, top, heightPx } = props;
  const leading = useMemo(
    () => curvePath(points, (point) => point.share, { top, heightPx }),
    [points, top, heightPx],
  );
  const lanes = useMemo(() => {
    const count = shares?.[0]?.length ?? 0;
    return Array.from({ length: count }, (_, lane) =>
      curvePath(points, (_point, i) => shares![i]![lane]!, { top, heightPx }),
    );
  }, [points, shares, top, heightPx]);
  return (
    <>
      <path className={styles.washNitrogen} d={washPath(leading, points, heightPx)} />
      {lanes.map((path, i) => (
        <path key={`compartment ${i + 1}`} className={styles.compartment} data-part="compartment" d={path} />
      ))}
      <path className={styles.nitrogen} data-part="nitrogen" d={leading} />
    </>
  );
});

export const OxygenCurves = memo(function OxygenCurves(props: CurvesProps): ReactNode {
  const { points, top, heightPx } = props;
  const day = useMemo(
    () => curvePath(points, (point) => point.cnsDay, { top, heightPx }),
    [points, top, heightPx],
  );
  const clock = useMemo(
    () => curvePath(points, (point) => point.cns, { top, heightPx }),
    [points, top, heightPx],
  );
  return (
    <>
      <path className={styles.cnsDay} d={day} />
      <path className={styles.cns} d={clock} />
    </>
  );
});
