import { checkTrip } from '../../core/document/check-trip';
import { ledger } from '../../core/ledger/ledger';
import { mendedTrip } from '../../core/proposal/mend/carried-out';
import { cheapestPlan } from '../../core/proposal/mend/cheapest-plan';
import { KEPT } from '../../core/proposal/mend/moves';
import { questionOf } from '../../core/proposal/mend/question';
import { aheadIdsOf, cautionsToMend } from '../../core/proposal/mend/to-mend';
import { mendCase } from './mend-case';
import { mendedByHand } from './mend-by-hand';

/** What came of one seed beside every plan by hand. */
export type Compared =
  | { readonly kind: 'passed over' }
  | {
      readonly kind: 'compared';
      readonly theme: string;
      readonly hasPlan: boolean;
      readonly tried: number;
      /** What differs; empty where nothing does. */
      readonly differs: string;
    };

/** Seeds whose trip has nothing to mend, or more plans than `most`, are passed over. */
export function compared(seed: number, most: number, about: 'all' | 'one dive'): Compared {
  const { trip, request: ofAll, theme } = mendCase(seed);
  if (checkTrip(trip).length > 0) return { kind: 'passed over' };
  const toMend = cautionsToMend(ledger(trip), aheadIdsOf(trip, ofAll.doneCount));
  const diveIds = toMend.flatMap(({ diveId }) => diveId ?? []);
  if ((about === 'all' ? toMend : diveIds).length === 0) return { kind: 'passed over' };
  const request = { ...ofAll, onlyDiveId: about === 'all' ? null : diveIds[seed % diveIds.length]! };
  const byHand = mendedByHand(trip, request, most);
  if (byHand === null) return { kind: 'passed over' };
  const found = cheapestPlan(questionOf(ledger(trip), request));
  // What lies behind the one dive stays as it is.
  const plan =
    found.kind === 'plan' ? trip.dives.map((_, at) => found.plan[at] ?? KEPT).slice(request.doneCount) : null;
  const told = { theme, hasPlan: byHand.plan !== null, tried: byHand.tried };
  const answer = (differs: string): Compared => ({ kind: 'compared', ...told, differs });
  if (JSON.stringify(plan) !== JSON.stringify(byHand.plan)) {
    return answer(`seed ${seed}: found ${JSON.stringify(found)}, by hand ${JSON.stringify(byHand)}`);
  }
  if (found.kind !== 'plan') return answer('');
  if (found.cost !== byHand.cost || found.atLeast !== byHand.cost) {
    return answer(`seed ${seed}: cost ${found.cost}, at least ${found.atLeast}, by hand ${byHand.cost}`);
  }
  const [trouble] = checkTrip(mendedTrip(trip, found.plan, request.steps));
  return answer(trouble === undefined ? '' : `seed ${seed}: the mended trip is refused: ${trouble.what}`);
}
