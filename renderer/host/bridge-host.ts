/** The Host on the desktop: everything goes over the bridge that the preload script laid. */
import type { Bridge, Host } from '../../core/host';

/** A Host over the bridge; what the desktop can do is known, so nothing needs to be asked for it. */
export function bridgeHost(bridge: Bridge): Host {
  return {
    ...bridge,
    kind: 'desktop',
    supports: { watch: true, filesOutsideLibrary: true, systemPrint: true, showSaved: true },
  };
}
