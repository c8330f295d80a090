/** A file of the bundle for an address: inside one folder, of a known type, and nothing else. */
import { lstat, readFile } from 'node:fs/promises';
import { extname, isAbsolute, join, relative, sep } from 'node:path';
import { SAFE_HEADERS } from './content-policy';

const MEDIA_TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.carryover': 'application/json; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.webp': 'image/webp',
  '.ico': 'image/x-icon',
  '.woff': 'font/woff',
  '.woff2': 'font/woff2',
  '.ttf': 'font/ttf',
};

/**
 * The bundler puts a sum of a file's content into its name: under one name it never changes, and need not be asked for
 * twice. A browser that keeps it also keeps what it compiled of it.
 */
const NAMED_BY_CONTENT = /^\/assets\/[^/]+-[\w-]{8}\.\w+$/;
const FOR_EVER = { 'cache-control': 'public, max-age=31536000, immutable' };

export interface StaticAnswer {
  readonly status: 200 | 400 | 404;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: Buffer;
}

/**
 * The path of a file inside a folder, or null where the address leads outside it.
 * @param folder absolute path of the folder
 * @param addressPath the path of a URL, percent-encoded, beginning with a slash
 */
export function fileInside(folder: string, addressPath: string): string | null {
  let decoded: string;
  try {
    decoded = decodeURIComponent(addressPath);
  } catch {
    return null;
  }
  if (decoded.includes('\0') || decoded.includes('\\')) return null;
  const file = join(folder, decoded.endsWith('/') ? `${decoded}index.html` : decoded);
  const inside = relative(folder, file);
  return inside === '' || inside.startsWith('..') || isAbsolute(inside) ? null : file;
}

/**
 * Whether a path leads to a file of the folder itself, over folders alone. Links are not followed: what one names may
 * lie anywhere; and a pipe would never end.
 */
async function isPlainFile(folder: string, file: string): Promise<boolean> {
  const parts = relative(folder, file).split(sep);
  let at = folder;
  for (const [i, part] of parts.entries()) {
    at = join(at, part);
    const found = await lstat(at);
    if (i < parts.length - 1 ? !found.isDirectory() : !found.isFile()) return false;
  }
  return true;
}

/** Reads the file for an address: 400 where it leads outside, 404 where there is none of a known type. */
export async function staticAnswer(folder: string, addressPath: string): Promise<StaticAnswer> {
  const file = fileInside(folder, addressPath);
  if (file === null) return refusal(400, 'No such place.');
  const mediaType = MEDIA_TYPES[extname(file)];
  if (mediaType === undefined) return refusal(404, 'No such file.');
  try {
    if (!(await isPlainFile(folder, file))) return refusal(404, 'No such file.');
    const keeping = NAMED_BY_CONTENT.test(addressPath) ? FOR_EVER : {};
    return {
      status: 200,
      headers: { ...SAFE_HEADERS, ...keeping, 'content-type': mediaType },
      body: await readFile(file),
    };
  } catch {
    return refusal(404, 'No such file.');
  }
}

function refusal(status: 400 | 404, text: string): StaticAnswer {
  const headers = { ...SAFE_HEADERS, 'content-type': 'text/plain; charset=utf-8' };
  return { status, headers, body: Buffer.from(text) };
}
