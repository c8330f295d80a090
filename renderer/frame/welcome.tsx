import type { ReactNode } from 'react';
import { SAFETY_SENTENCES } from '../../core/words/safety-line';
import { changeSettings, showOverlay } from '../actions/view';
import { useWords } from '../parts/use-words';
import { Dialog } from '../parts/dialog';
import { useDesk } from '../store/store';

function accept(): void {
  changeSettings({ cautionsAccepted: true });
}

/** First start: the cautions, accepted once, and where to begin. */
export function Welcome(): ReactNode {
  const show = useDesk((state) => state.ready && !state.settings.cautionsAccepted);
  const words = useWords();
  if (!show) return null;
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
        Carryover follows the nitrogen and the oxygen a diver carries from the first dive of a trip to the
        flight home. It helps to plan; it does not make a dive safe.
      </p>
      <ul className="cautions-text">
        {SAFETY_SENTENCES.map(words).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </Dialog>
  );
}
