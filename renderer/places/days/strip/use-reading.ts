import { useCallback, useMemo, useState } from 'react';

/** What is read by pointing at it, or by keys, and is slow to be made ready for that. */
export interface Reading<T> {
  /** What was last made ready. */
  readonly given: T;
  /** Whether it is that of now, and was asked for since: all else must not be read out. */
  readonly isRead: boolean;
  readonly ask: () => void;
  readonly leave: () => void;
}

/**
 * Makes a value ready only once somebody asks for it, and counts it as read from the next asking on: a pointer
 * that moves asks many times, and a chart keeps where it was pointed at before it was given other points.
 */
export function useReading<T>(value: T): Reading<T> {
  const [given, setGiven] = useState(value);
  const [readOf, setReadOf] = useState<T | null>(null);
  const ask = useCallback(() => {
    if (given === value) setReadOf(value);
    else setGiven(value);
  }, [given, value]);
  const leave = useCallback(() => setReadOf(null), []);
  const isRead = readOf === value;
  return useMemo(() => ({ given, isRead, ask, leave }), [given, isRead, ask, leave]);
}
