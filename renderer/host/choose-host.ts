/** Which Host this window has: the desktop's where its bridge is there, else the browser's. */
import type { Bridge, Host } from '../../core/host';
import { loadPart } from '../actions/load-part';
import { say } from '../store/notice';
import { bridgeHost } from './bridge-host';

/**
 * The one Host of this window; call it once, at the start. The browser's comes with a part of its own, which a desktop
 * never reads.
 * @returns null where that part did not come, which is said
 */
export async function chooseHost(): Promise<Host | null> {
  const { carryover } = window as Window & { readonly carryover?: Bridge };
  if (carryover !== undefined) return bridgeHost(carryover);
  const part = await loadPart(() => import('./browser-host'));
  if (part.ok) return part.value.browserHost();
  say({ tone: 'refused', lines: part.troubles });
  return null;
}
