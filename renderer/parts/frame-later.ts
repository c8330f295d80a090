/** What may be drawn a frame after the rest: the frame of a key is short, and the hand looks elsewhere. */
import { useEffect, useRef, useState } from 'react';

/** Runs once the next frame is on the screen; at once where nobody sees frames. */
function afterFrame(run: () => void): void {
  if (document.hidden) {
    run();
    return;
  }
  // A frame's callbacks run before its paint; a message posted from there arrives after it.
  requestAnimationFrame(() => {
    const { port1, port2 } = new MessageChannel();
    port1.addEventListener('message', run, { once: true });
    port1.start();
    port2.postMessage(null);
  });
}

/**
 * A value as it was until the frame that shows the rest of it is drawn, then as it is. Changes that follow each other
 * faster than frames do not put it off any further: the newest is taken when its time has come.
 * @param page what both have to be of for the new one to wait; null: it may not
 */
export function useFrameLater<T>(value: T, page: string | null): T {
  const now = { value, page };
  const [drawn, setDrawn] = useState(now);
  const newest = useRef(now);
  const isAsked = useRef(false);
  const isNew = drawn.value !== value;
  const waits = isNew && page !== null && drawn.page === page;
  if (isNew && !waits) setDrawn(now);
  useEffect(() => {
    newest.current = now;
    if (!waits || isAsked.current) return;
    isAsked.current = true;
    afterFrame(() => {
      isAsked.current = false;
      setDrawn(newest.current);
    });
  });
  return waits ? drawn.value : value;
}
