/** The windowless command: `npm run --silent plan -- TRIP [--json] [--diver ID] [--slate OUT.pdf]`. */
import { planCommand } from './plan-command';
import { runScript } from './run-command';

await runScript('plan', planCommand);
