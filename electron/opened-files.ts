/** Trip files named when the app is started or double-clicked: taken out of the arguments, kept until asked for. */
import { extname, resolve } from 'node:path';
import { TRIP_EXTENSION } from '../core/library';

/**
 * The trip files among a process's arguments.
 * @param argv all of them, the program itself first
 * @param cwd the folder in which they were typed
 * @param isPackaged whether the program is the app itself; else the second argument is the app's folder
 */
export function tripFilesIn(argv: readonly string[], cwd: string, isPackaged: boolean): readonly string[] {
  const given = argv.filter((argument) => !argument.startsWith('-')).slice(isPackaged ? 1 : 2);
  return given
    .filter((argument) => [`.${TRIP_EXTENSION}`, '.json'].includes(extname(argument).toLowerCase()))
    .map((argument) => resolve(cwd, argument));
}
