/** Undo and redo as pure functions over snapshots of the immutable trip; they know nothing of ledgers. */
import type { Trip } from '../../core/document/types';

/** What a person reads on the undo button, and a stable code that tests and merging rely on. */
export interface StepName {
  /** "Depth of dive 9" */
  readonly label: string;
  /** "dive.depth" */
  readonly code: string;
}

/** A change that can be taken back: its name and the trip on the other side of it. */
export interface Step extends StepName {
  readonly trip: Trip;
}

export interface History {
  /** Oldest first; each holds the trip as it was before the change. */
  readonly past: readonly Step[];
  /** Next redo last; each holds the trip as it was after the change. */
  readonly future: readonly Step[];
  /** The gesture under way: every change merges into it until it ends. */
  readonly mark: Step | null;
}

/** What a change leaves behind: the trip to show and the history to go with it. */
export interface Turn {
  readonly trip: Trip;
  readonly history: History;
}

/** Enough for an evening of planning; a snapshot shares all that did not change, so it weighs little. */
export const STEPS_KEPT = 500;

export const EMPTY_HISTORY: History = { past: [], future: [], mark: null };

/** Records a change, or merges it with the gesture under way; a change that changes nothing leaves no step. */
export function record(history: History, before: Trip, after: Trip, name: StepName): Turn {
  if (after === before) return { trip: before, history };
  if (history.mark) return { trip: after, history };
  const past = [...history.past, { ...name, trip: before }].slice(-STEPS_KEPT);
  return { trip: after, history: { past, future: [], mark: null } };
}

/** Sets the mark that Escape returns to. A gesture that was never ended is ended first. */
export function begin(history: History, trip: Trip, name: StepName): History {
  const settled = history.mark ? end(history, trip) : history;
  return { ...settled, mark: { ...name, trip } };
}

/** Ends the gesture: one step for all of it, none where it ended where it began. */
export function end(history: History, trip: Trip): History {
  const { mark } = history;
  if (!mark) return history;
  const settled = { ...history, mark: null };
  return record(settled, mark.trip, trip, { label: mark.label, code: mark.code }).history;
}

/** Gives the gesture up: back to the mark, as if it had not been. */
export function bail(history: History, trip: Trip): Turn {
  const { mark } = history;
  return mark ? { trip: mark.trip, history: { ...history, mark: null } } : { trip, history };
}

/** Takes the last change back; a gesture under way counts as the last change. */
export function undo(history: History, trip: Trip): Turn {
  const settled = end(history, trip);
  const step = settled.past.at(-1);
  if (!step) return { trip, history: settled };
  return {
    trip: step.trip,
    history: {
      past: settled.past.slice(0, -1),
      future: [...settled.future, { label: step.label, code: step.code, trip }],
      mark: null,
    },
  };
}

/** Makes the change again that was taken back last. */
export function redo(history: History, trip: Trip): Turn {
  const settled = end(history, trip);
  const step = settled.future.at(-1);
  if (!step) return { trip, history: settled };
  return {
    trip: step.trip,
    history: {
      past: [...settled.past, { label: step.label, code: step.code, trip }],
      future: settled.future.slice(0, -1),
      mark: null,
    },
  };
}
