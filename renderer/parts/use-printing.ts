import { useLayoutEffect, useState } from 'react';
import { flushSync } from 'react-dom';

/** Whether the window is being printed: paper is laid out at once, so what differs on it is drawn before. */
export function usePrinting(): boolean {
  const [isPrinting, setIsPrinting] = useState(false);
  // Listening as soon as it shows: after the paint the first print could come before.
  useLayoutEffect(() => {
    const onBefore = (): void => flushSync(() => setIsPrinting(true));
    const onAfter = (): void => setIsPrinting(false);
    window.addEventListener('beforeprint', onBefore);
    window.addEventListener('afterprint', onAfter);
    return () => {
      window.removeEventListener('beforeprint', onBefore);
      window.removeEventListener('afterprint', onAfter);
    };
  }, []);
  return isPrinting;
}
