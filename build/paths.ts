/** Where things are, from the root of the project. */
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('..', import.meta.url)).replace(/[/\\]$/, '');

/** A path under the root. */
export function at(...parts: readonly string[]): string {
  return [ROOT, ...parts].join('/');
}

/** Where bundles go; elsewhere for a test that must not disturb the one in use. */
export const OUT = process.env['CARRYOVER_OUT'] || at('out');

/** Whether a script is the one that was started, not one that another imports. */
export function isStarted(moduleUrl: string): boolean {
  const started = process.argv[1];
  return started !== undefined && fileURLToPath(moduleUrl) === started;
}
