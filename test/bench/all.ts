/** `npm run bench`: each cost beside its floor, in one run. Ends with 1 where a ratio that is to hold does not. */
import { availableParallelism, loadavg } from 'node:os';
import { benchClassAndLog } from './class-and-log';
import { benchCommand } from './command';
import { benchFindings } from './findings';
import { benchGrowth } from './growth';
import { benchLargestTrip } from './largest-trip';
import { benchLedger } from './ledger';
import { benchMending } from './mending';
import { benchMixes } from './mixes';
import { printLine, type BenchLine } from './report';
import { benchSlates } from './slates';
import { benchSturdiness } from './sturdiness';
import { benchTripFile } from './trip-file';
import { benchWindow } from './window';

const benches: readonly { readonly title: string; readonly run: () => Promise<readonly BenchLine[]> }[] = [
  { title: 'The ledger', run: benchLedger },
  { title: 'What is found in it', run: benchFindings },
  { title: 'The trip file', run: benchTripFile },
  { title: 'Texts made to be slow', run: benchGrowth },
  { title: 'The window', run: benchWindow },
  { title: 'Keys in class and in the log', run: benchClassAndLog },
  { title: 'The largest trip', run: benchLargestTrip },
  { title: 'The slates', run: benchSlates },
  { title: 'The mixes', run: benchMixes },
  { title: 'Mending', run: benchMending },
  { title: 'How sturdy a plan is', run: benchSturdiness },
  { title: 'The command', run: benchCommand },
];

const only = process.argv[2];
let isKept = true;
for (const { title, run } of benches) {
  if (only !== undefined && !title.toLowerCase().includes(only.toLowerCase())) continue;
  console.log(title);
  for (const line of await run()) isKept = printLine(line) && isKept;
}
const [load = 0] = loadavg();
if (load > availableParallelism() + 1) {
  // A frame that waits for its turn on the processor is late, whatever the window does.
  console.log(
    `The machine was busy (load ${load.toFixed(1)}): times on the clock are longer than they need be.`,
  );
}
process.exitCode = isKept ? 0 : 1;
