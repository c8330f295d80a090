/** What was asked of mending and what came of it; the room asked for is kept while the window is open. */
import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { Settings } from '../../../core/host';
import type { Id, Trip } from '../../../core/document/types';
import type { MendKind, Mending } from '../../../core/proposal/mend/proposals';
import { FEET_STEPS, METRIC_STEPS, USUAL_COSTS } from '../../../core/proposal/mend/moves';
import { doneCountOf, USUAL_REQUEST, type MendRequest } from '../../../core/proposal/mend/request';
import type { WallMin } from '../../../core/words/calendar';
import { workBeside } from '../../parts/work';
import type { DraftedAhead } from '../../../core/proposal/drafted-ahead';
import draftUrl from './draft-worker?worker&url';
import type { DraftAsk, MendAsk, MendFound } from './mend-job';
import workerUrl from './mend-worker?worker&url';

export type MendNow =
  | { readonly kind: 'idle' }
  | { readonly kind: 'searching'; readonly done: number; readonly total: number }
  | { readonly kind: 'cancelled' }
  | { readonly kind: 'drafting' }
  | { readonly kind: 'fault'; readonly message: string }
  /** Holds for `trip` alone. */
  | { readonly kind: 'found'; readonly mending: Mending; readonly trip: Trip };

interface MendView {
  readonly leastRoomMin: number;
  readonly chosen: MendKind;
  readonly now: MendNow;
}

const view = createStore<MendView>()(() => ({ leastRoomMin: 0, chosen: 'best', now: { kind: 'idle' } }));

const work = workBeside<MendAsk, MendFound>(workerUrl);

export function useMendView<T>(selector: (state: MendView) => T): T {
  return useStore(view, selector);
}

export function chooseMend(patch: Partial<Pick<MendView, 'leastRoomMin' | 'chosen'>>): void {
  view.setState(patch);
}

/** What is asked for a trip, by the settings and up to when it is done. */
export function requestOf(
  trip: Trip,
  { units, mendCosts }: Pick<Settings, 'units' | 'mendCosts'>,
  doneUntilMin: WallMin | null,
  leastRoomMin: number,
  onlyDiveId: Id | null,
): MendRequest {
  return {
    ...USUAL_REQUEST,
    doneCount: doneCountOf(trip, doneUntilMin),
    costs: mendCosts ?? USUAL_COSTS,
    steps: units === 'imperial' ? FEET_STEPS : METRIC_STEPS,
    leastRoomMin,
    onlyDiveId,
  };
}

function show(now: MendNow): void {
  view.setState({ now });
}

/** Starts a search; one under way is ended first. */
export async function startMending(trip: Trip, request: MendRequest): Promise<void> {
  const asked = work.ask({ trip, request }, (done, total) => show({ kind: 'searching', done, total }));
  show({ kind: 'searching', done: 0, total: 0 });
  const outcome = await asked;
  if (outcome.kind === 'fault') show(outcome);
  else if (outcome.kind === 'answer') show({ kind: 'found', mending: outcome.answer, trip });
}

/** Ends the search under way, as the user asked; the trip was never touched. */
export function cancelMending(): void {
  work.stop();
  drafting.stop();
  show({ kind: 'cancelled' });
}

const drafting = workBeside<DraftAsk, DraftedAhead>(draftUrl);

/** Drafts the days ahead again; null where it was stopped. */
export async function draftAhead(
  trip: Trip,
  { doneCount }: MendRequest,
  units: Settings['units'],
): Promise<DraftedAhead | null> {
  work.stop();
  show({ kind: 'drafting' });
  const outcome = await drafting.ask({ trip, doneCount, depthUnit: units === 'imperial' ? 'ft' : 'm' });
  if (outcome.kind === 'fault') show(outcome);
  return outcome.kind === 'answer' ? outcome.answer : null;
}

/** Ends what is under way as the panel goes. */
export function leaveMending(): void {
  work.stop();
  drafting.stop();
  show({ kind: 'idle' });
}
