/** The nitrogen of the diver shown as a proposal would make it: dashed, and only where it is not the curve itself. */
import { useMemo, type ReactNode } from 'react';
import { ledger } from '../../../../core/ledger/ledger';
import { timelineOf, type TimelinePoint } from '../../../../core/ledger/timeline';
import type { Id, Trip } from '../../../../core/document/types';
import { selectLedger } from '../../../store/selectors';
import { useDesk } from '../../../store/store';
import { stepsOf } from './band-data';
import { curvePath, type CurveScale } from './curve';
import styles from './proposed-curve.module.css';
import { placeOf, type TimeScale } from './time-scale';

type Drawn = Pick<TimelinePoint, 'atMin' | 'fractionOfLimit'>;

/** Less than this of the limit apart nobody sees two curves: a third of a pixel of the tallest band. */
const APART = 0.002;

/** The share of a curve at a moment, straight between its points; null outside it. */
function shareAt(points: readonly Drawn[], atMin: number, from: number): readonly [number | null, number] {
  let i = from;
  while (i < points.length && points[i]!.atMin < atMin) i += 1;
  const after = points[i];
  if (after === undefined) return [null, i];
  const before = points[i - 1];
  if (after.atMin === atMin) return [after.fractionOfLimit, i];
  if (before === undefined) return [null, i];
  const way = (atMin - before.atMin) / (after.atMin - before.atMin);
  return [before.fractionOfLimit + way * (after.fractionOfLimit - before.fractionOfLimit), i];
}

/**
 * What of a proposed curve is another than the curve that is there.
 * @param now the curve as it is @param proposed as it would be; both in order of time
 * @returns a share for each moment of either, null where the two are one: where they part and meet both have a point
 */
export function partedFrom(
  now: readonly Drawn[],
  proposed: readonly Drawn[],
): readonly { readonly atMin: number; readonly share: number | null }[] {
  const moments = [...new Set([...now, ...proposed].map(({ atMin }) => atMin))].toSorted((a, b) => a - b);
  let [one, other] = [0, 0];
  const all = moments.map((atMin) => {
    const [is, i] = shareAt(now, atMin, one);
    const [would, j] = shareAt(proposed, atMin, other);
    [one, other] = [i, j];
    // Where one of them is over the other goes on.
    const isApart = would !== null && (is === null || Math.abs(would - is) > APART);
    return { atMin, would, isApart };
  });
  return all.map(({ atMin, would, isApart }, i) => ({
    atMin,
    share: isApart || all[i - 1]?.isApart === true || all[i + 1]?.isApart === true ? would : null,
  }));
}

interface ProposedCurveProps extends CurveScale {
  readonly proposed: Trip;
  readonly diverId: Id;
  readonly now: readonly TimelinePoint[];
  readonly time: TimeScale;
}

export function ProposedCurve({
  proposed,
  diverId,
  now,
  time,
  top,
  heightPx,
}: ProposedCurveProps): ReactNode {
  const whole = useDesk(selectLedger);
  const path = useMemo(() => {
    const mine = ledger(proposed, whole).divers.find(({ diver }) => diver.id === diverId);
    const untilMin = now.at(-1)?.atMin;
    if (mine === undefined || untilMin === undefined || mine.entries.length === 0) return '';
    const { points } = timelineOf(mine, proposed, untilMin, stepsOf(time));
    const drawn = partedFrom(now, points).map((each) => ({ ...each, x: placeOf(time, each.atMin) }));
    return curvePath(drawn, ({ share }) => share, { top, heightPx });
  }, [proposed, whole, diverId, now, time, top, heightPx]);
  return <path className={styles.proposed} data-part="proposed nitrogen" d={path} />;
}
