import { describe, expect, it } from 'vitest';
import { linesOf, shortened } from '../../../../core/slate/broken-lines';

/** A line of so many letters. */
const upTo =
  (letters: number) =>
  (part: string): boolean =>
    part.length <= letters;

describe('linesOf', () => {
  it('breaks at spaces, and never between a figure and its unit', () => {
    expect(linesOf('leave 3 h 09 min to spare', upTo(10))).toEqual(['leave', '3 h 09 min', 'to spare']);
    expect(linesOf('at 18 m with 32 %', upTo(5))).toEqual(['at', '18 m', 'with', '32 %']);
  });

  it('breaks what was to hold together where it is too wide, the minutes of a stop still by their unit', () => {
    expect(linesOf('20–10:\u00a05\u00a0min', upTo(13))).toEqual(['20–10: 5 min']);
    expect(linesOf('20–10:\u00a05\u00a0min', upTo(9))).toEqual(['20–10:', '5 min']);
    expect(linesOf('20–10:\u00a05\u00a0min', upTo(4))).toEqual(['20–1', '0: 5', 'min']);
  });

  it('breaks a word that is wider than the line wherever it must', () => {
    expect(linesOf('lighthouse', upTo(4))).toEqual(['ligh', 'thou', 'se']);
  });
});

describe('shortened', () => {
  it('cuts in the middle of a word and says so', () => {
    expect(shortened('below the lighthouse', upTo(12))).toBe('below the l…');
  });
});
