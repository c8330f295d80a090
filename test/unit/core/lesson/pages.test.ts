import { describe, expect, it } from 'vitest';
import { classPages } from '../../../../core/lesson/class-pages';
import { lessonPages } from '../../../../core/lesson/pages';
import { lessonPdf } from '../../../../core/lesson/pdf';
import { exerciseSheet, LEVELS, type Sheet } from '../../../../core/lesson/sheet';
import { assert } from '../../../../core/result';
import { boxOf, type Page } from '../../../../core/slate/layout';
import { pdfStructure, pdfTroubles } from '../../../support/pdf/qpdf';
import { readPdf } from '../../../support/pdf/read-pdf';
import { aClassLoop } from '../../../support/class-loop';
import { aPaper, FONTS } from '../../../support/slates';

function aSheet(change: Partial<Sheet> = {}): Sheet {
  const made = exerciseSheet({ seed: 7, level: 3, questions: 10, units: 'metric', ...change });
  assert(made.ok, 'no sheet');
  return made.value;
}

function on(paper = 'A4', decimal: string = '.') {
  return { paper: aPaper(paper), decimal, fonts: FONTS };
}

function pagesOf(sheet: Sheet, paper = 'A4') {
  const laid = lessonPages(sheet, on(paper));
  assert(laid.ok, 'not laid out');
  return laid.value.pages;
}

/** All words on the paper, and no two on one another. */
function apart(page: Page): void {
  const boxes = page.marks.flatMap((mark) =>
    mark.kind === 'text' ? [{ text: mark.text, box: boxOf(mark, FONTS) }] : [],
  );
  for (const { text, box } of boxes) {
    if (box === null) continue;
    expect(box.x, text).toBeGreaterThan(36);
    expect(box.x + box.width, text).toBeLessThan(page.widthPt - 36);
    expect(box.y + box.height, text).toBeLessThan(page.heightPt - 36);
  }
  for (const [i, one] of boxes.entries()) {
    for (const other of boxes.slice(i + 1)) {
      if (one.box === null || other.box === null) continue;
      const across =
        Math.min(one.box.x + one.box.width, other.box.x + other.box.width) - Math.max(one.box.x, other.box.x);
      const down =
        Math.min(one.box.y + one.box.height, other.box.y + other.box.height) -
        Math.max(one.box.y, other.box.y);
      expect(across > 0.2 && down > 0.2, `${one.text} on ${other.text}`).toBe(false);
    }
  }
}

describe('lessonPages', () => {
  it('has ten questions on one page and their answers on the next, on A4 and letter, in both systems', () => {
    for (const paper of ['A4', 'letter']) {
      for (const units of ['metric', 'imperial'] as const) {
        for (const seed of [1, 7, 12, 100]) {
          const pages = pagesOf(aSheet({ seed, units }), paper);
          expect(pages.map(({ name }) => name)).toEqual(['Pressure and mixes', 'Answers']);
        }
      }
    }
  });

  it('keeps everything on the paper, and no two words on one another', () => {
    for (const level of LEVELS) {
      for (const questions of [1, 7, 20]) {
        for (const page of pagesOf(
          aSheet({ level, questions, units: level === 2 ? 'imperial' : 'metric' }),
          'letter',
        )) {
          apart(page);
        }
      }
    }
  });

  it('sets a fraction above and below a line', () => {
    const [, answers] = pagesOf(aSheet());
    const texts = answers!.marks.flatMap((mark) => (mark.kind === 'text' ? [mark] : []));
    const alt = '32 / 10 + 1';
    const [over, under] = texts.filter(({ tag }) => tag !== undefined && 'alt' in tag && tag.alt === alt);
    expect([over!.text, under!.text]).toEqual(['32', '10']);
    expect(under!.y - over!.y).toBeGreaterThan(over!.sizePt);
    expect(Math.abs(over!.x + over!.width / 2 - under!.x - under!.width / 2)).toBeLessThan(0.02);
    const line = answers!.marks.find(
      (mark) => mark.kind === 'line' && mark.points[0]!.y > over!.y && mark.points[0]!.y < under!.y - 4,
    );
    assert(line?.kind === 'line', 'no line between them');
    expect(line.points[0]!.x).toBeLessThan(over!.x);
    expect(line.points[1]!.x).toBeGreaterThan(over!.x + over!.width);
  });

  it('refuses a paper that is too small', () => {
    const laid = lessonPages(aSheet(), on('A6'));
    assert(!laid.ok, 'refused');
    expect(laid.troubles[0]).toMatchObject({ kind: 'paper', mend: 'Use A4 or letter.' });
  });
});

