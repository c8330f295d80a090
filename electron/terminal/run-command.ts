import { troubleText } from '../../core/result';
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
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    // A reader that has seen enough closes the pipe; that is no fault of the command.
    if (error.code === 'EPIPE') return;
    process.exitCode = 2;
    process.stderr.write(
      `${troubleText({
        kind: 'not-written',
        what: `The answer could not be written (${error.code ?? error.message}); what is there of it is not whole.`,
        where: 'standard output',
        mend: 'Free some space there, or send it elsewhere.',
      })}\n`,
    );
  });
  // Where nobody can be told, the status still tells.
  process.stderr.on('error', () => {
    process.exitCode = 2;
  });
  // npm runs its scripts in the project's folder; paths are meant from where the user stands.
  const { npm_lifecycle_event: started, INIT_CWD: startedIn } = process.env;
  if (started === script && startedIn !== undefined) process.chdir(startedIn);
  const { status, stdout, stderr } = await run(process.argv.slice(2));
  process.stdout.write(printable(stdout));
  process.stderr.write(printable(stderr));
  process.exitCode ??= status;
}
