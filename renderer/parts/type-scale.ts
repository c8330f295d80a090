/** How large text is: as the settings have it, and a step larger where the window has room for it. */
import { useSyncExternalStore } from 'react';
import { useDesk } from '../store/store';

/** From here on whoever sits before the window sits further away, or has the better screen. */
const ROOMY = '(min-width: 1600px) and (min-height: 900px)';
const ROOMY_STEP = 1.125;

let query: MediaQueryList | undefined;

/** One query, as it is asked at every drawing. */
const roomy = (): MediaQueryList => (query ??= window.matchMedia(ROOMY));

/** 1, or 1.125 in a large window. */
export function typeStep(): number {
  return roomy().matches ? ROOMY_STEP : 1;
}

/** Tells when the step changes; returns how to be told no more. */
export function onTypeStep(told: () => void): () => void {
  roomy().addEventListener('change', told);
  return () => roomy().removeEventListener('change', told);
}

/** How many times as large text is as at 100 % in a small window. */
export function useTypeScale(): number {
  const step = useSyncExternalStore(onTypeStep, typeStep);
  return step * useDesk((state) => state.settings.textScale);
}
