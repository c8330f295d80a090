import { execFile } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { LessonDocument } from '../../../../core/lesson/lesson-document';
import { SAFETY_LINE } from '../../../../core/words/safety-line';
import { fileWords } from '../../../../core/words/reader';
import { lessonCommand } from '../../../../electron/terminal/lesson-command';
import { aTerminal } from '../../../support/a-terminal';
import { readPdf } from '../../../support/pdf/read-pdf';

const ROOT = new URL('../../../../', import.meta.url).pathname;

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'lesson-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

async function lesson(...args: string[]) {
  const outcome = await lessonCommand(args, aTerminal());
  return { ...outcome, files: readdirSync(folder).toSorted() };
}

describe('the command lesson', () => {
  it('prints questions, then answers, and the cautions', async () => {
    const { status, stdout, stderr, files } = await lesson('--seed', '7');
    expect({ status, stderr, files }).toEqual({ status: 0, stderr: '', files: [] });
    expect(stdout).toContain('3. PO2: A diver breathes EAN34 at 15 m. What is the PO2?');
    expect(stdout).toContain('3. 0.34 × (15 / 10 + 1) = 0.34 × 2.5 = 0.85 bar');
    expect(stdout.indexOf('10. Residual')).toBeLessThan(stdout.indexOf('Answers.'));
    expect(stdout.replaceAll(/\s+/g, ' ')).toContain(fileWords(SAFETY_LINE));
    for (const row of stdout.split('\n')) expect(row.length).toBeLessThanOrEqual(104);
    expect((await lesson('--seed', '7')).stdout).toBe(stdout);
  });

  it('prints the same sheet as JSON', async () => {
    const { status, stdout } = await lesson('--seed', '7', '--json', '--level', '1', '--questions', '4');
    expect(status).toBe(0);
    const document = JSON.parse(stdout) as LessonDocument;
    expect(document).toMatchObject({
      format: 'carryover/lesson',
      version: 1,
      seed: 7,
      level: 1,
      questions: 4,
      units: 'metric',
    });
    expect(document.exercises.map(({ kind }) => kind)).toEqual(['pressure', 'pressure', 'po2', 'mod']);
    expect(document.exercises[0]).toMatchObject({
      question: 'A mooring lies at 35 m. What is the pressure there?',
      given: { depth: 35 },
      answer: { value: 4.5, decimals: 1, unit: 'bar' },
      working: '35 / 10 + 1',
      rows: null,
    });
  });

  it('writes the PDF beside the text, in feet on letter where asked', async () => {
    const out = join(folder, 'sheet.pdf');
    const args = ['--seed', '12', '--units', 'imperial', '--out', out, '--paper', 'letter'];
    const { status, stdout, files } = await lesson(...args);
    expect({ status, files }).toEqual({ status: 0, files: ['sheet.pdf'] });
    const pages = await readPdf(readFileSync(out));
    expect(pages.length).toBe(2);
    expect(pages[0]!.widthPt).toBeCloseTo(612, 3);
    const onPaper = pages[0]!.words.map(({ text }) => text).join(' ');
    const first = /1\. \w+: (.*?\?)/s.exec(stdout)![1]!;
    expect(first).toMatch(/ft|atm/);
    expect(onPaper).toContain(first);
  });

  it('never writes over a file without being told to', async () => {
    const out = join(folder, 'sheet.pdf');
    writeFileSync(out, 'mine');
    const refused = await lesson('--out', out);
    expect(refused.status).toBe(2);
    expect(refused.stdout).toBe('');
    expect(refused.stderr).toContain('There is a file of that name already.');
    expect(readFileSync(out, 'utf8')).toBe('mine');
    expect((await lesson('--out', out, '--replace')).status).toBe(0);
    expect(readFileSync(out).subarray(0, 5).toString()).toBe('%PDF-');
  });

  it('refuses what it cannot use, all at once, and writes nothing', async () => {
    const refusals = await lesson(
      '--seed',
      '0',
      '--level',
      '4',
      '--questions',
      'ten',
      '--units',
      'fathoms',
      'trip.json',
      '--replace',
    );
    expect(refusals.status).toBe(2);
    expect(refusals.stdout).toBe('');
    for (const what of ['--seed: "0"', '--level: "4"', '--questions: "ten"', '--units: "fathoms"']) {
      expect(refusals.stderr).toContain(what);
    }
    expect(refusals.stderr).toContain('trip.json: A lesson is made of no trip.');
    expect(refusals.stderr).toContain('--replace');
    const small = await lesson('--out', join(folder, 'a.pdf'), '--paper', 'A6');
    expect(small).toMatchObject({ status: 2, stdout: '', files: [] });
    expect(small.stderr).toContain('An exercise sheet does not fit on A6.');
    expect((await lesson('--paper', 'A4')).stderr).toContain('--out, which is not given');
  });

  it('runs as a program', async () => {
    const run = promisify(execFile);
    const { stdout } = await run('npm', ['run', '--silent', 'lesson', '--', '--help'], { cwd: ROOT });
    expect(stdout).toContain('npm run --silent lesson --');
  });
});
