/** Long work on the bar of the system. Several at a time show the one that is furthest behind. */
import { machine } from '../store/machine';

/** Shorter work is over before anybody looks. */
export const SHOWN_AFTER_MS = 700;

interface LongWork {
  share: number;
}

const under = new Set<LongWork>();

function report(): void {
  machine().reportWork(under.size === 0 ? null : Math.min(...[...under].map(({ share }) => share)));
}

export interface Told {
  readonly progress: (done: number, total: number) => void;
  readonly end: () => void;
}

/** Work that begins now; told to the host if it lasts. */
export function longWork(): Told {
  const work: LongWork = { share: 0 };
  const timer = setTimeout(() => {
    under.add(work);
    report();
  }, SHOWN_AFTER_MS);
  return {
    progress: (done, total) => {
      work.share = total > 0 ? Math.min(1, done / total) : 0;
      if (under.has(work)) report();
    },
    end: () => {
      clearTimeout(timer);
      if (under.delete(work)) report();
    },
  };
}
