import { basename, join } from 'node:path';
import { build } from 'vite';
import { at } from '../../build/paths';

/** A file of this folder as plain JavaScript, which starts ten times as fast. */
export async function bundled(name: string, folder: string): Promise<string> {
  await build({
    configFile: false,
    logLevel: 'error',
    root: at(),
    ssr: { noExternal: true },
    build: { ssr: at(`test/faults/${name}`), outDir: folder, target: 'node20', emptyOutDir: false },
  });
  return join(folder, `${basename(name, '.ts')}.js`);
}
