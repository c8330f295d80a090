import * as nodeFs from 'node:fs/promises';
import { failure, success, type Result } from '../../core/result';
import { LARGEST_FILE, readTrip, tooLarge, type ReadTroubleKind } from '../../core/document/read-trip';
import type { Trip } from '../../core/document/types';
import type { Terminal } from './terminal';

type Files = Pick<typeof nodeFs, 'opendir' | 'readFile' | 'stat'>;

export type InputTrouble = ReadTroubleKind | 'not-found' | 'not-readable' | 'not-text';

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

/** What is said of a folder in the place of a trip: of one that is closed to this user, that. */
async function folderTrouble(path: string, fs: Files): Promise<Result<Trip, InputTrouble>> {
  try {
    await (await fs.opendir(path)).close();
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    return failure<InputTrouble>({
      kind: 'not-readable',
      what: `The folder cannot be looked into (${code ?? String(error)}).`,
      where: path,
      mend: 'Check who may read it, or leave it out.',
    });
  }
  return failure<InputTrouble>({
    kind: 'not-readable',
    what: 'This is a folder.',
    where: path,
    mend: 'Name the trip file.',
  });
}

/** A trip from the bytes of a file. @param where they are from, for who is told of them */
function tripIn(bytes: Uint8Array, where: string): Result<Trip, InputTrouble> {
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return failure<InputTrouble>({
      kind: 'not-text',
      what: 'The file is not text in UTF-8.',
      where,
      mend: 'Check that it is a trip file; save it as UTF-8 from a text editor.',
    });
  }
  return readTrip(text);
}

/**
 * Reads a trip file from the disk, its size first: a file that no trip can have is not read at all.
 * @param path as the user typed it @param fs the disk; a test puts a failing one in its place
 */
export async function readTripFile(path: string, fs: Files = nodeFs): Promise<Result<Trip, InputTrouble>> {
  let bytes: Uint8Array;
  try {
    const about = await fs.stat(path);
    if (about.isDirectory()) return await folderTrouble(path, fs);
    if (!about.isFile()) {
      return failure<InputTrouble>({
        kind: 'not-readable',
        what: 'This is not a file.',
        where: path,
        mend: 'Name the trip file.',
      });
    }
    if (about.size > LARGEST_FILE) return tooLarge(about.size);
    bytes = await fs.readFile(path);
  } catch (error) {
    return notRead(path, error);
  }
  return tripIn(bytes, path);
}

/** What stands for standard input in the place of a file. */
export const STANDARD_INPUT = '-';

/** What a trip is called where it cannot be used. @param path as typed; null: the demo trip */
export function subjectOf(path: string | null): string {
  return path === STANDARD_INPUT ? 'standard input' : (path ?? 'the demo trip');
}

/**
 * The trip that a command is about.
 * @param path as typed; null: the demo trip, `-`: what comes from standard input
 */
export async function tripOf(path: string | null, { readInput }: Terminal): Promise<Result<Trip>> {
  if (path === null) {
    const { demoTrip } = await import('../../core/document/demo-trip');
    return success(demoTrip());
  }
  if (path !== STANDARD_INPUT) return readTripFile(path);
  const bytes = await readInput(LARGEST_FILE);
  return bytes.length > LARGEST_FILE ? tooLarge(bytes.length) : tripIn(bytes, 'standard input');
}
