import { basename, join } from 'node:path';
import { build } from 'vite';
import { at } from '../../build/paths';

/** What stands for the runtime in whatever is bundled: outside it the package of that name cannot be loaded. */
const DOUBLE = [{ find: /^electron$/, replacement: at('test/doubles/electron-mini.ts') }];

/** A file of this folder as plain JavaScript, which starts ten times as fast. */
export async function bundled(name: string, folder: string): Promise<string> {
  await build({
    configFile: false,
    logLevel: 'error',
    root: at(),
    resolve: { alias: DOUBLE },
    ssr: { noExternal: true },
    build: { ssr: at(`test/faults/${name}`), outDir: folder, target: 'node20', emptyOutDir: false },
  });
  return join(folder, `${basename(name, '.ts')}.js`);
}
