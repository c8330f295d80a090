import { chmodSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { findBrowser, findProgram, findTestBrowser } from '../../../build/find-browser';

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

describe('findTestBrowser', () => {
  it('takes the engine without a window where it is there, else any browser', () => {
    const [one, two] = [folder('chromium'), folder('chromium-headless-shell')];
    const env = { PATH: [one, two].join(delimiter) };
    expect(findTestBrowser(env, 'linux')).toBe(join(two, 'chromium-headless-shell'));
    expect(findBrowser(env, 'linux')).toBe(join(one, 'chromium'));
    expect(findTestBrowser({ PATH: one }, 'linux')).toBe(join(one, 'chromium'));
    expect(findTestBrowser({ PATH: folder('firefox') }, 'linux')).toBeNull();
  });
});

describe('findProgram', () => {
  it('passes over a folder without it', () => {
    const one = folder('qpdf');
    expect(findProgram('qpdf', { PATH: [folder(), one].join(delimiter) })).toBe(join(one, 'qpdf'));
  });
});
