/** Compiles each top folder under its own rules: what may exist there (DOM, Node, neither) differs. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';

const projects = ['core', 'renderer', 'electron', 'build', 'test'];
let failed = 0;
for (const project of projects) {
  const { status } = spawnSync(
    process.execPath,
    [join('node_modules', 'typescript', 'bin', 'tsc'), '-p', project],
    { stdio: 'inherit' },
  );
  if (status !== 0) failed += 1;
}
if (failed === 0) console.log(`types: ${projects.length} projects compile`);
process.exitCode = failed === 0 ? 0 : 1;
