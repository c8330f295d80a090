import { chmodSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { findBrowser, findProgram } from '../../../build/find-browser';

const folder = (...programs: string[]): string => {
  const path = mkdtempSync(join(tmpdir(), 'carryover-path-'));
  for (const program of programs) {
    writeFileSync(join(path, program), '');
    chmodSync(join(path, program), 0o755);
  }
  return path;
};

describe('findBrowser', () => {
  it('finds the first browser it knows, in whatever folder of PATH', () => {
    const [one, two] = [folder('google-chrome'), folder('chromium')];
    expect(findBrowser({ PATH: [one, two].join(delimiter) }, 'linux')).toBe(join(two, 'chromium'));
  });

  it('finds none where there is none', () => {
    expect(findBrowser({ PATH: folder('firefox') }, 'linux')).toBeNull();
    expect(findBrowser({}, 'linux')).toBeNull();
  });
});

describe('findProgram', () => {
  it('passes over a folder without it', () => {
    const one = folder('qpdf');
    expect(findProgram('qpdf', { PATH: [folder(), one].join(delimiter) })).toBe(join(one, 'qpdf'));
  });
});
