/** What is drawn once the frame of the rest is on the screen, all of it in one go, and before anything the hand does. */
import { flushSync } from 'react-dom';

const waiting = new Set<() => void>();

/** A frame's callbacks run before its paint; a message posted from there arrives after it. */
let port: MessagePort | undefined;

function askAfterPaint(): void {
  if (port === undefined) {
    const { port1, port2 } = new MessageChannel();
    port1.addEventListener('message', drawWaiting);
    port1.start();
    port = port2;
  }
  port.postMessage(null);
}

/** A key or a click may be meant for what is about to be drawn, and never for what stood in its place. */
const BY_HAND = ['keydown', 'beforeinput', 'pointerdown', 'click'] as const;

function drawWaiting(): void {
  for (const kind of BY_HAND) window.removeEventListener(kind, drawAtOnce, { capture: true });
  const due = [...waiting];
  waiting.clear();
  for (const draw of due) draw();
}

function drawAtOnce(event: Event): void {
  // A key that is held means what it meant when it was pressed; on a slow machine what waits would hold it up.
  if (event instanceof KeyboardEvent && event.repeat) return;
  flushSync(drawWaiting);
}

/** Draws once the next frame is on the screen, or at once where nobody sees frames; asked again before, still once. */
export function afterFrame(draw: () => void): void {
  if (document.hidden) {
    draw();
    return;
  }
  const isAsked = waiting.size > 0;
  waiting.add(draw);
  if (isAsked) return;
  for (const kind of BY_HAND) window.addEventListener(kind, drawAtOnce, { capture: true });
  requestAnimationFrame(askAfterPaint);
}
