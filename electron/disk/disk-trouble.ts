/** What the disk gets wrong, in words; nothing that stood there before was touched. */
import type { HostTrouble } from '../../core/host';
import { notFoundTrouble } from '../../core/library';

/** Thrown within the desktop's storage, and turned into the answer where the window asked. */
export class DiskTrouble extends Error {
  constructor(readonly trouble: HostTrouble) {
    super(trouble.what);
  }
}

/** The code of a system error, or nothing. */
export function codeOf(error: unknown): string {
  return (error as NodeJS.ErrnoException | null)?.code ?? '';
}

export function blockedFolder(path: string): HostTrouble {
  return {
    kind: 'not-writable',
    what: 'A file stands where the folder should be.',
    where: path,
    mend: 'Move that file away or give it another name; it is left as it is.',
  };
}

/** A file that its owner has closed to writing: a save that took its place would open it again. */
export function readOnlyTrouble(path: string): HostTrouble {
  return {
    kind: 'not-writable',
    what: 'The file is read-only.',
    where: path,
    mend: 'Allow writing in the properties of the file, or save a copy under another name.',
  };
}

export function noFileTrouble(path: string, isFolder: boolean): HostTrouble {
  return {
    kind: 'not-writable',
    what: isFolder
      ? 'There is a folder where the file should be.'
      : 'This is no file but a pipe or a device.',
    where: path,
    mend: isFolder ? 'Move that folder away, or save under another name.' : 'Save under another name.',
  };
}

export function readTrouble(error: unknown, path: string): HostTrouble {
  switch (codeOf(error)) {
    case 'ENOENT':
    case 'ENOTDIR':
      return notFoundTrouble(path);
    case 'EACCES':
    case 'EPERM':
      return {
        kind: 'not-readable',
        what: 'The system does not let this user read the file.',
        where: path,
        mend: 'Give yourself the right to read it, or choose another file.',
      };
    default:
      return {
        kind: 'not-readable',
        what: `The file could not be read (${codeOf(error) || String(error)}).`,
        where: path,
        mend: 'Check the disk it lies on, then try again; the file stays as it is.',
      };
  }
}

/** @param bytes how much was to be written */
export function writeTrouble(error: unknown, path: string, bytes: number): HostTrouble {
  switch (codeOf(error)) {
    case 'ENOSPC':
    case 'EDQUOT':
      return {
        kind: 'full',
        what: `The disk has no room for ${Math.ceil(bytes / 1000)} kB more; what was saved before is whole.`,
        where: path,
        mend: 'Free some space, then save again, or save a copy on another disk.',
      };
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return {
        kind: 'not-writable',
        what: 'The system does not let this user write here; what was saved before is whole.',
        where: path,
        mend: 'Give yourself the right to write there, or save a copy in another folder.',
      };
    case 'ENOENT':
    case 'ENOTDIR':
      return {
        kind: 'not-writable',
        what: 'The folder is no longer there, or a file stands where it should be.',
        where: path,
        mend: 'Bring the folder back, or save a copy in another one.',
      };
    case 'ENAMETOOLONG':
      return {
        kind: 'not-writable',
        what: 'The name is longer than the disk allows.',
        where: path,
        mend: 'Save under a shorter name; most disks allow 255 bytes.',
      };
    case 'ELOOP':
      return {
        kind: 'not-writable',
        what: 'The link leads round in a circle.',
        where: path,
        mend: 'Mend the link, or save under another name.',
      };
    case 'EISDIR':
    case 'ENOTEMPTY':
    case 'EEXIST':
      return noFileTrouble(path, true);
    default:
      return {
        kind: 'not-writable',
        what: `The file could not be written (${codeOf(error) || String(error)}); what was saved before is whole.`,
        where: path,
        mend: 'Check the disk, then save again, or save a copy elsewhere.',
      };
  }
}
