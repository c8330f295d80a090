/**
 * What the double puts into each page before its own scripts. The functions here are carried over as text:
 * each may use only its arguments and what a page has.
 */
import { pack, unpack } from './codec';

type Send = (kind: string, name: string, payload: unknown) => Promise<unknown>;

interface Carried {
  pack(value: unknown): unknown;
  unpack(value: unknown): unknown;
}

/** The preload script's view of the runtime: returns the arguments of a CommonJS module. */
function preloadWorld({ pack: packed, unpack: unpacked }: Carried, send: Send): unknown[] {
  const listeners = new Map<string, Set<(...args: unknown[]) => void>>();
  const ipcRenderer = {
    invoke: async (channel: string, ...args: unknown[]) => {
      const answer = unpacked(await send('invoke', channel, packed(args))) as {
        value?: unknown;
        error?: string;
      };
      if (answer.error !== undefined)
        throw new Error(`Error invoking remote method '${channel}': ${answer.error}`);
      return answer.value;
    },
    on(channel: string, listener: (...args: unknown[]) => void) {
      const known = listeners.get(channel) ?? new Set();
      listeners.set(channel, known.add(listener));
      return ipcRenderer;
    },
    off(channel: string, listener: (...args: unknown[]) => void) {
      listeners.get(channel)?.delete(listener);
      return ipcRenderer;
    },
  };
  /** A copy for the other side: functions are wrapped, plain data is cloned and frozen. */
  const bridged = (value: unknown): unknown => {
    if (typeof value === 'function') {
      return (...args: unknown[]) => {
        const result: unknown = (value as (...given: unknown[]) => unknown)(...args.map(bridged));
        return result instanceof Promise ? result.then(bridged) : bridged(result);
      };
    }
    if (Array.isArray(value)) return value.map(bridged);
    if (typeof value !== 'object' || value === null || value instanceof Error || value instanceof File)
      return value;
    if (Object.getPrototypeOf(value) !== Object.prototype) return structuredClone(value);
    return Object.freeze(
      Object.fromEntries(Object.entries(value).map(([key, each]) => [key, bridged(each)])),
    );
  };
  const contextBridge = {
    exposeInMainWorld(name: string, api: unknown) {
      if (name in globalThis) throw new Error(`Cannot bind an API on top of an existing property: ${name}`);
      Object.defineProperty(globalThis, name, { value: bridged(api), enumerable: true });
    },
  };
  Object.defineProperty(globalThis, 'doubleReceive', {
    value: (channel: string, payload: unknown) => {
      for (const listener of listeners.get(channel) ?? []) listener({}, ...(unpacked(payload) as unknown[]));
    },
  });
  const require = (id: string): unknown => {
    // A file that a page made itself lies nowhere; one that was dropped says here where, as a test put it there.
    const webUtils = {
      getPathForFile: (file: File) => (file as File & { readonly lies?: string }).lies ?? '',
    };
    if (id === 'electron') return { contextBridge, ipcRenderer, webUtils };
    throw new Error(`module not found: ${id}`);
  };
  return [require, { exports: {} }, {}];
}

/** Permissions as the runtime has them: whatever a page asks for is granted, unless a handler says no. */
function permissionWorld(send: Send): void {
  const ask = async (permission: string): Promise<boolean> =>
    (await send('permission', permission, null)) === true;
  Notification.requestPermission = async () => ((await ask('notifications')) ? 'granted' : 'denied');
  navigator.permissions.query = async ({ name }) => {
    const isGranted = (await send('permission-check', name, null)) === true;
    return { name, state: isGranted ? 'granted' : 'denied', onchange: null } as unknown as PermissionStatus;
  };
  navigator.geolocation.getCurrentPosition = (onPosition, onError) => {
    void ask('geolocation').then((isGranted) => {
      if (isGranted) onPosition({ coords: { latitude: 0, longitude: 0 } } as GeolocationPosition);
      else onError?.({ code: 1, message: 'denied' } as GeolocationPositionError);
    });
  };
  navigator.mediaDevices.getUserMedia = async () => {
    if (!(await ask('media'))) throw new DOMException('Permission denied', 'NotAllowedError');
    return new MediaStream();
  };
}

/** The script for a window's pages: the worlds above, then the preload script's own text inside them. */
export function pageScript(preloadText: string): string {
  return `if (window === window.top && !location.href.startsWith('about:')) {
  // The runner of these scripts names functions through a helper of its own, which no page has.
  const __name = (named) => named;
  const send = globalThis.doubleSend;
  delete globalThis.doubleSend;
  (${permissionWorld.toString()})(send);
  (function (require, module, exports) {
${preloadText}
  })(...(${preloadWorld.toString()})({ pack: ${pack.toString()}, unpack: ${unpack.toString()} }, send));
}`;
}
