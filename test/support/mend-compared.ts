import { checkTrip } from '../../core/document/check-trip';
import type { Caution } from '../../core/cautions/caution';
import type { Id } from '../../core/document/types';
import { ledger } from '../../core/ledger/ledger';
import type { Ledger } from '../../core/ledger/ledger-types';
import { mendedTrip } from '../../core/proposal/mend/carried-out';
import { cheapestPlan } from '../../core/proposal/mend/cheapest-plan';
import { KEPT } from '../../core/proposal/mend/moves';
import { questionOf } from '../../core/proposal/mend/question';
import { aheadIdsOf, cautionsToMend, isByOtherView } from '../../core/proposal/mend/to-mend';
import { mendCase, type Theme } from './mend-case';
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

/** What is asked of a seed; of the flight, only where the table or the model holds it. */
export type About =
  | 'all dives'
  | 'one dive'
  | 'one dive before required stops'
  | 'the flight by another view'
  | 'all dives of a mixed party'
  | 'one dive of a mixed party';

/** What the trips are tight in; left out: anything but loops. */
const THEMES: Partial<Record<About, Theme>> = {
  'the flight by another view': 'other view',
  'all dives of a mixed party': 'loops',
  'one dive of a mixed party': 'loops',
};

/** The dives to mend that a request may name. */
function diveIdsOf(whole: Ledger, toMend: readonly Caution[], about: About): readonly Id[] {
  const diveIds = toMend.flatMap(({ diveId }) => diveId ?? []);
  if (about !== 'one dive before required stops') return diveIds;
  const { dives } = whole.trip;
  const lastPast = dives.findLastIndex(({ id }) =>
    whole.divers.some(({ entries }) =>
      entries.some(({ dive, isPastLimit }) => isPastLimit && dive.id === id),
    ),
  );
  return diveIds.filter((id) => dives.findIndex((dive) => dive.id === id) < lastPast);
}

/** Seeds whose trip has nothing of it to mend, or more plans than `most`, are passed over. */
export function compared(seed: number, most: number, about: About): Compared {
  const isFlight = about === 'the flight by another view';
  const { trip, request: ofAll, theme } = mendCase(seed, THEMES[about] ?? null);
  if (checkTrip(trip).length > 0) return { kind: 'passed over' };
  const whole = ledger(trip);
  const toMend = cautionsToMend(whole, aheadIdsOf(trip, ofAll.doneCount));
  if (toMend.length === 0 || (isFlight && !toMend.some(isByOtherView))) return { kind: 'passed over' };
  const isOfAll = about.startsWith('all dives') || isFlight;
  const diveIds = isOfAll ? [] : diveIdsOf(whole, toMend, about);
  if (!isOfAll && diveIds.length === 0) return { kind: 'passed over' };
  const request = { ...ofAll, onlyDiveId: isOfAll ? null : diveIds[seed % diveIds.length]! };
  const byHand = mendedByHand(trip, request, most);
  if (byHand === null) return { kind: 'passed over' };
  const found = cheapestPlan(questionOf(whole, request));
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
