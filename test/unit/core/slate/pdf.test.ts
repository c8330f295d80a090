import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { assert } from '../../../../core/result';
import { textsOf, FONTS, aPaper, aRequest, layoutOf } from '../../../support/slates';
import { slatePdf, writePdf } from '../../../../core/slate/pdf';
import { slatePages } from '../../../../core/slate/pages';
import type { SlateRequest } from '../../../../core/slate/request';
import { aDive, aDiver, aTrip } from '../../../builders/trip';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'carryover-pdf-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

const trip = aTrip([aDive({ id: 'one' }), aDive({ id: 'two', startsAt: '2027-03-07T08:00' })], {
  title: 'Łódka at Ωmega Reef',
  party: [aDiver(), aDiver({ id: 'guest-2', name: 'Жанна' })],
});

async function bytesOf(change: Partial<SlateRequest> = {}): Promise<Uint8Array> {
  const made = await slatePdf(aRequest(trip, change));
  assert(made.ok && made.value !== null, 'no PDF');
  return made.value.bytes;
}

function tool(name: string, args: readonly string[]): string {
  const { status, stdout, stderr, error } = spawnSync(name, args, { encoding: 'utf8' });
  if (error) throw new Error(`${name} is needed for this test: ${error.message}`);
  if (status !== 0) throw new Error(`${name}: ${stderr}`);
  return stdout;
}

function stored(bytes: Uint8Array, name = 'slate.pdf'): string {
  const file = join(folder, name);
  writeFileSync(file, bytes);
  return file;
}

describe('slatePdf', () => {
  it('makes the same bytes twice', async () => {
    expect(Buffer.from(await bytesOf()).equals(Buffer.from(await bytesOf()))).toBe(true);
  });

  it('is sound for every kind, by an independent check', async () => {
    for (const kind of ['wet', 'briefing', 'trip', 'tags'] as const) {
      const file = stored(await bytesOf({ kind, paper: aPaper('A4') }));
      expect(tool('qpdf', ['--check', file])).toContain('No syntax or stream encoding errors found');
    }
  });

  it('has its title, its size, and both fonts embedded as subsets', async () => {
    const file = stored(await bytesOf());
    const info = tool('pdfinfo', [file]);
    expect(info).toMatch(/^Title: +Łódka at Ωmega Reef: wet-notes slate, printed Mon 1 Mar 2027$/m);
    expect(info).toMatch(/^Page size: +297\.638 x 419\.528 pts/m);
    const fonts = tool('pdffonts', [file]).split('\n').slice(2).filter(Boolean);
    expect(fonts).toHaveLength(2);
    for (const line of fonts)
      expect(line).toMatch(/\+DejaVuSansCondensed(-Bold)? +CID TrueType +Identity-H +yes yes yes/);
  });

  it('names each page in the outline', async () => {
    const names = JSON.parse(
      tool('qpdf', ['--json', '--json-key=outlines', stored(await bytesOf())]),
    ).outlines.map((each: { title: string }) => each.title);
    expect(names).toEqual(layoutOf(trip).pages.map((page) => page.name));
    expect(names).toContain('Жанна, Sat 6 Mar 2027, dive 1');
  });

  it('gives the text back letter for letter', async () => {
    const text = tool('pdftotext', ['-raw', '-enc', 'UTF-8', stored(await bytesOf()), '-']);
    expect(text).toContain('Łódka at Ωmega Reef');
    expect(text).toContain('Жанна');
  });

  it('sets each word as wide as it was measured', async () => {
    const file = stored(await bytesOf());
    tool('pdftotext', ['-bbox', '-f', '1', '-l', '1', file, `${file}.html`]);
    const html = tool('cat', [`${file}.html`]);
    const boxes = [...html.matchAll(/xMin="([\d.]+)" yMin="[\d.]+" xMax="([\d.]+)" yMax="[\d.]+">([^<]+)</g)];
    const single = textsOf(layoutOf(trip).pages[0]!).filter((mark) => !/\s/.test(mark.text));
    let compared = 0;
    for (const mark of single) {
      const box = boxes.find(
        ([, xMin, , word]) => word === mark.text && Math.abs(Number(xMin) - mark.x) < 0.02,
      );
      if (!box) continue;
      expect(Number(box[2]) - Number(box[1])).toBeCloseTo(mark.width, 1);
      compared += 1;
    }
    expect(compared).toBeGreaterThan(5);
  });

  it('stops where it is told to', async () => {
    const seen: number[] = [];
    const made = await slatePdf(aRequest(trip), (done) => {
      seen.push(done);
      return done === 2;
    });
    expect(made).toEqual({ ok: true, value: null });
    expect(seen).toEqual([1, 2]);
  });

  it('says which letters the font lacks', async () => {
    const made = await slatePdf(aRequest({ ...trip, party: [aDiver({ name: '海 Guest' })] }));
    assert(made.ok && made.value !== null, 'no PDF');
    expect(made.value.missingLetters).toEqual(['海']);
  });
});

describe('writePdf', () => {
  it('writes nothing that hangs on the clock', async () => {
    const laid = slatePages(aRequest(trip));
    assert(laid.ok, 'no pages');
    const facts = { title: 'A', printedOn: '2027-03-01', compress: false };
    const text = Buffer.from((await writePdf(laid.value.pages, FONTS, facts))!).toString('latin1');
    const year = new Date().getFullYear();
    expect(text).toContain('D:20270301000000Z');
    expect(text).not.toContain(`D:${year}`);
  });
});
