/** The desktop's own scheme: serves the bundled window and nothing else, each file with the policy. */
import { protocol } from 'electron';
import { SAFE_HEADERS } from './content-policy';
import { staticAnswer } from './static-files';

export const SCHEME = 'carryover';
const HOST = 'app';
export const START_URL = `${SCHEME}://${HOST}/index.html`;

/** Whether an address is one of the bundle's. */
export function isOurAddress(url: string): boolean {
  if (!URL.canParse(url)) return false;
  const { protocol: scheme, host, username, password } = new URL(url);
  return scheme === `${SCHEME}:` && host === HOST && username === '' && password === '';
}

/** Must run before the app is ready: the runtime fixes its schemes then. */
export function registerScheme(): void {
  protocol.registerSchemesAsPrivileged([
    { scheme: SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true } },
  ]);
}

/** Answers the scheme from a folder. */
export function serveScheme(folder: string): void {
  protocol.handle(SCHEME, (request) => schemeAnswer(folder, request));
}

/** One answer: GET only, one host only, inside the folder only. */
export async function schemeAnswer(
  folder: string,
  request: { readonly url: string; readonly method: string },
): Promise<Response> {
  if (request.method !== 'GET') return new Response(null, { status: 405, headers: SAFE_HEADERS });
  if (!isOurAddress(request.url)) return new Response(null, { status: 404, headers: SAFE_HEADERS });
  const { status, headers, body } = await staticAnswer(folder, new URL(request.url).pathname);
  return new Response(new Uint8Array(body), { status, headers });
}
