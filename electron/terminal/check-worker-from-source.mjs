/** The thread of `check` where there is no bundle: read by tsx, as who started it is. */
import { register } from 'tsx/esm/api';

register();
await import(new URL('check-worker.ts', import.meta.url).href);
