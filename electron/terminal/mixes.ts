/** The windowless command: `npm run --silent mixes -- TRIP [--json] [--stock K] [--from DATE]`. */
import { mixesCommand } from './mixes-command';
import { runScript } from './run-command';

await runScript('mixes', mixesCommand);
