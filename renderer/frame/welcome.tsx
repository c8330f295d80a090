import type { ReactNode } from 'react';
import { changeSettings, showOverlay } from '../actions/view';
import { Dialog } from '../parts/dialog';
import { SafetySentences } from './safety-sentences';

function accept(): void {
  changeSettings({ cautionsAccepted: true });
}

/** First start: the cautions, accepted once, and where to begin. */
export function Welcome(): ReactNode {
  return (
    <Dialog
      title="Before you plan"
      mustAnswer
      onClose={accept}
      foot={
        <>
          <button
            type="button"
            className="button"
            onClick={() => {
              accept();
              showOverlay({ kind: 'starting' });
            }}
          >
            I accept, begin my own trip
          </button>
          <button type="button" className="button first" onClick={accept}>
            I accept, show me the demo trip
          </button>
        </>
      }
    >
      <p>
        Carryover tracks the nitrogen and oxygen a diver carries from the first dive of a trip to the flight
        home. It helps you plan; it does not make a dive safe.
      </p>
      <SafetySentences />
    </Dialog>
  );
}
