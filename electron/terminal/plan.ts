/** The windowless command: `npm run --silent plan -- TRIP [--json] [--diver ID] [--slate OUT.pdf]`. */
import { planCommand } from './plan-command';
import { runCommand } from './run-command';

const now = new Date();
const today = `${now.getFullYear()}-${String(now.getMonth() + 1).padStart(2, '0')}-${String(now.getDate()).padStart(2, '0')}`;
await runCommand('plan', (args) => planCommand(args, today));
