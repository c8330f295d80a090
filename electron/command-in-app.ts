/**
 * The command in the installed program: started with the name of one, the app opens no window, runs it and ends. The
 * runtime cannot be started as plain Node: that fuse is off.
 */
import { fileURLToPath } from 'node:url';
import type { Writable } from 'node:stream';

/** The commands by name; the commands themselves are no part of the desktop's bundle. */
export const COMMAND_NAMES = ['plan', 'mixes', 'mend', 'lesson', 'export', 'check'] as const;

/**
 * What a command was asked for.
 * @param argv of the process, the program itself first
 * @param isPackaged whether the program is the app itself; else the second argument is the app's folder
 * @returns the command and what follows it; null where a window is wanted
 */
export function commandIn(argv: readonly string[], isPackaged: boolean): readonly string[] | null {
  const given = argv.slice(isPackaged ? 1 : 2);
  const names: readonly string[] = [...COMMAND_NAMES, 'completion', 'help'];
  return given[0] !== undefined && names.includes(given[0]) ? given : null;
}

/** All that was written has left the process: pipes of Windows take it later. */
function flushed(stream: Writable): Promise<void> {
  return new Promise((done) => {
    if (stream.destroyed || stream.writableEnded) done();
    else stream.write('', () => done());
  });
}

/**
 * Runs the bundle of the command, which reads the arguments where Node has them, and ends the app with its status.
 * @param args as `commandIn` @param bundle of the command @param exit ends the app
 */
export async function runInApp(
  args: readonly string[],
  bundle: URL,
  exit: (status: number) => void,
): Promise<void> {
  process.argv = [process.argv[0]!, fileURLToPath(bundle), ...args];
  try {
    await import(/* @vite-ignore */ bundle.href);
  } catch (error) {
    process.exitCode = 2;
    process.stderr.write(
      `Carryover has a fault: ${error instanceof Error ? error.message : String(error)}\n`,
    );
  }
  await flushed(process.stdout);
  await flushed(process.stderr);
  exit(Number(process.exitCode ?? 0));
}
