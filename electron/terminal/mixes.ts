/** The windowless command: `npm run --silent mixes -- TRIP [--json] [--stock K] [--from DATE]`. */
import { mixesCommand } from './mixes-command';

// A reader that has seen enough closes the pipe; that is no fault of the search.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

const { status, stdout, stderr } = await mixesCommand(process.argv.slice(2));
process.stdout.write(stdout);
process.stderr.write(stderr);
process.exitCode = status;
