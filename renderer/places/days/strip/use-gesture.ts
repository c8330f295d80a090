import { useEffect, useMemo, useRef } from 'react';
import { startGesture, type Gesture } from '../../../actions/gesture';
import type { StepName } from '../../../store/history';

export interface OwnGesture {
  /** The gesture of this component that is under way. */
  readonly current: () => Gesture | null;
  readonly begin: (name: StepName) => Gesture;
}

/**
 * A gesture that a component owns: it ends when the component goes away.
 * @param onOver told once it is over, whoever ended it
 */
export function useGesture(onOver: () => void): OwnGesture {
  const held = useRef<Gesture | null>(null);
  useEffect(() => () => held.current?.end(), []);
  return useMemo(
    () => ({
      current: () => held.current,
      begin: (name) => {
        held.current?.end();
        const gesture = startGesture(name, () => {
          held.current = null;
          onOver();
        });
        held.current = gesture;
        return gesture;
      },
    }),
    [onOver],
  );
}
