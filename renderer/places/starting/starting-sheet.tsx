import { useEffect, type ReactNode } from 'react';
import { beginTrip, newTrip } from '../../actions/files';
import { closeOverlay, goTo } from '../../actions/view';
import { Dialog } from '../../parts/dialog';
import { desk, useDesk } from '../../store/store';
import { LaidOutTrip } from './laid-out-trip';
import { StartingFields } from './starting-fields';
import { layOutLabel, listRead } from './starting-form';
import {
  clearForm,
  layOut,
  startingView,
  stopLayingOut,
  takeLaidOut,
  useStartingView,
} from './starting-view';
import './starting.css';

/** Puts what the form comes to on the desk as a new trip of the library. */
async function take(): Promise<void> {
  const laidOut = await takeLaidOut();
  if (laidOut?.kind !== 'done' || !laidOut.result.ok) return;
  if (laidOut.result.value.trip.dives.length === 0) return;
  const { form } = startingView.getState();
  const { trip, explanations } = laidOut.result.value;
  const notes = form.keepsReasons ? `How it was laid out:\n${explanations.join('\n')}` : '';
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
  // While it is laid out anew it may be asked for already: what comes of the last answer is taken.
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
    layOut();
    return stopLayingOut;
  }, []);
  return (
    <Dialog
      title="Lay out a new trip"
      width="full"
      startsInFields
      onClose={closeOverlay}
      foot={
        <>
          <button type="button" className="button" onClick={() => void newTrip()}>
            Begin with an empty trip
          </button>
          <button type="button" className="button first" disabled={!canTake} onClick={() => void take()}>
            {layOutLabel(read)}
          </button>
        </>
      }
    >
      <div className="starting">
        <StartingFields open={open} read={read} />
        <LaidOutTrip read={read} />
      </div>
    </Dialog>
  );
}