/** The PDF of a sheet. */
function pdfOf(sheet: Sheet, decimal: '.' | ',' = '.'): Promise<Uint8Array> {
  const laid = lessonPages(sheet, on('A4', decimal));
  assert(laid.ok, 'not laid out');
  return lessonPdf(laid.value, FONTS, '2027-03-05');
}

describe('lessonPdf', () => {
  it('is a sound, tagged PDF whose formulas are read out, the same bytes every time', async () => {
    const [one, two] = [await pdfOf(aSheet()), await pdfOf(aSheet())];
    expect(Buffer.from(one).equals(Buffer.from(two))).toBe(true);
    expect(await pdfTroubles(one)).toBe('');
    const { title, fonts, isTagged, structure } = await pdfStructure(one);
    expect(title).toBe('Pressure and mixes: sheet 7, level 3 of 3, metric');
    expect(isTagged).toBe(true);
    expect(structure).toContain('Formula');
    expect(fonts.every(({ isEmbedded, hasLetters }) => isEmbedded && hasLetters)).toBe(true);
  });

  it('says on the pages what the sheet says, with the decimal sign that is asked for', async () => {
    const [questions, answers] = (await readPdf(await pdfOf(aSheet(), ','))).map(({ words }) =>
      words.map(({ text }) => text).join(' '),
    );
    expect(questions).toContain('A diver breathes EAN34 at 15 m. What is the PO2?');
    expect(questions).toContain('At what depth is the pressure 3,4 bar?');
    expect(questions).toContain('Exercises, not a dive plan. Plan within your training');
    expect(answers).toContain('0,85 bar');
    expect(answers).toContain('U.S. Navy Diving Manual Revision 7 (2016), tables 9-7 and 9-8');
    expect(questions).not.toContain('0,85 bar');
  });
});

describe('classPages', () => {
  it('has the workings of two to four mixes, or of three and a loop, on one page or two, no word on another or off the paper', () => {
    for (const paper of ['A4', 'letter']) {
      for (const beside of [
        { percents: [21, 36], loop: null },
        { percents: [21, 28, 32, 36], loop: null },
        {
          percents: [21, 28, 32],
          loop: aClassLoop({ switchM: 2, highBar: 1.5, diluentPercent: 32 }),
        },
      ]) {
        for (const depthM of [3, 26, 42]) {
          const laid = classPages({ depthM, ...beside, units: 'imperial' }, on(paper));
          assert(laid.ok, 'not laid out');
          expect(laid.value.pages.length).toBeLessThanOrEqual(2);
          for (const page of laid.value.pages) apart(page);
        }
      }
    }
  });

  it('says what the class says on screen', async () => {
    const laid = classPages(
      { depthM: 26, percents: [21, 28, 32], loop: aClassLoop(), units: 'metric' },
      on(),
    );
    assert(laid.ok, 'not laid out');
    const pdf = await lessonPdf(laid.value, FONTS, '2027-03-05');
    expect(await pdfTroubles(pdf)).toBe('');
    const text = (await readPdf(pdf)).flatMap(({ words }) => words.map((word) => word.text)).join(' ');
    for (const said of [
      'Workings at 26 m',
      'oxygen × P',
      '= 1.16 bar',
      '= 33 m',
      '= 30 min',
      'Minimum gas',
      'Loop: setpoint 0.7, from 6 m 1.2, diluent Air',
      'loop: setpoint, at most P − 0.0627',
      '= 56 m, of the diluent',
      '= 20.9 m',
      '= 33 min',
      'none: the way up without the loop is on bail-out gas',
    ]) {
      expect(text).toContain(said);
    }
  });

  it('tells what comes out in feet and psi too, to who reads those', async () => {
    const laid = classPages(
      { depthM: 26, percents: [21, 32], loop: aClassLoop(), units: 'imperial' },
      on('letter'),
    );
    assert(laid.ok, 'not laid out');
    const pdf = await lessonPdf(laid.value, FONTS, '2027-03-05');
    const text = (await readPdf(pdf)).flatMap(({ words }) => words.map((word) => word.text)).join(' ');
    expect(text).toContain('Workings at 26 m');
    expect(text).toContain('setpoint 0.7, from 6 m 1.2');
    expect(text).toMatch(/= 33 m.{1,3}110 ft/);
    expect(text).toMatch(/= 106 bar.{1,3}1540 psi/);
  });

  it('refuses a paper that is too small', () => {
    expect(
      classPages({ depthM: 26, percents: [21, 28, 32, 36], loop: null, units: 'metric' }, on('A6')).ok,
    ).toBe(false);
  });
});
