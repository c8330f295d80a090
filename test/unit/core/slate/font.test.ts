import { describe, expect, it } from 'vitest';
import { FACE_NAMES } from '../../../../core/slate/faces';
import { MISSING_MARK, printable, textWidthPt } from '../../../../core/slate/font';
import { setterOf } from '../../../../core/slate/layout';
import { FONTS } from '../../../support/slates';

describe('readFont', () => {
  it('finds in every face the letters of Latin and the signs the slates need', () => {
    for (const face of FACE_NAMES) {
      expect(printable(`AzÅŁőßñș≥→–−…·×%½°µ${MISSING_MARK}`, face, FONTS)).toMatchObject({
        face,
        missing: [],
      });
    }
  });

  it('has Greek and Cyrillic in the serif face, and in the wide one for the condensed', () => {
    for (const face of FACE_NAMES) {
      expect(printable('Ώρα ñ λ Жанна я ї', face, FONTS).missing).toEqual([]);
    }
    expect(printable('Жанна', 'name', FONTS).face).toBe('name');
    expect(printable('Жанна', 'text', FONTS).face).toBe('wide');
    expect(printable('Жанна', 'boldSlant', FONTS).face).toBe('wideBold');
  });

  it('has figures of one width, and knows how far the ink of a letter reaches', () => {
    for (const face of FACE_NAMES) {
      const widths = [...'0123456789'].map((digit) => textWidthPt(digit, FONTS[face], 1));
      expect(new Set(widths).size).toBe(1);
      expect(FONTS[face].inkOf(0x20)).toBeNull();
    }
    const digit = FONTS.bold.inkOf('8'.codePointAt(0)!)!;
    expect(digit.top).toBeGreaterThan(0.65);
    expect(digit.bottom).toBeGreaterThan(-0.05);
    expect(FONTS.text.inkOf('g'.codePointAt(0)!)!.bottom).toBeLessThan(-0.15);
  });

  it('measures in proportion to the size, letter by letter', () => {
    const wide = textWidthPt('AVAT', FONTS.text, 20);
    expect(wide).toBeCloseTo(2 * textWidthPt('AVAT', FONTS.text, 10), 9);
    expect(wide).toBeCloseTo(
      [...'AVAT'].reduce((sum, each) => sum + textWidthPt(each, FONTS.text, 20), 0),
      9,
    );
  });
});

describe('printable', () => {
  it('composes a letter and its accent into one', () => {
    expect(printable('A\u030angstro\u0308m', 'text', FONTS)).toMatchObject({
      text: '\u00c5ngstr\u00f6m',
      missing: [],
    });
  });

  it('says which letters are missing and marks their place', () => {
    expect(printable('Kai 海 海底', 'text', FONTS)).toMatchObject({
      text: 'Kai ◊ ◊◊',
      missing: ['海', '底'],
    });
  });

  it('counts scripts that need joining as missing, though the font has the letters', () => {
    const withIt = { ...FONTS, text: { ...FONTS.text, advances: new Map([['ب'.codePointAt(0)!, 0.5]]) } };
    expect(printable('ب', 'text', withIt).missing).toEqual(['ب']);
  });

  it('takes line breaks and tabs for spaces', () => {
    expect(printable('North\n\tWall', 'text', FONTS).text).toBe('North  Wall');
  });
});

describe('setting text', () => {
  const style = { font: 'text', sizePt: 10 } as const;

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
