/** Nitrogen and oxygen carried, unbroken from the first dive to the flight home, in step with the strip. */
import { memo, useCallback, useMemo, type ReactNode } from 'react';
import { depthText, percentText } from '../../../figures/format';
import { lazily } from '../../../parts/lazily';
import type { BandPoint } from './band-data';
import type { FullPoint, ReadingProps, Series } from './band-reading';
import { LimitLine, NitrogenCurves, OxygenCurves, UNITS_PER_PX, type CurveScale } from './curve';
import { momentText, type Reader } from './strip-words';

/** A part of the window's code that is large and shows nothing by itself: the curves do not wait for it. */
const ReadingChart = lazily(async () => (await import('./band-reading')).ReadingChart, {
  waiting: null,
  failed: ({ mend }, again) => (
    <p className="band-fault" role="alert">
      The curves cannot be read out: a part of the window could not be loaded. {mend}{' '}
      <button type="button" className="button" onClick={again}>
        Try again
      </button>
    </p>
  ),
});

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

function Band({ curves, ...reading }: ReadingProps & { readonly curves: ReactNode }) {
  const { widthPx, heightPx, top } = reading;
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
