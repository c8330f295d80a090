/** Mending beside every plan by hand, on random trips. */
import type { Attack, Outcome } from './attack';
import { compared } from '../support/mend-compared';

const MOST_PLANS = 20_000;
const MOST_PLANS_ON_LOOPS = 2000;

/** Seeds apart from those of the property test. */
const FIRST_SEED = 2_000_000_000;

function run(times: number): Outcome {
  const fell: string[] = [];
  let tried = 0;
  let none = 0;
  let plans = 0;
  for (let seed = FIRST_SEED; tried < times; seed += 1) {
    // Every third seed is asked about one dive alone, every fourth has loops.
    const of = seed % 3 === 0 ? 'one dive' : 'all dives';
    const each =
      seed % 4 === 0
        ? compared(seed, MOST_PLANS_ON_LOOPS, `${of} of a mixed party`)
        : compared(seed, MOST_PLANS, of);
    if (each.kind !== 'compared') continue;
    tried += 1;
    plans += each.tried;
    if (!each.hasPlan) none += 1;
    if (each.differs !== '') fell.push(each.differs);
  }
  return { tried, told: [`${plans} plans by hand; for ${none} trips there is none`], fell };
}

export const mendingAttack: Attack = {
  title: 'mending beside every plan',
  whole: 1000,
  quick: 2,
  run,
};
