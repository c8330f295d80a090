import { useEffect, useState } from 'react';

/** Between the repeats of a held key, and the steps of a drag, less time passes. */
const REST_MS = 120;

/**
 * A value for what is slow to take it, and of use only while somebody asks: as it was when that last began, and
 * then whenever it has stayed the same for a moment.
 * @returns whether it is the value of now: what is behind must not be read
 */
export function useWhenAsked<T>(
  value: T,
  isAsked: boolean,
): { readonly given: T; readonly isCurrent: boolean } {
  const [given, setGiven] = useState(value);
  // At once where it was not asked for before: a pointer that arrives waits for nothing.
  const [wasAsked, setWasAsked] = useState(isAsked);
  if (wasAsked !== isAsked) {
    setWasAsked(isAsked);
    if (isAsked) setGiven(value);
  }
  useEffect(() => {
    if (!isAsked || given === value) return undefined;
    const timer = window.setTimeout(() => setGiven(value), REST_MS);
    return () => window.clearTimeout(timer);
  }, [value, given, isAsked]);
  return { given, isCurrent: given === value };
}
