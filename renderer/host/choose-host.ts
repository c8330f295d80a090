/** Which Host this window has: the desktop's where its bridge is there, else the browser's. */
import type { Bridge, Host } from '../../core/host';
import { bridgeHost } from './bridge-host';
import { browserHost } from './browser-host';

/** The one Host of this window; call it once, at the start. */
export function chooseHost(): Host {
  const { carryover } = window as Window & { readonly carryover?: Bridge };
  return carryover === undefined ? browserHost() : bridgeHost(carryover);
}
