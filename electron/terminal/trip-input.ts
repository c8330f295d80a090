import { readFile, stat } from 'node:fs/promises';
import { failure, type Result, type Trouble, troubleText } from '../../core/result';
import { LARGEST_FILE, readTrip, tooLarge, type ReadTroubleKind } from '../../core/document/read-trip';
import { MOST_TROUBLES } from '../../core/document/references';
import type { Trip } from '../../core/document/types';

export type InputTrouble = ReadTroubleKind | 'not-found' | 'not-readable' | 'not-text';

/** Most troubles of one file that are printed; a file with more has one cause for most of them. */
const PRINTED_TROUBLES = 20;

function notRead(path: string, error: unknown): Result<Trip, InputTrouble> {
  const code = (error as NodeJS.ErrnoException).code;
  return failure<InputTrouble>(
    code === 'ENOENT' || code === 'ENOTDIR'
      ? {
          kind: 'not-found',
          what: 'There is no such file.',
          where: path,
          mend: 'Check the name and the folder.',
        }
      : {
          kind: 'not-readable',
          what: `The file cannot be read (${code ?? String(error)}).`,
          where: path,
          mend: 'Check who may read it, or copy it elsewhere.',
        },
  );
}

/**
 * Reads a trip file from the disk, its size first: a file that no trip can have is not read at all.
 * @param path as the user typed it
 */
export async function readTripFile(path: string): Promise<Result<Trip, InputTrouble>> {
  let bytes: Uint8Array;
  try {
    const about = await stat(path);
    if (!about.isFile()) {
      return failure<InputTrouble>({
        kind: 'not-readable',
        what: about.isDirectory() ? 'This is a folder.' : 'This is not a file.',
        where: path,
        mend: 'Name the trip file.',
      });
    }
    if (about.size > LARGEST_FILE) return tooLarge(about.size);
    bytes = await readFile(path);
  } catch (error) {
    return notRead(path, error);
  }
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return failure<InputTrouble>({
      kind: 'not-text',
      what: 'The file is not text in UTF-8.',
      where: path,
      mend: 'Check that it is a trip file; save it as UTF-8 from a text editor.',
    });
  }
  return readTrip(text);
}

/**
 * Troubles as the commands print them on standard error.
 * @param subject what cannot be used, "week.json" or "the command line"
 */
export function troublesText(subject: string, troubles: readonly Trouble[]): string {
  const count =
    troubles.length === 1
      ? 'one thing'
      : troubles.length > MOST_TROUBLES
        ? `more than ${MOST_TROUBLES} things`
        : `${troubles.length} things`;
  const lines = troubles.slice(0, PRINTED_TROUBLES).map(troubleText);
  if (troubles.length > lines.length) lines.push('... and more; mend these first.');
  return `Carryover cannot use ${subject}; ${count} to mend, nothing was written.\n\n${lines.join('\n')}\n`;
}
