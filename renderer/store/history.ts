/** Undo and redo as pure functions over snapshots of the immutable trip; they know nothing of ledgers. */
import type { Trip } from '../../core/document/types';
import { isSame } from '../../core/same';

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

/**
 * Records a change, or merges it with the gesture under way. A change after which the trip says what it said before
 * leaves no step, and the trip stays the same object.
 */
export function record(history: History, before: Trip, after: Trip, name: StepName): Turn {
  if (isSame(before, after)) return { trip: before, history };
  if (history.mark) return { trip: after, history };
  const past = [...history.past, { ...name, trip: before }].slice(-STEPS_KEPT);
  return { trip: after, history: { past, future: [], mark: null } };
}

/** Sets the mark that Escape returns to. A gesture that was never ended is ended first. */
export function begin(history: History, trip: Trip, name: StepName): Turn {
  const settled = end(history, trip);
  return { trip: settled.trip, history: { ...settled.history, mark: { ...name, trip: settled.trip } } };
}

/** Ends the gesture: one step for all of it, none where it ended where it began. */
export function end(history: History, trip: Trip): Turn {
  const { mark } = history;
  if (!mark) return { trip, history };
  const { label, code } = mark;
  return record({ ...history, mark: null }, mark.trip, trip, { label, code });
}

/** Gives the gesture up: back to the mark, as if it had not been. */
export function bail(history: History, trip: Trip): Turn {
  const { mark } = history;
  return mark ? { trip: mark.trip, history: { ...history, mark: null } } : { trip, history };
}

/** Takes the last change back; refused while a gesture is under way, which is nobody's last change yet. */
export function undo(history: History, trip: Trip): Turn {
  const step = history.past.at(-1);
  if (!step || history.mark) return { trip, history };
  return {
    trip: step.trip,
    history: {
      past: history.past.slice(0, -1),
      future: [...history.future, { label: step.label, code: step.code, trip }],
      mark: null,
    },
  };
}

/** Makes the change again that was taken back last; refused while a gesture is under way, as undo is. */
export function redo(history: History, trip: Trip): Turn {
  const step = history.future.at(-1);
  if (!step || history.mark) return { trip, history };
  return {
    trip: step.trip,
    history: {
      past: [...history.past, { label: step.label, code: step.code, trip }],
      future: history.future.slice(0, -1),
      mark: null,
    },
  };
}
