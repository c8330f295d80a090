import type { ReactNode } from 'react';
import { leaveGone, saveAs, saveOver } from '../actions/files';
import { takeStored } from '../actions/stored-trips';
import { dropUnsaved, putUnsaved } from '../actions/unsaved';
import { closeOverlay } from '../actions/view';
import { Dialog } from '../parts/dialog';

/** Edits noted down before the trip was saved by someone else: offered, and put over nothing by themselves. */
export function UnsavedEdits({ token, text }: { readonly token: string; readonly text: string }): ReactNode {
  return (
    <Dialog
      title="Edits that were not saved"
      mustAnswer
      onClose={closeOverlay}
      foot={
        <>
          <button type="button" className="button" onClick={() => dropUnsaved(token)}>
            Let the edits go
          </button>
          <button type="button" className="button first" onClick={() => putUnsaved(text)}>
            Put the edits on screen
          </button>
        </>
      }
    >
      <p>
        When Carryover last ended, edits of this trip were not saved yet. The trip has been saved elsewhere
        since, so they were not put over it.
      </p>
      <p className="soft">Put on screen they take the place of what is stored; undo brings that back.</p>
    </Dialog>
  );
}

/** Another window or program wrote or removed the open trip; nobody's work is thrown away without a word. */
export function Changed({
  token,
  removed,
}: {
  readonly token: string;
  readonly removed: boolean;
}): ReactNode {
  return (
    <Dialog
      title={removed ? 'The stored trip is gone' : 'The stored trip has changed'}
      mustAnswer
      onClose={closeOverlay}
      foot={
        <>
          <button type="button" className="button" onClick={() => void saveAs()}>
            Save mine as a copy
          </button>
          {removed ? (
            <button type="button" className="button" onClick={leaveGone}>
              Leave it, begin a new trip
            </button>
          ) : (
            <button type="button" className="button" onClick={() => void takeStored(token)}>
              Take the stored one
            </button>
          )}
          <button type="button" className="button first" onClick={() => void saveOver(removed)}>
            Keep what is on screen
          </button>
        </>
      }
    >
      <p>
        {removed
          ? 'Another window or program removed this trip. What is on screen is still here.'
          : 'Another window or program saved this trip since it was opened here. Nothing has been written over it.'}
      </p>
    </Dialog>
  );
}
