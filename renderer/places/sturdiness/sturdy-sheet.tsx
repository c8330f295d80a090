import { useEffect, useMemo, type ReactNode } from 'react';
import { failure } from '../../../core/result';
import type { Scatter, Trip } from '../../../core/document/types';
import { scatterOf } from '../../../core/sturdiness/scatter';
import { mostRuns, RUNS_RANGE, SEED_RANGE } from '../../../core/sturdiness/sturdiness';
import { COLUMNS_MEAN, headSaid, SPEAKS_OF } from '../../../core/sturdiness/sturdiness-said';
import { said } from '../../../core/words/said';
import type { EditResult } from '../../actions/edit';
import { showSturdyBand } from '../../actions/sturdiness';
import { setRates } from '../../actions/trip';
import { closeOverlay } from '../../actions/view';
import { Dialog } from '../../parts/dialog';
import { Folded } from '../../parts/folded';
import { MinutesField, PlainNumberField, ShareField, UnitField } from '../../parts/number-field';
import { useWords } from '../../parts/use-words';
import { selectDoneUntil } from '../../store/clock';
import { useDesk } from '../../store/store';
import { SturdyTable, placeSaid } from './sturdy-table';
import {
  cancelDrawing,
  chooseDraw,
  leaveDrawing,
  startDrawing,
  useSturdyView,
  type SturdyNow,
} from './sturdy-view';
import styles from './sturdy.module.css';

/** How far the runs are. */
function State({ now, again }: { readonly now: SturdyNow; readonly again: () => void }): ReactNode {
  switch (now.kind) {
    case 'drawing':
      return (
        <p className={styles.progress} role="status">
          Drawing the dives ahead <progress aria-label="Runs made" value={now.done} max={now.total} />{' '}
          <button type="button" className="linked" onClick={cancelDrawing}>
            Cancel
          </button>
        </p>
      );
    case 'cancelled':
      return (
        <p className={styles.progress} role="status">
          Cancelled; what stands below is of the runs made before.{' '}
          <button type="button" className="linked" onClick={again}>
            Draw again
          </button>
        </p>
      );
    case 'fault':
      return (
        <p className={styles.progress} role="alert">
          <strong>The runs stopped: {now.message}</strong> The trip is not touched.{' '}
          <button type="button" className="linked" onClick={again}>
            Try again
          </button>
        </p>
      );
    case 'idle':
      return <p className={styles.progress} />;
  }
}

function keepWhole(
  name: 'runs' | 'seed',
  value: number,
  { min, max }: { readonly min: number; readonly max: number },
): EditResult | void {
  if (Number.isInteger(value) && value >= min && value <= max) chooseDraw({ [name]: value });
  else
    return failure({
      kind: 'invalid',
      what: `It is no whole number from ${min} to ${max}.`,
      where: name,
      mend: 'Type one that is.',
    });
}

/** By how much dives scatter, which is the trip's, and what is drawn by. */
function Amounts({ trip }: { readonly trip: Trip }): ReactNode {
  const { depthM, bottomMin, startMin, rateShare, o2 } = scatterOf(trip);
  const runs = useSturdyView((view) => view.runs);
  const seed = useSturdyView((view) => view.seed);
  const put = (patch: Partial<Scatter>): EditResult =>
    setRates({ scatter: { ...trip.settings.scatter, ...patch } });
  return (
    <Folded summary="By how much dives scatter: standard deviations">
      {() => (
        <>
          <div className={styles.amounts}>
            <UnitField
              label="Depth"
              kind="depth"
              value={depthM}
              step={0.5}
              commit={(value) => put({ depthM: value })}
            />
            <MinutesField
              label="Bottom time"
              value={bottomMin}
              commit={(value) => put({ bottomMin: value })}
            />
            <MinutesField label="Start" value={startMin} commit={(value) => put({ startMin: value })} />
            <ShareField label="Gas rate" value={rateShare} commit={(value) => put({ rateShare: value })} />
            <ShareField label="Oxygen in a cylinder" value={o2} commit={(value) => put({ o2: value })} />
            <PlainNumberField
              label="Runs"
              value={runs}
              decimals={0}
              step={1000}
              commit={(value) => keepWhole('runs', value, { min: RUNS_RANGE.min, max: mostRuns(trip) })}
            />
            <PlainNumberField
              label="Seed"
              value={seed}
              decimals={0}
              commit={(value) => keepWhole('seed', value, SEED_RANGE)}
            />
          </div>
          <p className={styles.soft}>
            The usual amounts are this project’s choice, as no measured spread was found; they are kept with
            the trip.{' '}
            {trip.settings.scatter === undefined || Object.keys(trip.settings.scatter).length === 0 ? null : (
              <button type="button" className="linked" onClick={() => void setRates({ scatter: {} })}>
                Usual amounts
              </button>
            )}
          </p>
        </>
      )}
    </Folded>
  );
}

/** How sturdy the plan is: drawn thousands of times, and how often which limit is passed. */
export function SturdySheet(): ReactNode {
  const words = useWords();
  const trip = useDesk((state) => state.trip);
  const doneUntilMin = useDesk(selectDoneUntil);
  const hasBand = useDesk((state) => state.hasSturdyBand);
  const runs = useSturdyView((view) => view.runs);
  const seed = useSturdyView((view) => view.seed);
  const now = useSturdyView((view) => view.now);
  const found = useSturdyView((view) => view.found);
  const draw = useMemo(() => ({ runs, seed, nowMin: doneUntilMin }), [runs, seed, doneUntilMin]);
  useEffect(() => {
    void startDrawing(trip, draw);
  }, [trip, draw]);
  useEffect(() => leaveDrawing, []);
  const sturdiness = found?.trip === trip ? found.sturdiness : null;
  return (
    <Dialog title="How sturdy is this plan?" width="side" onClose={closeOverlay}>
      <div className={styles.sturdy}>
        <section aria-label="What the runs come to">
          {sturdiness === null ? null : (
            <p>
              <strong>
                {words(
                  headSaid(
                    sturdiness,
                    sturdiness.easeFirst === null ? null : placeSaid(trip, sturdiness.easeFirst),
                  ),
                )}
              </strong>{' '}
              {words(said`${sturdiness.runs} runs.`)}
            </p>
          )}
          <p>{words(SPEAKS_OF)}</p>
          <State now={now} again={() => void startDrawing(trip, draw)} />
          <label className={styles.band}>
            <input
              type="checkbox"
              checked={hasBand}
              onChange={(event) => showSturdyBand(event.target.checked)}
            />
            Draw on the strip where 90 of 100 runs lie
          </label>
        </section>
        <Amounts trip={trip} />
        {sturdiness === null ? null : (
          <section aria-label="Dive by dive">
            <p className={styles.soft}>{words(COLUMNS_MEAN)}</p>
            <SturdyTable trip={trip} sturdiness={sturdiness} />
          </section>
        )}
      </div>
    </Dialog>
  );
}
