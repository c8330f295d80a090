import type { Caution } from '../../cautions/caution';
import type { Id, Trip } from '../../document/types';
import { ledger } from '../../ledger/ledger';
import type { Ledger } from '../../ledger/ledger-types';
import { assert } from '../../result';
import type { WallMin } from '../../words/calendar';
import type { Said } from '../../words/said';
import { mendedTrip, type Plan } from './carried-out';
import { cheapestPlan, STEPS_A_DAY, type Cheapest } from './cheapest-plan';
import { diveFigures, flyAfterOf, type DiveFigures } from './figures';
import { FULL_REACH, KEPT, type MoveReach } from './moves';
import { comeBy, questionOf } from './question';
import type { MendRequest } from './request';
import { aheadIdsOf, cautionsToMend, keepsRoom } from './to-mend';
import { becauseSaid } from './why-not';

/** What a proposal keeps to. */
export type MendKind = 'best' | 'times' | 'depths' | 'party';

/** The moves that each kind forbids. */
const REACHES: Readonly<Record<MendKind, Partial<MoveReach>>> = {
  best: {},
  times: { later: 0 },
  depths: { shallower: 0 },
  party: { leaveOut: false, drop: false },
};

export const MEND_KINDS = Object.keys(REACHES) as readonly MendKind[];

/** A dive that is changed, or that something is to be mended about: before, and after; null where it is dropped. */
export interface DiveChange {
  readonly diveId: Id;
  readonly before: DiveFigures;
  readonly after: DiveFigures | null;
}

/** A plan worked out to the end. */
export interface Proposal {
  readonly kind: MendKind;
  readonly plan: Plan;
  /** In points. */
  readonly cost: number;
  /** Proved: no plan of the kind costs less. */
  readonly atLeast: number;
  readonly changes: readonly DiveChange[];
  /** Everybody may fly from here; null where nobody dives. */
  readonly flyAfter: { readonly before: WallMin | null; readonly after: WallMin | null };
  readonly trip: Trip;
}

/** A kind of which there is none. */
export interface NoProposal {
  readonly kind: MendKind;
  readonly because: Said;
}

export interface Mending {
  readonly request: MendRequest;
  /** What is to be mended; empty: nothing, and nothing is proposed. */
  readonly toMend: readonly Caution[];
  readonly proposals: readonly Proposal[];
  readonly none: readonly NoProposal[];
}

/** Told with steps done and steps there are at most. */
export type MendProgress = (done: number, total: number) => void;

/** Whether a plan keeps to a kind's moves. */
function isOfKind(plan: Plan, kind: MendKind): boolean {
  const reach = { ...FULL_REACH, ...REACHES[kind] };
  return plan.every(
    ({ later, shallower, leftOut, isDropped }) =>
      later <= reach.later &&
      shallower <= reach.shallower &&
      (reach.leaveOut || leftOut.length === 0) &&
      (reach.drop || !isDropped),
  );
}

/** The ledger has the last word: what the search found is judged by it before anybody sees it. */
function checked(whole: Ledger, request: MendRequest, plan: Plan, of: Ledger): void {
  const { doneCount, leastRoomMin, onlyDiveId } = request;
  const { trip: before } = of;
  const aheadIds = aheadIdsOf(before, doneCount);
  const left = cautionsToMend(whole, aheadIds);
  const wrong =
    onlyDiveId === null
      ? left
      : [
          ...left.filter(({ diveId }) => diveId === onlyDiveId),
          ...comeBy(cautionsToMend(of, aheadIds), left),
        ];
  assert(wrong.length === 0, 'a plan that leaves something to mend');
  const changed = new Set(before.dives.filter((_, at) => plan[at] !== KEPT).map(({ id }) => id));
  const isRoomy = whole.divers.every(({ entries }) =>
    entries.every(
      (entry) =>
        leastRoomMin === 0 || !changed.has(entry.dive.id) || keepsRoom(whole.trip, entry, leastRoomMin),
    ),
  );
  assert(isRoomy, 'a plan that leaves less room than was asked for');
}

/**
 * What can be done about the cautions ahead, or about those of one dive: the cheapest plan of all, and the cheapest of each kind.
 * @param trip that `checkTrip` has passed
 * @param request of whose reach each kind takes its own part
 * @returns each kind once, as a proposal or with why there is none
 * Source: DEVELOPERS, "What mending looks for".
 */
export function mendings(trip: Trip, request: MendRequest, progress: MendProgress = () => {}): Mending {
  const before = ledger(trip);
  const asked = questionOf(before, request);
  const { toMend } = asked;
  if (toMend.length === 0) return { request, toMend, proposals: [], none: [] };
  const days = new Set(
    asked.trip.dives.slice(asked.request.doneCount).map(({ startsAt }) => startsAt.slice(0, 10)),
  ).size;
  const total = MEND_KINDS.length * days * STEPS_A_DAY;
  let done = 0;
  const step = (): void => progress((done += 1), total);
  const proposals: Proposal[] = [];
  const none: NoProposal[] = [];
  let best: Cheapest | null = null;
  for (const [number, kind] of MEND_KINDS.entries()) {
    const question = {
      ...asked,
      request: { ...asked.request, reach: { ...request.reach, ...REACHES[kind] } },
    };
    // A plan that keeps to the kind already is the cheapest of fewer, too; and where there is none, none is among them.
    const isKnown: boolean =
      best !== null && (best.kind === 'none' || (best.cost === best.atLeast && isOfKind(best.plan, kind)));
    const found: Cheapest = isKnown ? best! : cheapestPlan(question, step);
    best ??= found;
    done = (number + 1) * days * STEPS_A_DAY - 1;
    step();
    if (found.kind === 'none')
      none.push({ kind, because: becauseSaid(question.trip, question.request, found.why) });
    else proposals.push(proposal(kind, before, toMend, request, found));
  }
  return { request, toMend, proposals, none };
}

function proposal(
  kind: MendKind,
  before: Ledger,
  toMend: readonly Caution[],
  request: MendRequest,
  { plan: searched, cost, atLeast }: Extract<Cheapest, { kind: 'plan' }>,
): Proposal {
  const { trip } = before;
  const plan = trip.dives.map((_, at) => searched[at] ?? KEPT);
  const mended = mendedTrip(trip, plan, request.steps);
  const after = ledger(mended, before);
  checked(after, request, plan, before);
  const cautioned = new Set(toMend.map(({ diveId }) => diveId));
  const changes = trip.dives
    .filter(({ id }, at) => plan[at] !== KEPT || cautioned.has(id))
    .map(({ id }) => ({ diveId: id, before: diveFigures(before, id)!, after: diveFigures(after, id) }));
  const flyAfter = { before: flyAfterOf(before), after: flyAfterOf(after) };
  return { kind, plan, cost, atLeast, changes, flyAfter, trip: mended };
}
