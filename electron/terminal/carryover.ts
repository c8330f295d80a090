/** The program `carryover`, as `npx .` and an installed one start it. */
import { carryoverCommand } from './carryover-command';
import { runCommand } from './run-command';

await runCommand((command) => `carryover ${command}`, carryoverCommand);
