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

/** Whether bytes are an archive or packed. Source: PKWARE, APPNOTE.TXT 6.3.10, 4.3.7; RFC 1952, 2.3.1. */
function isPacked([a, b, c, d]: Uint8Array): boolean {
  return (a === 0x50 && b === 0x4b && c === 0x03 && d === 0x04) || (a === 0x1f && b === 0x8b);
}

/** The trouble of a file to import that is no text. @param bytes its first ones at least, as far as they were read */
export function noTextTrouble(where: string, bytes: Uint8Array): HostTrouble {
  return isPacked(bytes)
    ? {
        kind: 'not-readable',
        what: 'The file is packed: an archive (ZIP), places as KMZ or a workbook. What is in it is not read.',
        where,
        mend: 'Unpack it and choose the file inside; save places as KML, a workbook as CSV.',
      }
    : {
        kind: 'not-readable',
        what: 'The file is no text: it is a picture or something else that no list or log is, or it was damaged.',
        where,
        mend: 'Save it as UDDF, KML, CSV or text first, and choose that file.',
      };
}
