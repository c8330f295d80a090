import { useEffect, useRef, type ReactNode } from 'react';
import { announcement } from '../store/announcement';
import { desk, type Desk } from '../store/store';

/** Says one thing for a run of quick changes, with the figures as they end up. */
const QUIET_FOR_MS = 500;

/** A polite live region: what a change did to room and cautions, once the hand rests. */
export function Announcer(): ReactNode {
  const region = useRef<HTMLDivElement>(null);
  useEffect(() => {
    let from: Desk | null = null;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const stop = desk.subscribe((after, before) => {
      if (after.trip === before.trip) return;
      from ??= before;
      clearTimeout(timer);
      timer = setTimeout(() => {
        const text = from ? announcement(from, desk.getState()) : '';
        from = null;
        if (text && region.current) region.current.textContent = text;
      }, QUIET_FOR_MS);
    });
    return () => {
      clearTimeout(timer);
      stop();
    };
  }, []);
  return <div ref={region} className="unseen" role="status" aria-live="polite" />;
}
