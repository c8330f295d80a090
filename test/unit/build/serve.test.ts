import { mkdirSync, mkdtempSync, symlinkSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PortTaken, serve, type Served } from '../../../build/serve';
import { CONTENT_SECURITY_POLICY } from '../../../electron/content-policy';

let served: Served;
let above: string;

beforeAll(async () => {
  above = mkdtempSync(join(tmpdir(), 'carryover-serve-'));
  mkdirSync(join(above, 'window', 'assets'), { recursive: true });
  writeFileSync(join(above, 'secret.txt'), 'secret');
  writeFileSync(join(above, 'window', 'index.html'), '<p>window');
  writeFileSync(join(above, 'window', 'assets', 'a.js'), 'let a');
  writeFileSync(join(above, 'window', 'assets', 'window-Ab_3-dE9.js'), 'let window');
  writeFileSync(join(above, 'window', 'key.pem'), 'key');
  symlinkSync(join(above, 'secret.txt'), join(above, 'window', 'linked.txt'));
  symlinkSync(above, join(above, 'window', 'linked'));
  symlinkSync(join(above, 'window', 'assets', 'a.js'), join(above, 'window', 'same.js'));
  symlinkSync(join(above, 'window'), join(above, 'current'));
  served = await serve(join(above, 'window'), 0);
});
afterAll(() => served.close());

interface Got {
  readonly status: number | undefined;
  readonly headers: Record<string, unknown>;
  readonly body: string;
}

/** Raw, since fetch would tidy the path up before it is sent. */
function get(path: string, options: { method?: string; host?: string } = {}): Promise<Got> {
  return new Promise((resolve, reject) => {
    const host = options.host ?? `127.0.0.1:${served.port}`;
    const asked = request(
      { port: served.port, host: '127.0.0.1', path, method: options.method ?? 'GET', headers: { host } },
      (response) => {
        let body = '';
        response.on('data', (chunk: Buffer) => (body += chunk.toString()));
        response.on('end', () => resolve({ status: response.statusCode, headers: response.headers, body }));
      },
    );
    asked.on('error', reject);
    asked.end();
  });
}

describe('serve', () => {
  it('serves the window at its root, with the policy', async () => {
    const { status, headers, body } = await get('/');
    expect({ status, body }).toEqual({ status: 200, body: '<p>window' });
    expect(headers['content-security-policy']).toBe(CONTENT_SECURITY_POLICY);
    expect(headers['content-type']).toBe('text/html; charset=utf-8');
    expect(headers['x-content-type-options']).toBe('nosniff');
  });

  it('passes queries over and serves files in folders', async () => {
    expect((await get('/assets/a.js?v=1')).body).toBe('let a');
  });

  it('has a browser keep what is named by its content, and ask for all else anew', async () => {
    const keeping = async (path: string) => (await get(path)).headers['cache-control'];
    expect(await keeping('/assets/window-Ab_3-dE9.js')).toBe('public, max-age=31536000, immutable');
    for (const path of ['/', '/assets/a.js', '/assets/missing-Ab_3-dE9.js', '/%2e%2e/assets/a-Ab_3-dE9.js']) {
      expect(await keeping(path)).toBe('no-store');
    }
  });

  it.each([
    '/../secret.txt',
    '/%2e%2e/secret.txt',
    '/..%2fsecret.txt',
    '/assets/../../secret.txt',
    '/%5c..%5csecret.txt',
    '/%00',
    '/%zz',
  ])('refuses %s', async (path) => {
    const { status, body } = await get(path);
    expect(status).toBe(400);
    expect(body).not.toContain('secret');
  });

  it('knows no files of unknown kinds, and none that are not there', async () => {
    expect((await get('/key.pem')).status).toBe(404);
    expect((await get('/nothing.js')).status).toBe(404);
    expect((await get('/assets')).status).toBe(404);
  });

  it.each(['/linked.txt', '/linked/secret.txt', '/linked/window/index.html', '/same.js'])(
    'follows no link that lies in its folder: %s',
    async (path) => {
      const { status, body } = await get(path);
      expect({ status, body }).toEqual({ status: 404, body: 'No such file.' });
    },
  );

  it('takes a folder that is itself reached by a link', async () => {
    const other = await serve(join(above, 'current'), 0);
    const { status } = await fetch(`${other.address}assets/a.js`);
    await other.close();
    expect(status).toBe(200);
  });

  it('answers GET and HEAD alone', async () => {
    expect((await get('/', { method: 'POST' })).status).toBe(405);
    expect(await get('/', { method: 'HEAD' })).toMatchObject({ status: 200, body: '' });
  });

  it('sends the other name of this machine on: by address there would be two libraries', async () => {
    for (const [path, to] of [
      ['/', '/'],
      ['/assets/a.js?v=1', '/assets/a.js'],
      ['//elsewhere.example/x', '//elsewhere.example/x'],
      ['http://elsewhere.example/x', '/'],
    ] as const) {
      const { status, headers, body } = await get(path, { host: `localhost:${served.port}` });
      expect({ status, body }).toEqual({ status: 308, body: '' });
      expect(headers['location']).toBe(`http://127.0.0.1:${served.port}${to}`);
    }
    expect((await get('/', { host: 'localhost:1' })).status).toBe(421);
  });

  it('refuses a name that another page may have pointed here', async () => {
    expect((await get('/', { host: 'elsewhere.example' })).status).toBe(421);
  });

  it('says that a port is taken', async () => {
    await expect(serve(tmpdir(), served.port)).rejects.toBeInstanceOf(PortTaken);
  });
});
