/** Which saves of a file are this process's own, so that neither its watch nor its guard takes them for another's. */

interface Unconfirmed {
  /** The stamp the window still knows. */
  readonly over: string | null;
  readonly is: string;
}

export interface OwnSaves {
  /** What was last seen of a file: its stamp, null for "not there", undefined for never. */
  lastSeen(path: string): string | null | undefined;
  saw(path: string, savedAt: string | null): void;
  /** Whether this state of a file is no news: seen before, or of the save under way. */
  isKnown(path: string, savedAt: string | null): boolean;
  /** A save is about to take the file's place, from when others may see it. */
  begins(path: string, savedAt: string): void;
  /** It has taken the place of `over`; whether it stays is known once it is flushed. */
  tookPlace(path: string, savedAt: string, over: string | null): void;
  /** It is flushed, or came to nothing. */
  ends(path: string, hasSucceeded: boolean): void;
  /** Whether what stands there is a save over `expected` that this process made and never could confirm. */
  isUnconfirmed(path: string, standing: string, expected: string): boolean;
}

export function ownSaves(): OwnSaves {
  const seen = new Map<string, string | null>();
  const underWay = new Map<string, string>();
  const unconfirmed = new Map<string, Unconfirmed>();
  return {
    lastSeen: (path) => seen.get(path),
    saw: (path, savedAt) => void seen.set(path, savedAt),
    isKnown: (path, savedAt) => seen.get(path) === savedAt || underWay.get(path) === savedAt,
    begins: (path, savedAt) => void underWay.set(path, savedAt),
    tookPlace: (path, savedAt, over) => {
      seen.set(path, savedAt);
      // One after the other may fail to be flushed: the window still knows the one before the first of them.
      const before = unconfirmed.get(path);
      unconfirmed.set(path, { over: before?.is === over ? before.over : over, is: savedAt });
    },
    ends: (path, hasSucceeded) => {
      underWay.delete(path);
      if (hasSucceeded) unconfirmed.delete(path);
    },
    isUnconfirmed: (path, standing, expected) => {
      const save = unconfirmed.get(path);
      return save?.is === standing && save.over === expected;
    },
  };
}
