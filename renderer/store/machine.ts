/** The one host of this window, set once as it starts. */
import type { Host } from '../../core/host';
import { assert } from '../../core/result';

let current: Host | null = null;

export function setMachine(host: Host): void {
  current = host;
}

export function machine(): Host {
  assert(current !== null, 'the window asked its host before it had one');
  return current;
}
