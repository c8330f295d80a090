/** What a proposal would make of the dives, over the strip as it stands: drawn before anything is changed. */
import { memo, useEffect, useRef, type ReactNode } from 'react';
import { divePlan } from '../../../../core/ledger/dive-plan';
import { surroundingsAt } from '../../../../core/document/waters';
import type { Surroundings } from '../../../../core/profile';
import type { Dive, Trip } from '../../../../core/document/types';
import { clockText, numberText } from '../../../figures/format';
import { useDesk } from '../../../store/store';
import type { DepthScale } from './depth-scale';
import { plannedPoints } from './dive-view';
import { weightPath } from './dive-mark';
import styles from './proposed-ghosts.module.css';
import { sounding, type Reader } from './strip-words';
import { placeOf, type TimeScale } from './time-scale';

interface Page {
  readonly time: TimeScale;
  readonly depth: DepthScale;
  readonly waterlineY: number;
  readonly heightPx: number;
  readonly textScale: number;
}

interface GhostsProps extends Page {
  readonly proposed: Trip;
}

/** A dive that a proposal changes: as it would be, or null where it is dropped. */
interface Changed {
  readonly from: Dive;
  readonly to: Dive | null;
}

/** The dives of a trip that are others in a trip worked out from it; what stays is the same object. */
function changedDives(trip: Trip, proposed: Trip): readonly Changed[] {
  const made = new Map(proposed.dives.map((dive) => [dive.id, dive]));
  return trip.dives.flatMap((from) => {
    const to = made.get(from.id) ?? null;
    return to === from ? [] : [{ from, to }];
  });
}

export const ProposedGhosts = memo(function ProposedGhosts(props: GhostsProps): ReactNode {
  const { proposed, time, waterlineY, heightPx } = props;
  const trip = useDesk((state) => state.trip);
  const reader = useDesk(({ settings }) => settings);
  const drawn = useRef<SVGSVGElement>(null);
  // Where the card stands below the strip, the strip was scrolled away.
  useEffect(() => {
    // Newer browsers answer with a promise, which is nothing to clean up with.
    drawn.current?.closest('[data-part="scroller"]')?.scrollIntoView({ block: 'nearest' });
  }, []);
  return (
    <svg
      ref={drawn}
      className={styles.ghosts}
      data-part="proposed"
      width={time.widthPx}
      height={heightPx + waterlineY}
      aria-hidden="true"
    >
      <g transform={`translate(0 ${waterlineY})`}>
        {changedDives(trip, proposed).map(({ from, to }) =>
          to === null ? (
            <Dropped key={from.id} dive={from} around={surroundingsAt(trip, from)} page={props} />
          ) : (
            <Ghost
              key={from.id}
              from={from}
              to={to}
              around={surroundingsAt(trip, from)}
              page={props}
              reader={reader}
            />
          ),
        )}
      </g>
    </svg>
  );
});

function pathOf(dive: Dive, around: Surroundings, { time, depth }: Page): string {
  return plannedPoints(dive, divePlan(dive, around).legs)
    .map(({ atMin, depthM }, i) => `${i === 0 ? 'M' : 'L'}${placeOf(time, atMin)} ${depthM * depth.pxPerM}`)
    .join('');
}

function weightAt(dive: Dive, around: Surroundings, { time, depth }: Page) {
  const [, weight] = plannedPoints(dive, divePlan(dive, around).legs);
  return { x: placeOf(time, weight!.atMin), y: weight!.depthM * depth.pxPerM };
}

interface GhostProps {
  readonly from: Dive;
  readonly to: Dive;
  readonly around: Surroundings;
  readonly page: Page;
  readonly reader: Reader;
}

/** "10:55" over the line where the start moves; "21/43" above the bar where the dive is another, as what it is now stands below. */
function Ghost({ from, to, around, page, reader }: GhostProps): ReactNode {
  const k = page.textScale;
  const was = weightAt(from, around, page);
  const is = weightAt(to, around, page);
  const isMoved = from.startsAt !== to.startsAt;
  const isReshaped = from.depthM !== to.depthM || from.bottomMin !== to.bottomMin;
  return (
    <g data-part="proposed dive">
      <path className={styles.line} d={pathOf(to, around, page)} />
      <path className={styles.weight} d={weightPath(is.x, is.y, k)} />
      {isMoved && (
        <>
          <path
            className={styles.arrow}
            d={`M${was.x} ${-5 * k}H${is.x}m${-4 * k} ${-3 * k}l${4 * k} ${3 * k}l${-4 * k} ${3 * k}`}
          />
          <text className={styles.words} x={is.x} y={-8 * k}>
            {clockText(to.startsAt, reader.clock)}
          </text>
        </>
      )}
      {isReshaped && (
        <text className={styles.words} x={is.x + 7 * k} y={is.y - 9 * k}>
          {`${sounding(to.depthM, reader)}/${numberText(to.bottomMin, 0, 'near')}`}
        </text>
      )}
    </g>
  );
}

/** Crossed out where it stands. */
function Dropped({
  dive,
  around,
  page,
}: {
  readonly dive: Dive;
  readonly around: Surroundings;
  readonly page: Page;
}) {
  const k = page.textScale;
  const { x, y } = weightAt(dive, around, page);
  return (
    <path
      className={styles.dropped}
      data-part="proposed drop"
      d={`M${x - 9 * k} ${y - 12 * k}l${18 * k} ${18 * k}m0 ${-18 * k}l${-18 * k} ${18 * k}`}
    />
  );
}
