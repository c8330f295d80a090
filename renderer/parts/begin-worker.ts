/**
 * How this program begins a worker: the page's policy asks for trusted types, so that no text becomes a script, and
 * allows one policy, this one, which vouches for files of the bundle alone.
 */

/** As `trusted-types` in the page's policy has it. */
export const WORKER_POLICY = 'carryover-worker';

/** As much of it as is used here: the language's own declarations do not have it yet. */
interface TrustedTypes {
  createPolicy(
    name: string,
    rules: { readonly createScriptURL: (url: string) => string },
  ): { createScriptURL(url: string): URL };
}

/** The address, if it is that of a script of the bundle; throws for any other. */
export function bundledScript(url: string, page: string): string {
  const asked = new URL(url, page);
  const { protocol, host } = new URL(page);
  const isOurs = asked.protocol === protocol && asked.host === host;
  if (!isOurs || !/^\/assets\/[\w-]+\.js$/.test(asked.pathname)) {
    throw new TypeError(`Carryover has a fault: ${url} is no script of its own`);
  }
  return asked.href;
}

let trusted: ((url: string) => URL | string) | null = null;

function trust(url: string): URL | string {
  if (trusted === null) {
    const rules = { createScriptURL: (each: string) => bundledScript(each, location.href) };
    const { trustedTypes } = globalThis as { trustedTypes?: TrustedTypes };
    const policy = trustedTypes?.createPolicy(WORKER_POLICY, rules) ?? rules;
    trusted = (each) => policy.createScriptURL(each);
  }
  return trusted(url);
}

/** @param url as `import url from './x-worker?worker&url'` gives it */
export function beginWorker(url: string): Worker {
  return new Worker(trust(url), { type: 'module' });
}
