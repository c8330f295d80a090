/**
 * A dive in the hand, a key held down: many edits that are one step of undo. A gesture belongs to whoever began it and
 * ends with its owner; nobody else's edit becomes part of it.
 */
import { bail, begin, end, type Step, type StepName } from '../store/history';
import { desk } from '../store/store';

export interface Gesture {
  /** Runs edits as part of the gesture; null, and nothing is run, once it is over, whoever ended it. */
  readonly edit: <T>(act: () => T) => T | null;
  /** Ends it: one step for all of it, none where it ended where it began. Nothing where it is over. */
  readonly end: () => void;
  /** Back to where it began, and no step. Nothing where it is over. */
  readonly cancel: () => void;
}

/** The mark of the gesture whose own edits run now. */
let running: Step | null = null;

/**
 * Begins a gesture; one under way is ended first. It is over when its owner ends it, and also when somebody else edits
 * the trip, another trip takes its place, or a sheet is laid over it: `onOver` is told in every case, once.
 */
export function startGesture(name: StepName, onOver: () => void = () => undefined): Gesture {
  const { trip, history } = desk.getState();
  const begun = begin(history, trip, name);
  const { mark } = begun.history;
  desk.setState(begun);
  const isUnderWay = (): boolean => desk.getState().history.mark === mark;
  const leave = desk.subscribe((now, before) => {
    if (now.history.mark !== mark) {
      leave();
      onOver();
    } else if (now.overlay !== null && before.overlay === null) endGesture();
  });
  return {
    edit: (act) => {
      if (!isUnderWay()) return null;
      const outer = running;
      running = mark;
      try {
        return act();
      } finally {
        running = outer;
      }
    },
    end: () => {
      if (isUnderWay()) endGesture();
    },
    cancel: () => {
      if (isUnderWay()) desk.setState((now) => bail(now.history, now.trip));
    },
  };
}

/** Several edits as one step under this name. */
export function asOneStep<T>(name: StepName, act: () => T): T {
  const gesture = startGesture(name);
  try {
    return gesture.edit(act)!;
  } finally {
    gesture.end();
  }
}

/** Ends the gesture under way, if an edit that is none of its own comes in between. */
export function endOthersGesture(): void {
  const { mark } = desk.getState().history;
  if (mark !== null && mark !== running) endGesture();
}

function endGesture(): void {
  desk.setState(({ history, trip }) => end(history, trip));
}
