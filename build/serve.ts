/** Serves the bundled window on loopback, under the same policy as the desktop's own scheme. */
import { createServer, type Server } from 'node:http';
import { parseArgs } from 'node:util';
import { staticAnswer } from '../electron/static-files';
import { SAFE_HEADERS } from '../electron/content-policy';
import { isStarted, OUT } from './paths';

const LOOPBACK = '127.0.0.1';

export interface Served {
  readonly address: string;
  readonly port: number;
  close(): Promise<void>;
}

/** A port that another program holds, or that this user may not open. */
export class PortTaken extends Error {}

/**
 * Serves a folder; only for this machine, and only to those who ask for it by its loopback name.
 * @param folder absolute path of the folder
 * @param port 0 for any free one
 */
export async function serve(folder: string, port: number): Promise<Served> {
  const server = createServer((request, response) => {
    const answer = async (): Promise<void> => {
      const { host } = request.headers;
      const ours = `${LOOPBACK}:${portOf(server)}`;
      if (host === `localhost:${portOf(server)}`) {
        // A browser keeps trips by address: under two names of this machine there would be two libraries.
        const path = pathOf(request.url ?? '/');
        const location = `http://${ours}${path.startsWith('/') ? path : '/'}`;
        response.writeHead(308, { ...SAFE_HEADERS, location }).end();
      } else if (host !== ours) {
        // A page elsewhere may point a name of its own at this machine; that name is refused.
        response.writeHead(421, SAFE_HEADERS).end();
      } else if (request.method !== 'GET' && request.method !== 'HEAD') {
        response.writeHead(405, { ...SAFE_HEADERS, allow: 'GET, HEAD' }).end();
      } else {
        const { status, headers, body } = await staticAnswer(folder, pathOf(request.url ?? '/'));
        response.writeHead(status, { ...headers, 'content-length': body.byteLength });
        response.end(request.method === 'HEAD' ? undefined : body);
      }
    };
    void answer();
  });
  await new Promise<void>((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) => {
      const isTaken = error.code === 'EADDRINUSE' || error.code === 'EACCES';
      reject(isTaken ? new PortTaken(`port ${port}: ${error.code}`) : error);
    });
    server.listen(port, LOOPBACK, resolve);
  });
  return {
    port: portOf(server),
    address: `http://${LOOPBACK}:${portOf(server)}/`,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

function portOf(server: Server): number {
  const address = server.address();
  return typeof address === 'object' && address !== null ? address.port : 0;
}

/** The path as it was asked for: parsed as a URL, "/../" would vanish before anyone could refuse it. */
function pathOf(url: string): string {
  return url.split(/[?#]/, 1)[0] ?? '/';
}

if (isStarted(import.meta.url)) {
  const { values } = parseArgs({ options: { port: { type: 'string', default: '0' } } });
  const served = await serve(`${OUT}/renderer`, Number(values.port));
  console.log(`serving out/renderer at ${served.address}`);
}
