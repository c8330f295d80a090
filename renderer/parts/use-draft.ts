import { useState, type KeyboardEvent } from 'react';
import type { EditResult } from '../actions/edit';

/** Why something typed is not taken, and how to mend it. */
export interface Refusal {
  readonly what: string;
  readonly mend: string;
}

/** What is being typed into a field, apart from what is kept. */
export interface Draft<T> {
  /** null: not being typed in, what is kept shows. */
  readonly typed: string | null;
  readonly refusal: Refusal | null;
  readonly type: (text: string) => void;
  readonly refuse: (refusal: Refusal) => void;
  /** Hands a value on: taken, the draft is gone; refused, it stays with the reason. Returns whether it was taken. */
  readonly put: (value: T) => boolean;
  /** Back to what is kept. */
  readonly drop: () => void;
  /** Escape drops the draft where there is one; else the key is for whatever the field stands in. */
  readonly onEscape: (event: KeyboardEvent) => void;
}

/** The draft of a field. @param commit makes the change, or says why it cannot be */
export function useDraft<T>(commit: (value: T) => EditResult | void): Draft<T> {
  const [typed, setTyped] = useState<string | null>(null);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const drop = (): void => {
    setTyped(null);
    setRefusal(null);
  };
  return {
    typed,
    refusal,
    type: setTyped,
    refuse: setRefusal,
    drop,
    put: (value) => {
      const result = commit(value);
      const isTaken = !result || result.ok;
      if (isTaken) drop();
      else setRefusal(result.troubles[0]);
      return isTaken;
    },
    onEscape: (event) => {
      if (event.key !== 'Escape' || (typed === null && refusal === null)) return;
      event.stopPropagation();
      event.preventDefault();
      drop();
    },
  };
}
