import { useEffect, type ReactNode } from 'react';
import { beginTrip, newTrip } from '../../actions/files';
import { closeOverlay, goTo } from '../../actions/view';
import { Dialog } from '../../parts/dialog';
import { desk, useDesk } from '../../store/store';
import { Draft } from './draft';
import { StartingFields } from './starting-fields';
import { takeLabel, listRead } from './starting-form';
import {
  beginForm,
  clearForm,
  layOut,
  startingView,
  stopLayingOut,
  takeLaidOut,
  useStartingView,
} from './starting-view';
import styles from './starting.module.css';

/** Puts what the form comes to on the desk as a new trip of the library. */
async function take(): Promise<void> {
  const laidOut = await takeLaidOut();
  if (laidOut?.kind !== 'done' || !laidOut.result.ok) return;
  if (laidOut.result.value.trip.dives.length === 0) return;
  const { form } = startingView.getState();
  const { trip, explanations } = laidOut.result.value;
  const notes = form.keepsReasons ? `How it was drafted:\n${explanations.join('\n')}` : '';
  if (!(await beginTrip({ ...trip, notes }))) {
    layOut();
    return;
  }
  clearForm();
  closeOverlay();
  goTo('days');
}

/** A week in two minutes: a few questions, and the trip they make, before it is made. */
export function StartingSheet(): ReactNode {
  // While it is drafted anew it may be asked for already: what comes of the last answer is taken.
  const canTake = useStartingView(
    ({ laidOut }) =>
      laidOut.kind === 'working' ||
      (laidOut.kind === 'done' && laidOut.result.ok && laidOut.result.value.trip.dives.length > 0),
  );
  const settings = useDesk((state) => state.settings);
  const form = useStartingView((view) => view.form);
  const open = desk.getState().trip;
  const read = listRead(form, open, settings);
  useEffect(() => {
    beginForm();
    return stopLayingOut;
  }, []);
  return (
    <Dialog
      title="Draft a new trip"
      width="full"
      startsInFields
      onClose={closeOverlay}
      foot={
        <>
          <button type="button" className="button" onClick={() => void newTrip()}>
            Start with an empty trip
          </button>
          <button type="button" className="button first" disabled={!canTake} onClick={() => void take()}>
            {takeLabel(read)}
          </button>
        </>
      }
    >
      <div className={styles.starting}>
        <StartingFields open={open} read={read} />
        <Draft read={read} />
      </div>
    </Dialog>
  );
}
