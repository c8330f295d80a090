/** Texts that other programs and people made: how large they may be, and what is said of those that cannot be read. */
import type { HostTrouble } from './host';

/** So much of a text that is imported is read: logs of many years. Source: this project’s own choice. */
export const MAX_IMPORT_BYTES = 60_000_000;

/** The trouble of a text that is larger than any log or list. */
export function importTooLargeTrouble(where: string, bytes: number): HostTrouble {
  return {
    kind: 'too-large',
    what: `The file has ${Math.ceil(bytes / 1_000_000)} MB; less than ${MAX_IMPORT_BYTES / 1_000_000} MB are read.`,
    where,
    mend: 'Save what belongs to this trip alone, and choose that file.',
  };
}

/** The trouble of a file to import that is no text. */
export function noTextTrouble(where: string): HostTrouble {
  return {
    kind: 'not-readable',
    what: 'The file is no text: it is a picture, an archive or a workbook, or it was damaged.',
    where,
    mend: 'Save it as UDDF, CSV or text first, and choose that file.',
  };
}
