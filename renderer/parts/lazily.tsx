import { useEffect, useState, type ComponentType, type ReactNode } from 'react';
import type { Trouble } from '../../core/result';
import { loadPart } from '../actions/load-part';

/** What stands in the place of a part that is not there yet, or does not come. */
export interface StandIn {
  readonly waiting: ReactNode;
  readonly failed: (trouble: Trouble, again: () => void) => ReactNode;
}

/** Of what the window can do without: nothing stands there until it comes, nor where it does not. */
export const WITHOUT: StandIn = { waiting: null, failed: () => null };

/**
 * A part of the window that is loaded when it is first shown. React's own `lazy` keeps a failed load for good
 * and leaves the window to its fault page; this one says so in its own place, and can be asked again.
 * @param load as of `loadPart` @param pick what of the module is shown
 */
export function lazily<M, P extends object>(
  load: () => Promise<M>,
  pick: (part: M) => ComponentType<P>,
  { waiting, failed }: StandIn,
): ComponentType<P> {
  let loaded: ComponentType<P> | null = null;
  return function Lazily(props: P): ReactNode {
    const [, setArrived] = useState(loaded !== null);
    const [trouble, setTrouble] = useState<Trouble | null>(null);
    const isWanted = loaded === null && trouble === null;
    useEffect(() => {
      if (!isWanted) return;
      let isGone = false;
      void loadPart(load).then((result) => {
        if (result.ok) loaded = pick(result.value);
        if (isGone) return;
        if (result.ok) setArrived(true);
        else setTrouble(result.troubles[0]);
      });
      return () => {
        isGone = true;
      };
    }, [isWanted]);
    if (loaded !== null) {
      const View = loaded;
      return <View {...props} />;
    }
    return trouble === null ? waiting : failed(trouble, () => setTrouble(null));
  };
}
