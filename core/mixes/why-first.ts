import { MEASURES, meritsOf, type Measure, type Outcome } from './undominated';

/** A measure that told the first list from others, and the best of those it left behind. */
export interface DecidingStep<List extends Outcome> {
  readonly measure: Measure;
  readonly next: List;
}

/**
 * Why the first of some lists is first: each measure in turn leaves behind what reads worse in it.
 * @param lists best first, as they are told
 * @returns a step for each measure that left one behind, in order; none where all read alike
 * Source: this project's, "best first" of `compareMerits`.
 */
export function whyFirst<List extends Outcome>(lists: readonly List[]): readonly DecidingStep<List>[] {
  const [first] = lists;
  if (first === undefined) return [];
  const best = meritsOf(first);
  const steps: DecidingStep<List>[] = [];
  let left = lists.map((list) => ({ list, merits: meritsOf(list) }));
  MEASURES.forEach((measure, i) => {
    const alike = left.filter(({ merits }) => merits[i] === best[i]);
    const behind = left.find(({ merits }) => merits[i] !== best[i]);
    if (behind) steps.push({ measure, next: behind.list });
    left = alike;
  });
  return steps;
}
