import { describe, expect, it } from 'vitest';
import { canPrint, printable, textWidthPt } from '../../../../core/slate/font';
import { setterOf } from '../../../../core/slate/layout';
import { FONTS } from '../../../support/slates';

describe('readFont', () => {
  it('finds the letters of Latin, Greek, Cyrillic and the signs the slates need', () => {
    for (const letter of 'AzÅŁőßñΩλЖяї≥→–−…□·×%') expect(canPrint(letter.codePointAt(0)!, FONTS)).toBe(true);
  });

  it('reads the vertical reach that the layout counts on', () => {
    for (const font of [FONTS.regular, FONTS.bold]) {
      expect(font.ascent).toBeLessThanOrEqual(0.93);
      expect(font.descent).toBeLessThanOrEqual(0.24);
    }
  });

  it('measures in proportion to the size, letter by letter', () => {
    const wide = textWidthPt('AVAT', FONTS.regular, 20);
    expect(wide).toBeCloseTo(2 * textWidthPt('AVAT', FONTS.regular, 10), 9);
    expect(wide).toBeCloseTo(
      [...'AVAT'].reduce((sum, each) => sum + textWidthPt(each, FONTS.regular, 20), 0),
      9,
    );
  });
});

describe('printable', () => {
  it('composes a letter and its accent into one', () => {
    expect(printable('A\u030angstro\u0308m', FONTS)).toEqual({ text: '\u00c5ngstr\u00f6m', missing: [] });
  });

  it('says which letters are missing and marks their place', () => {
    expect(printable('Kai 海 海底', FONTS)).toEqual({ text: 'Kai □ □□', missing: ['海', '底'] });
  });

  it('counts scripts that need joining as missing, though the font has the letters', () => {
    expect(FONTS.regular.advances.has('ب'.codePointAt(0)!)).toBe(true);
    expect(printable('ب', FONTS).missing).toEqual(['ب']);
  });

  it('takes line breaks and tabs for spaces', () => {
    expect(printable('North\n\tWall', FONTS).text).toBe('North  Wall');
  });
});

describe('setting text', () => {
  const style = { font: 'regular', sizePt: 10 } as const;

  it('breaks at spaces and never sets a line wider than asked', () => {
    const set = setterOf(FONTS);
    const marks = set.text('One word after the other, and then Donaudampfschiffahrt', style, 60).at(0, 0);
    expect(marks.length).toBeGreaterThan(3);
    for (const mark of marks) expect(mark.kind === 'text' && mark.width).toBeLessThanOrEqual(60);
  });

  it('loses no letter', () => {
    const set = setterOf(FONTS);
    const text = 'One word after the other, and then Donaudampfschiffahrt';
    const lines = set
      .text(text, style, 40)
      .at(0, 0)
      .map((mark) => (mark.kind === 'text' ? mark.text : ''));
    expect(lines.join('').replaceAll(' ', '')).toBe(text.replaceAll(' ', ''));
  });

  it('leaves a figure with its unit, unless the line is too short for both', () => {
    const set = setterOf(FONTS);
    const linesIn = (widthPt: number) =>
      set
        .text('It is 28 %', style, widthPt)
        .at(0, 0)
        .map((mark) => (mark.kind === 'text' ? mark.text : ''));
    expect(linesIn(set.width('It is 28', style))).toEqual(['It is', '28 %']);
    expect(linesIn(set.width('28', style))).toEqual(['It', 'is', '28', '%']);
  });

  it('ends in an ellipsis where lines are limited', () => {
    const set = setterOf(FONTS);
    const [mark, ...rest] = set.text('A long name of a site', { ...style, maxLines: 1 }, 50).at(0, 0);
    expect(rest).toEqual([]);
    expect(mark!.kind === 'text' && mark!.text.endsWith('\u2026')).toBe(true);
    expect(mark!.kind === 'text' && mark!.width).toBeLessThanOrEqual(50);
  });

  it('remembers every letter it had to give up', () => {
    const set = setterOf(FONTS);
    set.text('海', style, 100);
    set.text('海 ب', style, 100);
    expect([...set.missing]).toEqual(['海', 'ب']);
  });
});
