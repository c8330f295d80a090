import type { CommandOutcome } from './plan-command';
import { printable } from './printable';

/**
 * Runs a command as a program: prints what it says, and ends with its status.
 * @param script its name among the scripts of npm
 */
export async function runCommand(
  script: string,
  run: (args: readonly string[]) => Promise<CommandOutcome>,
): Promise<void> {
  // A reader that has seen enough closes the pipe; that is no fault of the command.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
  // npm runs its scripts in the project's folder; paths are meant from where the user stands.
  const { npm_lifecycle_event: started, INIT_CWD: startedIn } = process.env;
  if (started === script && startedIn !== undefined) process.chdir(startedIn);
  const { status, stdout, stderr } = await run(process.argv.slice(2));
  process.stdout.write(printable(stdout));
  process.stderr.write(printable(stderr));
  process.exitCode = status;
}
