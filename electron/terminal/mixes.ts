/** The windowless command: `npm run --silent mixes -- TRIP [--json] [--stock K] [--from DATE]`. */
import { mixesCommand } from './mixes-command';
import { runCommand } from './run-command';

await runCommand('mixes', mixesCommand);
