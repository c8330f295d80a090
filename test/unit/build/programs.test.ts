import { describe, expect, it } from 'vitest';
import { programBreaches } from '../../../build/checks/programs';
import { sourceFiles } from '../../../build/checks/read-source';

function breaches(text: string, path = 'test/unit/core/gas.test.ts'): readonly string[] {
  return programBreaches([{ path, text }]).map(({ where, what }) => `${where} ${what}`);
}

const IMPORT = "import { spawnSync } from 'node:child_process';\n";

describe('programBreaches', () => {
  it('finds a program of the system, however it is named', () => {
    expect(breaches(`${IMPORT}spawnSync('pdftotext', ['a.pdf']);`)).toEqual([
      "test/unit/core/gas.test.ts:2 starts 'pdftotext'",
    ]);
    expect(breaches(`${IMPORT}const run = (name: string) => spawnSync(name);`)).toEqual([
      'test/unit/core/gas.test.ts:2 starts name',
    ]);
  });

  it('finds an import that would hide one', () => {
    const where = 'test/unit/core/gas.test.ts:1';
    expect(breaches("import { execSync } from 'node:child_process';")).toEqual([
      `${where} imports execSync of node:child_process`,
    ]);
    expect(breaches("import { spawn as start } from 'child_process';")).toEqual([
      `${where} imports spawn as start of node:child_process`,
    ]);
    expect(breaches("import * as all from 'node:child_process';")).toEqual([
      `${where} imports everything of node:child_process`,
    ]);
    expect(breaches("const { spawn } = await import('node:child_process');")).toHaveLength(1);
  });

  it('lets Node and npm be started, and what is written down in the file it is written for alone', () => {
    expect(breaches(`${IMPORT}spawnSync(process.execPath, []); spawnSync('npm', ['run']);`)).toEqual([]);
    const pipes = `${IMPORT}spawnSync('mkfifo', []);`;
    expect(breaches(pipes, 'test/unit/electron/odd-files.test.ts')).toEqual([]);
    expect(breaches(pipes)).toHaveLength(1);
  });

  it('finds none in this project', () => {
    const files = sourceFiles();
    expect(files.filter(({ text }) => text.includes('node:child_process')).length).toBeGreaterThan(10);
    expect(programBreaches(files)).toEqual([]);
  });
});
