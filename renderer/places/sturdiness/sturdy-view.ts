/** What is drawn of a plan and what came of it; how often and by what seed is kept while the window is open. */
import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { Trip } from '../../../core/document/types';
import type { FirstOrder } from '../../../core/sturdiness/first-order';
import { SCATTERS } from '../../../core/sturdiness/scatter';
import {
  LIVE_RUNS,
  mostRuns,
  sturdinessOf,
  USUAL_RUNS,
  USUAL_SEED,
  type Draw,
  type RunsPart,
  type Sturdiness,
} from '../../../core/sturdiness/sturdiness';
import { workBeside, type Outcome } from '../../parts/work';
import type { SturdyAnswer, SturdyJob } from './sturdy-job';
import workerUrl from './sturdy-worker?worker&url';

export type SturdyNow =
  | { readonly kind: 'idle' }
  | { readonly kind: 'drawing'; readonly done: number; readonly total: number }
  | { readonly kind: 'cancelled' }
  | { readonly kind: 'fault'; readonly message: string };

interface SturdyView {
  readonly runs: number;
  readonly seed: number;
  readonly now: SturdyNow;
  /** Holds for `trip` alone; of few runs while the others are made. */
  readonly found: { readonly sturdiness: Sturdiness; readonly trip: Trip } | null;
}

const view = createStore<SturdyView>()(() => ({
  runs: USUAL_RUNS,
  seed: USUAL_SEED,
  now: { kind: 'idle' },
  found: null,
}));

/** Two, as a machine has two cores at least: each makes a half. */
const workers = [0, 1].map(() => workBeside<SturdyJob, SturdyAnswer>(workerUrl));

export function useSturdyView<T>(selector: (state: SturdyView) => T): T {
  return useStore(view, selector);
}

export function chooseDraw(patch: Partial<Pick<SturdyView, 'runs' | 'seed'>>): void {
  view.setState(patch);
}

function show(now: SturdyNow): void {
  view.setState({ now });
}

/** Tells what each worker is at as one sum. @param total runs of all of them */
function together(total: number): (worker: number) => (done: number) => void {
  const done = workers.map(() => 0);
  show({ kind: 'drawing', done: 0, total });
  return (worker) => (count) => {
    done[worker] = count;
    show({ kind: 'drawing', done: done.reduce((sum, each) => sum + each), total });
  };
}

/** The answers of all, or null where one was stopped or has a fault, which is shown. */
async function answersOf(
  asked: readonly Promise<Outcome<SturdyAnswer>>[],
): Promise<readonly SturdyAnswer[] | null> {
  const answers: SturdyAnswer[] = [];
  for (const outcome of await Promise.all(asked)) {
    if (outcome.kind === 'fault') show(outcome);
    if (outcome.kind !== 'answer') return null;
    answers.push(outcome.answer);
  }
  return answers;
}

async function partsOf(trip: Trip, draw: Draw): Promise<readonly RunsPart[] | null> {
  const tell = together(draw.runs);
  const half = Math.ceil(draw.runs / 2);
  const answers = await answersOf(
    workers.map((work, w) => {
      const [from, to] = w === 0 ? [0, half] : [half, draw.runs];
      return work.ask({ kind: 'runs', trip, draw, from, to }, tell(w));
    }),
  );
  return answers && answers.flatMap((answer) => (answer.kind === 'runs' ? [answer.part] : []));
}

async function sharesOf(trip: Trip, draw: Draw): Promise<readonly (readonly FirstOrder[])[] | null> {
  const lots = [SCATTERS.slice(0, 2), SCATTERS.slice(2)];
  const tell = together((SCATTERS.length + lots.length) * Math.min(draw.runs, 2000));
  const answers = await answersOf(
    workers.map((work, w) => work.ask({ kind: 'shares', trip, draw, names: lots[w]! }, tell(w))),
  );
  if (answers === null) return null;
  const found = answers.flatMap((answer) => (answer.kind === 'shares' ? [answer.shares] : []));
  return found[0]!.map((own, c) => [...own, ...found[1]![c]!]);
}

/** Draws a plan: a few runs at once, then all of them, then what does most. What is under way is ended first. */
export async function startDrawing(trip: Trip, draws: Draw): Promise<void> {
  const all: Draw = { ...draws, runs: Math.min(draws.runs, mostRuns(trip)) };
  const few: Draw = { ...all, runs: Math.min(LIVE_RUNS, all.runs) };
  for (const draw of [few, all]) {
    const parts = await partsOf(trip, draw);
    if (parts === null) return;
    view.setState({ found: { trip, sturdiness: sturdinessOf(trip, draw, parts, null) } });
    if (draw !== all) continue;
    const shares = await sharesOf(trip, all);
    if (shares === null) return;
    view.setState({ found: { trip, sturdiness: sturdinessOf(trip, all, parts, shares) } });
  }
  show({ kind: 'idle' });
}

function stopAll(): void {
  for (const work of workers) work.stop();
}

/** Ends what is under way, as the user asked; what was found stays. */
export function cancelDrawing(): void {
  stopAll();
  show({ kind: 'cancelled' });
}

/** Ends what is under way as the sheet goes. */
export function leaveDrawing(): void {
  stopAll();
  show({ kind: 'idle' });
}
