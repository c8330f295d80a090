import { useEffect, useState } from 'react';

/**
 * The value as it was when the last frame was painted: what depends on it is drawn after what does not. A
 * deferred value would do where drawing can be interrupted; a chart's commit cannot, and would hold up the
 * frame that the hand is waiting for.
 */
export function useAfterPaint<T>(value: T): T {
  const [painted, setPainted] = useState(value);
  useEffect(() => {
    let task = 0;
    // Called before the paint of a frame; a task put off from there runs after it.
    const frame = requestAnimationFrame(() => {
      task = window.setTimeout(() => setPainted(value));
    });
    return () => {
      cancelAnimationFrame(frame);
      window.clearTimeout(task);
    };
  }, [value]);
  return painted;
}
