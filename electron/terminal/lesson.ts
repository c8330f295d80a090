/** The windowless command: `npm run --silent lesson -- [--seed N] [--questions N] [--out FILE]`. */
import { lessonCommand } from './lesson-command';
import { runScript } from './run-command';

await runScript('lesson', lessonCommand);
