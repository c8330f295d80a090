import { createContext, useContext, useEffect, useRef, useState, type KeyboardEvent } from 'react';
import type { EditResult } from '../actions/edit';
import { say } from '../store/notice';

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

/**
 * What the fields beneath are about, by its id. Fields that come to be about something else are the same fields:
 * what is typed into them is not, and does not outlive it.
 */
export const DraftsAbout = createContext('');

interface Held {
  readonly typed: string | null;
  readonly refusal: Refusal | null;
  readonly words: string;
  readonly about: string;
}

/**
 * The draft of a field.
 * @param commit makes the change, or says why it cannot be
 * @param words what a typed text is read by, as "metric"; read by others it could mean another figure, so it is dropped
 */
export function useDraft<T>(commit: (value: T) => EditResult | void, words = ''): Draft<T> {
  const about = useContext(DraftsAbout);
  const [held, setHeld] = useState<Held>({ typed: null, refusal: null, words, about });
  const isRead = held.words === words && held.about === about;
  const { typed, refusal } = isRead ? held : { typed: null, refusal: null };
  const latest = useRef(held);
  const readBy = useRef(words);
  const hold = (next: { readonly typed: string | null; readonly refusal: Refusal | null }): void => {
    latest.current = { ...next, words, about };
    setHeld(latest.current);
  };
  const drop = (): void => hold({ typed: null, refusal: null });
  const refuse = (why: Refusal): void => hold({ typed, refusal: why });

  useEffect(() => {
    readBy.current = words;
  }, [words]);
  useEffect(
    () => () => {
      const gone = latest.current;
      if (gone.words === readBy.current && gone.about === about) sayGone(gone.refusal);
    },
    [about],
  );

  return {
    typed,
    refusal,
    type: (text) => hold({ typed: text, refusal }),
    refuse,
    drop,
    put: (value) => {
      const result = commit(value);
      const isTaken = !result || result.ok;
      if (isTaken) drop();
      else refuse(result.troubles[0]);
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

/** A field that goes while it refuses takes the reason along; somebody has to be told. */
function sayGone(refusal: Refusal | null): void {
  if (refusal === null) return;
  say({
    tone: 'refused',
    lines: [{ what: refusal.what, where: '', mend: 'Nothing was changed.' }],
  });
}
