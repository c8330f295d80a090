/** Where most runs lie about the curve of nitrogen: a quiet wash over it. Drawn beside the window after each edit. */
import { useEffect, useMemo, useState, type ReactNode } from 'react';
import type { Id, Trip } from '../../../../core/document/types';
import type { BandMoment } from '../../../../core/sturdiness/curve-band';
import { USUAL_SEED } from '../../../../core/sturdiness/sturdiness';
import { workBeside } from '../../../parts/work';
import { selectDoneUntil } from '../../../store/clock';
import { useDesk } from '../../../store/store';
import { curvePath, type CurveScale } from './curve';
import type { BandAsk } from './sturdy-band-job';
import workerUrl from './sturdy-band-worker?worker&url';
import styles from './sturdy-band.module.css';
import { placeOf, type TimeScale } from './time-scale';

const work = workBeside<BandAsk, readonly BandMoment[]>(workerUrl);

interface SturdyBandProps extends CurveScale {
  readonly diverId: Id;
  readonly time: TimeScale;
  readonly untilMin: number;
}

export function SturdyBand({ diverId, time, untilMin, top, heightPx }: SturdyBandProps): ReactNode {
  const trip = useDesk((state) => state.trip);
  const doneUntilMin = useDesk(selectDoneUntil);
  const [made, setMade] = useState<{
    readonly trip: Trip;
    readonly diverId: Id;
    readonly band: readonly BandMoment[];
  } | null>(null);
  useEffect(() => {
    const draw = { seed: USUAL_SEED, nowMin: doneUntilMin };
    void work.ask({ trip, diverId, draw, untilMin }).then((outcome) => {
      if (outcome.kind === 'answer') setMade({ trip, diverId, band: outcome.answer });
    });
  }, [trip, diverId, doneUntilMin, untilMin]);
  useEffect(() => work.stop, []);
  // Of the plan before an edit it says nothing any more.
  const band = made?.trip === trip && made.diverId === diverId ? made.band : null;
  const path = useMemo(() => {
    if (band === null) return '';
    const points = band.map((each) => ({ ...each, x: placeOf(time, each.atMin) }));
    const high = curvePath(points, (each) => each.high, { top, heightPx });
    return `${high}${curvePath(points.toReversed(), (each) => each.low, { top, heightPx }).replace('M', 'L')}Z`;
  }, [band, time, top, heightPx]);
  return <path className={styles.runs} data-part="runs" d={path} />;
}
