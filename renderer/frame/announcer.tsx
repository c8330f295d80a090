import { useEffect, useRef, type ReactNode, type RefObject } from 'react';
import { loadPart } from '../actions/load-part';
import { EMPTY_HISTORY } from '../store/history';
import { desk, type Desk } from '../store/store';

/** Says one thing for a run of quick changes, with the figures as they end up. */
const QUIET_FOR_MS = 500;

async function announce(region: RefObject<HTMLElement | null>, since: Desk): Promise<void> {
  // What it takes to word it is loaded with the first change; one that it cannot be had for stays unsaid.
  const part = await loadPart(() => import('../store/announcement'));
  const text = part.ok ? part.value.announcement(since, desk.getState()) : '';
  if (text && region.current) region.current.textContent = text;
}

/** A polite live region: what a change did to room and cautions, once the hand rests. */
export function Announcer(): ReactNode {
  const region = useRef<HTMLDivElement>(null);
  useEffect(() => {
    let from: Desk | null = null;
    // A trip was put on the desk and nothing said of it yet: an edit so soon is told against that trip.
    let isJustPlaced = false;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const stop = desk.subscribe((after, before) => {
      if (after.trip === before.trip) return;
      if (from === null || isJustPlaced) from = before;
      isJustPlaced = after.history === EMPTY_HISTORY;
      clearTimeout(timer);
      timer = setTimeout(() => {
        const since = from;
        from = null;
        if (since !== null) void announce(region, since);
      }, QUIET_FOR_MS);
    });
    return () => {
      clearTimeout(timer);
      stop();
    };
  }, []);
  return <div ref={region} className="unseen" role="status" aria-live="polite" />;
}
