/** What may be drawn a frame after the rest: the frame of a key is short, and the hand looks elsewhere. */
import { useEffect, useLayoutEffect, useRef, useState, type ReactNode } from 'react';
import { createStore, type StoreApi } from 'zustand/vanilla';
import { desk, DeskRead, type Desk } from '../store/store';
import { afterFrame } from './after-frame';

/**
 * A value as it was until the frame that shows the rest of it is drawn, then as it is. Changes that follow each other
 * faster than frames do not put it off any further: the newest is taken when its time has come.
 * @param page what both have to be of for the new one to wait; null: it may not
 */
export function useFrameLater<T>(value: T, page: string | null): T {
  const now = { value, page };
  const [drawn, setDrawn] = useState(now);
  const newest = useRef(now);
  const [draw] = useState(() => (): void => setDrawn(newest.current));
  const isNew = drawn.value !== value;
  const waits = isNew && page !== null && drawn.page === page;
  if (isNew && !waits) setDrawn(now);
  useEffect(() => {
    newest.current = now;
    if (waits) afterFrame(draw);
  });
  return waits ? drawn.value : value;
}

/** Asked at each change of the desk: whether this one is to be drawn with the rest. */
type IsAtOnce = (now: Desk, before: Desk) => boolean;

const NEVER: IsAtOnce = () => false;

/** The desk as it was until the frame that shows the rest is drawn, then as it is. */
export function useDeskLater(isAtOnce = NEVER): StoreApi<Desk> {
  const [drawn] = useState(() => createStore<Desk>()(() => desk.getState()));
  const asks = useRef(isAtOnce);
  useLayoutEffect(() => {
    asks.current = isAtOnce;
  });
  useLayoutEffect(() => {
    const draw = (): void => drawn.setState(desk.getState(), true);
    draw();
    return desk.subscribe((now, before) => {
      if (asks.current(now, before)) draw();
      else afterFrame(draw);
    });
  }, [drawn]);
  return drawn;
}

interface FrameLaterProps {
  readonly isAtOnce?: IsAtOnce;
  readonly children: ReactNode;
}

/**
 * Parts that read the desk a frame later. They read all of it by themselves: what is handed to them from above would be
 * of another moment.
 */
export function FrameLater({ isAtOnce, children }: FrameLaterProps): ReactNode {
  return <DeskRead value={useDeskLater(isAtOnce)}>{children}</DeskRead>;
}
