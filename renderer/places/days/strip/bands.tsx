/** Nitrogen and oxygen carried, unbroken from the first dive to the flight home, in step with the strip. */
import { memo, useMemo, type ReactNode } from 'react';
import { lazily } from '../../../parts/lazily';
import type { BandPoint } from './band-data';
import type { ReadingProps } from './band-reading';
import { LimitLine, NitrogenCurves, OxygenCurves, UNITS_PER_PX, type CurveScale } from './curve';
import styles from './bands.module.css';

/** A part of the window's code that is large and shows nothing by itself: the curves do not wait for it. */
const ReadingChart = lazily(
  () => import('./band-reading'),
  (part) => part.ReadingChart,
  {
    waiting: null,
    failed: (_trouble, again) => (
      <p className={styles.fault} role="alert">
        The curves cannot be read out: that part of the window did not load.{' '}
        <button type="button" className="linked" onClick={again}>
          Try again
        </button>
        , or load the window again.
      </p>
    ),
  },
);

/** Points, and for each the share of every compartment where those are drawn. */
export interface Carried {
  readonly points: readonly BandPoint[];
  readonly shares: readonly (readonly number[])[] | null;
}

interface BandProps extends CurveScale, Pick<ReadingProps, 'stays' | 'time'> {
  readonly points: readonly BandPoint[];
  readonly widthPx: number;
  /** What the charts were given to read, which an edit leaves behind; both bands are read at once. */
  readonly given: Carried;
  readonly isRead: boolean;
}

function Band({ curves, ...reading }: ReadingProps & { readonly curves: ReactNode }) {
  const { widthPx, heightPx, top } = reading;
  return (
    <div className={styles.band} data-part="band" style={{ width: widthPx, height: heightPx }}>
      <svg
        className={styles.curves}
        width={widthPx}
        height={heightPx}
        viewBox={`0 0 ${widthPx * UNITS_PER_PX} ${heightPx * UNITS_PER_PX}`}
        aria-hidden="true"
      >
        {curves}
        <LimitLine widthPx={widthPx} heightPx={heightPx} top={top} />
      </svg>
      <ReadingChart {...reading} />
    </div>
  );
}

export const NitrogenBand = memo(function NitrogenBand({
  points,
  shares,
  given,
  about,
  ...band
}: BandProps & Carried & { readonly about: ReactNode }) {
  const { top, heightPx } = band;
  const full = useMemo(
    () =>
      given.shares === null
        ? given.points
        : given.points.map((point, i) => ({ ...point, shares: given.shares![i]! })),
    [given],
  );
  return (
    <Band
      {...band}
      points={full}
      title="Nitrogen on surfacing"
      of="nitrogen"
      curves={
        <>
          <NitrogenCurves points={points} shares={shares} top={top} heightPx={heightPx} />
          {about}
        </>
      }
    />
  );
});

export const OxygenBand = memo(function OxygenBand({ points, given, ...band }: BandProps) {
  const { top, heightPx } = band;
  return (
    <Band
      {...band}
      points={given.points}
      title="Oxygen clock"
      of="oxygen"
      curves={<OxygenCurves points={points} top={top} heightPx={heightPx} />}
    />
  );
});
