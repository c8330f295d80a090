import { describe, expect, it } from 'vitest';
import {
  firstLinePx,
  nitrogenText,
  titleHeightPx,
  titleLines,
} from '../../../../../../renderer/places/days/strip/title-lines';

const FLY = 'no flying before Sat 20, 10:20';

describe('titleLines', () => {
  const text = nitrogenText('Guest 2', false);

  it('is one line where words and the moment of flying stand beside each other', () => {
    expect(titleLines(text, FLY, 1100, 1200, 1)).toBe(1);
    expect(titleLines(text, FLY, null, 700, 1)).toBe(1);
  });

  it('is two where the moment is written over the words', () => {
    expect(titleLines(text, FLY, 650, 1200, 1)).toBe(2);
    expect(titleLines(text, FLY, 300, 1200, 1)).toBe(2);
    expect(titleLines(nitrogenText('A guest of a very long name indeed', false), FLY, 750, 832, 1)).toBe(2);
  });

  it('is two where the words are longer than the page, as with doubled text', () => {
    expect(titleLines(text, '', null, 500, 1)).toBe(2);
    expect(titleLines(text, FLY, 1000, 1104, 2)).toBe(2);
  });

  it('keeps the first line inside the title', () => {
    for (const lines of [1, 2] as const) expect(firstLinePx(lines)).toBeLessThan(titleHeightPx(lines));
  });
});

describe('nitrogenText', () => {
  it('says whose it is, and why theirs where nobody is chosen', () => {
    expect(nitrogenText('Guest 2', true)).toBe(
      'leading compartment of Guest 2, from rest to its limit at the surface',
    );
    expect(nitrogenText('Guest 2', false)).toContain('Guest 2, who has the least room,');
  });
});
