import { isSame } from '../../core/same';

/** A list in which what says the same as it did is the object that it was: who draws one of these draws no other. */
export function kept<Each>(before: readonly Each[] | undefined, now: readonly Each[]): readonly Each[] {
  return now.map((each, at) => {
    const held = before?.[at];
    return held !== undefined && isSame(held, each) ? held : each;
  });
}
