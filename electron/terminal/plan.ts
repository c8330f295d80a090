/** The windowless command: `npm run --silent plan -- TRIP [--json] [--diver ID] [--slate OUT.pdf]`. */
import { planCommand } from './plan-command';

// A reader that has seen enough closes the pipe; that is no fault of the plan.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

// npm runs its scripts in the project's folder; paths are meant from where the user stands.
const { npm_lifecycle_event: script, INIT_CWD: startedIn } = process.env;
if (script === 'plan' && startedIn !== undefined) process.chdir(startedIn);

const now = new Date();
const today = `${now.getFullYear()}-${String(now.getMonth() + 1).padStart(2, '0')}-${String(now.getDate()).padStart(2, '0')}`;
const { status, stdout, stderr } = await planCommand(process.argv.slice(2), today);
process.stdout.write(stdout);
process.stderr.write(stderr);
process.exitCode = status;
