import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { carryoverCommand } from '../../../../electron/terminal/carryover-command';
import { SLATE_KINDS } from '../../../../core/slate/request';
import { COMMANDS } from '../../../../electron/terminal/commands';
import { aTerminal } from '../../../support/a-terminal';

const hasBash = spawnSync('bash', ['--version']).status === 0;
const hasZsh = spawnSync('zsh', ['--version']).status === 0;

async function scriptFor(shell: string): Promise<string> {
  const { status, stdout } = await carryoverCommand(['completion', shell], aTerminal());
  expect(status).toBe(0);
  return stdout;
}

describe('completion', () => {
  it.each(['bash', 'zsh'])(
    'has every option of every command and every word of a value: %s',
    async (shell) => {
      const script = await scriptFor(shell);
      const tables = await Promise.all(COMMANDS.map(async ({ load }) => (await load()).table));
      for (const { groups } of tables) {
        for (const { name, completed } of groups.flatMap(({ rows }) => rows)) {
          expect(script).toContain(`--${name}`);
          if (completed !== undefined && completed !== 'file') {
            for (const word of completed) expect(script).toContain(word);
          }
        }
      }
    },
  );

  it('says how a shell comes to have it', async () => {
    const { stdout } = await carryoverCommand(['completion', '--help'], aTerminal());
    expect(stdout).toContain('source <(carryover completion bash)');
  });

  it.skipIf(!hasZsh)('is zsh that zsh can read', async () => {
    expect(spawnSync('zsh', ['-n'], { input: await scriptFor('zsh') }).status).toBe(0);
  });
});

describe.skipIf(!hasBash)('completion in bash', () => {
  let folder: string;
  let script: string;
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'completion-'));
    writeFileSync(join(folder, 'my trip.carryover'), '');
    script = await scriptFor('bash');
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  /** What bash offers behind some words, the last of which is being typed. */
  function offered(...words: string[]): string[] {
    const quoted = words.map((word) => `'${word}'`).join(' ');
    const { stdout, stderr } = spawnSync(
      'bash',
      [
        '--norc',
        '-c',
        `${script}
COMP_WORDS=(carryover ${quoted}); COMP_CWORD=${words.length}; _carryover
printf '%s\\n' "\${COMPREPLY[@]}"`,
      ],
      { cwd: folder, encoding: 'utf8' },
    );
    expect(stderr).toBe('');
    return stdout.split('\n').filter((line) => line !== '');
  }

  it.each<[string[], string[]]>([
    [['m'], ['mixes', 'mend']],
    [['--v'], ['--version']],
    [['plan', '--un'], ['--units']],
    [['plan', '--units', 'i'], ['imperial']],
    [['plan', '--units', '=', 'b'], ['both']],
    [['plan', '--kind', '='], [...SLATE_KINDS]],
    [['mixes', '--diver', ''], []],
    [['plan', 'my'], ['my trip.carryover']],
    [['plan', '--slate', 'my'], ['my trip.carryover']],
    [['completion', 'z'], ['zsh']],
  ])('offers behind %j: %j', (words, expected) => {
    expect(offered(...words)).toEqual(expect.arrayContaining(expected));
    if (expected.length === 0) expect(offered(...words)).toEqual([]);
  });
});
