/**
 * Edits that no save has taken up yet, as a browser keeps them: in the library's database, which a kill of the
 * browser leaves as it is, and where a page goes in `localStorage`, which alone is written before it is gone.
 */
import type { TripToken, Unsaved } from '../../core/host';
import type { UseLibrary } from './browser-library';

export interface BrowserUnsaved {
  keep(token: TripToken | null, unsaved: Unsaved, isLast: boolean): Promise<void>;
  read(token: TripToken | null): Promise<Unsaved | null>;
  drop(token: TripToken | null): Promise<void>;
}

interface Note extends Unsaved {
  /** Which of two is the newer. */
  readonly notedMs: number;
}

/** @param storage null where the browser refuses it */
export function browserUnsaved(
  libraryName: string,
  use: UseLibrary,
  nowMs: () => number,
  storage: Storage | null = storageOf(),
): BrowserUnsaved {
  const lastKeyOf = (token: TripToken | null): string => `${libraryName}/${keyOf(token)}`;
  return {
    keep: async (token, unsaved, isLast) => {
      const note: Note = { ...unsaved, notedMs: nowMs() };
      if (isLast) {
        try {
          storage?.setItem(lastKeyOf(token), JSON.stringify(note));
        } catch {
          // Larger than it takes: the database may still be in time.
        }
      }
      await use((library) => library.note(keyOf(token), note));
    },

    read: async (token) => {
      const last = noteIn(parsed(storage?.getItem(lastKeyOf(token)) ?? null));
      const kept = noteIn(
        await use((library) => library.noted(keyOf(token))).catch((error: unknown) => {
          if (last === null) throw error;
          return null;
        }),
      );
      const newer = last && kept ? (last.notedMs > kept.notedMs ? last : kept) : (last ?? kept);
      return newer && { text: newer.text, savedAt: newer.savedAt };
    },

    drop: async (token) => {
      storage?.removeItem(lastKeyOf(token));
      await use((library) => library.note(keyOf(token), undefined));
    },
  };
}

function keyOf(token: TripToken | null): string {
  return `unsaved/${token ?? 'new'}`;
}

function storageOf(): Storage | null {
  try {
    return globalThis.localStorage ?? null;
  } catch {
    return null;
  }
}

function parsed(text: string | null): unknown {
  try {
    return text === null ? null : JSON.parse(text);
  } catch {
    return null;
  }
}

/** What this version would have noted; anyone may have written there. */
function noteIn(value: unknown): Note | null {
  if (typeof value !== 'object' || value === null) return null;
  const { text, savedAt, notedMs } = value as Partial<Record<keyof Note, unknown>>;
  const isNote =
    typeof text === 'string' &&
    (savedAt === null || typeof savedAt === 'string') &&
    typeof notedMs === 'number';
  return isNote ? { text, savedAt, notedMs } : null;
}
