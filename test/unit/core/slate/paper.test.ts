import { describe, expect, it } from 'vitest';
import { assert } from '../../../../core/result';
import { labelSheet, LABEL_SIZES } from '../../../../core/slate/labels';
import { frameOf, imposition, placeOf, PT_PER_MM, readPaper } from '../../../../core/slate/paper';
import { fileWords } from '../../../../core/words/reader';
import { aPaper } from '../../../support/slates';

describe('readPaper', () => {
  it('knows the named papers, whatever their case', () => {
    expect(aPaper('a6')).toEqual({ name: 'A6', widthMm: 105, heightMm: 148 });
    expect(aPaper('Letter').widthMm).toBeCloseTo(215.9, 9);
    expect(aPaper('half letter').heightMm).toBeCloseTo(215.9, 9);
    expect(aPaper('4x6in').widthMm).toBeCloseTo(101.6, 9);
  });

  it('reads a free size in millimetres or inches', () => {
    expect(aPaper('90 x 160 mm')).toEqual({ name: '90x160mm', widthMm: 90, heightMm: 160 });
    expect(aPaper('4.5x7in').heightMm).toBeCloseTo(177.8, 9);
  });

  for (const text of ['', 'A7 or so', '0x100mm', '19x100mm', '100x700mm', '100x', '1e3x100mm', 'NaNxNaNmm']) {
    it(`refuses "${text}" and says what would do`, () => {
      const read = readPaper(text);
      assert(!read.ok, 'it was taken');
      expect(read.troubles[0].mend).toMatch(/A6|between/);
    });
  }
});

describe('frameOf', () => {
  const a6 = aPaper('A6');

  it('leaves the margin on every side', () => {
    const frame = frameOf(a6, 6, 'none', false);
    expect(frame.x).toBeCloseTo(6 * PT_PER_MM, 9);
    expect(frame.width).toBeCloseTo(93 * PT_PER_MM, 9);
    expect(frame.height).toBeCloseTo(136 * PT_PER_MM, 9);
  });

  it('leaves a strip more where the page is punched, on the other side on a back', () => {
    expect(frameOf(a6, 6, 'left', false).x).toBeCloseTo(18 * PT_PER_MM, 9);
    expect(frameOf(a6, 6, 'left', true).x).toBeCloseTo(6 * PT_PER_MM, 9);
    expect(frameOf(a6, 6, 'right', true).x).toBeCloseTo(18 * PT_PER_MM, 9);
    expect(frameOf(a6, 6, 'top', true)).toEqual(frameOf(a6, 6, 'top', false));
  });
});

describe('imposition', () => {
  it('lays as many as fit, turning the sheet where that takes more', () => {
    const four = imposition(aPaper('A6'), aPaper('A4'), fileWords);
    assert(four.ok, 'A6 on A4');
    expect([four.value.columns, four.value.rows]).toEqual([2, 2]);
    const two = imposition(aPaper('A5'), aPaper('A4'), fileWords);
    assert(two.ok, 'A5 on A4');
    expect([two.value.columns, two.value.rows]).toEqual([2, 1]);
    expect(two.value.sheet.widthMm).toBe(297);
  });

  it('refuses a sheet smaller than the page', () => {
    const none = imposition(aPaper('A4'), aPaper('A6'), fileWords);
    expect(none.ok).toBe(false);
  });

  it('counts along the rows, and on a back from the other side', () => {
    const how = imposition(aPaper('A6'), aPaper('A4'), fileWords);
    assert(how.ok, 'A6 on A4');
    const xOf = (index: number, isBack: boolean) => placeOf(index, aPaper('A6'), how.value, isBack).x;
    expect(xOf(0, false)).toBeLessThan(xOf(1, false));
    expect(xOf(0, true)).toBe(xOf(1, false));
    expect(xOf(1, true)).toBe(xOf(0, false));
  });
});

describe('labelSheet', () => {
  for (const name of LABEL_SIZES) {
    it(`keeps every ${name} label on its sheet`, () => {
      const paper = aPaper(name.endsWith('in') ? 'letter' : 'A4');
      const sheet = labelSheet(paper, aPaper(name))!;
      // The first is cut from plain paper, and lies near its head.
      expect(sheet.isStock).toBe(name !== LABEL_SIZES[0]);
      const right = sheet.leftMm + (sheet.columns - 1) * sheet.pitchXMm + sheet.label.widthMm;
      const bottom = sheet.topMm + (sheet.rows - 1) * sheet.pitchYMm + sheet.label.heightMm;
      expect(right).toBeLessThanOrEqual(paper.widthMm + 0.01);
      expect(bottom).toBeLessThanOrEqual(paper.heightMm + 0.01);
      // Stock lies in the middle of its sheet.
      expect(Math.abs(paper.widthMm - right - sheet.leftMm)).toBeLessThan(0.6);
      if (sheet.isStock) expect(Math.abs(paper.heightMm - bottom - sheet.topMm)).toBeLessThan(1.2);
    });
  }

  it('lays a size of one\u2019s own side by side near the head, to be cut', () => {
    expect(labelSheet(aPaper('A4'), aPaper('80x50mm'))).toMatchObject({
      columns: 2,
      rows: 5,
      leftMm: 25,
      topMm: 8,
      isStock: false,
    });
  });

  it('finds no place for a label larger than the paper', () => {
    expect(labelSheet(aPaper('A6'), aPaper('120x50mm'))).toBeNull();
  });
});
