/** The windowless command: `npm run --silent mend -- TRIP [--json] [--done-before WALLTIME] [--apply N --out FILE]`. */
import { mendCommand } from './mend-command';
import { runScript } from './run-command';

await runScript('mend', mendCommand);
