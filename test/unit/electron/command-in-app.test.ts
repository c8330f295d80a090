import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { COMMAND_NAMES, commandIn, runInApp } from '../../../electron/command-in-app';
import { COMMANDS } from '../../../electron/terminal/commands';

describe('commandIn', () => {
  it('knows every command there is', () => {
    expect(COMMANDS.map(({ name }) => name)).toEqual([...COMMAND_NAMES]);
  });

  it.each<[string[], boolean, string[] | null]>([
    [['/opt/carryover', 'plan', 'week.carryover', '--json'], true, ['plan', 'week.carryover', '--json']],
    [['/opt/carryover', 'help'], true, ['help']],
    [['/electron', '.', 'check', 'boats'], false, ['check', 'boats']],
    // A file, the app's own folder, switches of the runtime: a window.
    [['/opt/carryover', 'week.carryover'], true, null],
    [['/opt/carryover', '--flag', 'plan'], true, null],
    [['/electron', 'plan'], false, null],
    [['/opt/carryover'], true, null],
  ])('%j, packaged %j', (argv, isPackaged, expected) => {
    expect(commandIn(argv, isPackaged)).toEqual(expected);
  });
});

describe('runInApp', () => {
  let folder: string;
  const { argv } = process;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'in-app-'));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  afterEach(() => {
    process.argv = argv;
    process.exitCode = undefined;
    vi.restoreAllMocks();
  });

  async function run(program: string): Promise<number[]> {
    const file = join(folder, `${program.length}.mjs`);
    writeFileSync(file, program);
    const exits: number[] = [];
    await runInApp(['plan', '--json'], pathToFileURL(file), (status) => void exits.push(status));
    return exits;
  }

  it('hands the arguments over as a program has them, waits for its end and ends with its status', async () => {
    const told = join(folder, 'told.json');
    const program = `import { writeFileSync } from 'node:fs';
await new Promise((done) => setTimeout(done, 20));
writeFileSync(${JSON.stringify(told)}, JSON.stringify(process.argv.slice(2)));
process.exitCode = 1;`;
    expect(await run(program)).toEqual([1]);
    expect(JSON.parse(readFileSync(told, 'utf8'))).toEqual(['plan', '--json']);
  });

  it('ends with 0 where nothing was said, and with 2 and a sentence where the program breaks', async () => {
    expect(await run('export {};')).toEqual([0]);
    const write = vi.spyOn(process.stderr, 'write').mockImplementation((_text, ...rest: unknown[]) => {
      const done = rest.find((each) => typeof each === 'function') as (() => void) | undefined;
      done?.();
      return true;
    });
    expect(await run("throw new Error('broken');")).toEqual([2]);
    expect(write.mock.calls[0]![0]).toBe('Carryover has a fault: broken\n');
  });
});
