/** A thread that checks trips, one after the other, as they are asked of it. */
import { parentPort } from 'node:worker_threads';
import { assert } from '../../core/result';
import { checkedFile } from './check-one';
import type { Units } from './units-option';

/** What a thread is asked. */
export interface Ask {
  readonly path: string;
  readonly units: Units;
}

assert(parentPort !== null, 'a thread that nobody started');
const port = parentPort;
let before: Promise<void> = Promise.resolve();
// In turn: one trip at a time is held in memory.
port.on('message', ({ path, units }: Ask) => {
  before = before.then(async () => port.postMessage(await checkedFile(path, units)));
});
