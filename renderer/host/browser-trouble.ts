/** What a browser's storage gets wrong, in words. */
import type { HostResult, HostTrouble } from '../../core/host';

export const WHERE = 'this browser’s storage';

/** A full disk is told by name, or in the message of an error that has none: "FILE_ERROR_NO_SPACE". */
const NO_ROOM = /no_?(device_)?space|quota|disk (is )?full/i;

type Attempt = <T>(work: () => Promise<HostResult<T>>) => Promise<HostResult<T>>;

/** Turns what storage throws into a trouble; a mistake of ours still throws. */
export function attempts(): Attempt {
  /** A full disk closes the storage, and what cannot be opened then says nothing of why. */
  let wasFull = false;
  return async (work) => {
    try {
      const result = await work();
      wasFull = false;
      return result;
    } catch (error) {
      if (!(error instanceof DOMException)) throw error;
      const isUnknown = error.name === 'UnknownError' || error.name === 'AbortError';
      const isFull =
        error.name === 'QuotaExceededError' || (isUnknown && (NO_ROOM.test(error.message) || wasFull));
      wasFull ||= isFull;
      return { ok: false, trouble: isFull ? FULL : otherTrouble(error.name) };
    }
  };
}

const FULL: HostTrouble = {
  kind: 'full',
  what: 'The browser has no room left for this trip; nothing of the stored one was touched.',
  where: WHERE,
  mend: 'Free disk space or storage of other sites, then save again, or save the trip as a file.',
};

function otherTrouble(name: string): HostTrouble {
  if (name === 'VersionError') {
    return {
      kind: 'not-writable',
      what: 'A newer Carryover was opened in another window, and this one cannot use its library.',
      where: WHERE,
      mend: 'Load this window again; what is on screen is noted down and comes back.',
    };
  }
  return {
    kind: 'not-writable',
    what: `The browser refused its storage (${name}).`,
    where: WHERE,
    mend: 'Free disk space, leave private browsing or allow storage for this address, or save the trip as a file.',
  };
}
