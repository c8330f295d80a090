import { describe, expect, it } from 'vitest';
import type { Caution } from '../../../../../core/trip/ledger-types';
import { namesText, someNamesText, toldTogether } from '../../../../../renderer/places/days/told-together';

function caution(diverId: string | null, message: string, diveId: string | null = 'd1'): Caution {
  return { code: 'past-no-stop', severity: 'stop', diverId, diveId, message, source: 'common practice' };
}

describe('toldTogether', () => {
  it('tells once what several divers are told in the same words of the same dive', () => {
    const told = toldTogether([
      caution('a', 'Shorten it.'),
      caution('b', 'Turn.'),
      caution('c', 'Shorten it.'),
    ]);
    expect(told.map(({ diverIds }) => diverIds)).toEqual([['a', 'c'], ['b']]);
  });

  it('keeps dives apart, and the party from a diver', () => {
    const told = toldTogether([
      caution('a', 'Shorten it.', 'd1'),
      caution('a', 'Shorten it.', 'd2'),
      caution(null, 'Shorten it.', 'd1'),
    ]);
    expect(told.map(({ diverIds }) => diverIds)).toEqual([['a'], ['a'], []]);
  });

  it('loses none, and keeps their order', () => {
    const all = ['a', 'b', 'c'].flatMap((id) => [caution(id, 'One.'), caution(id, `Of ${id} alone.`)]);
    const told = toldTogether(all);
    expect(told.map(({ caution: { message } }) => message)).toEqual([
      'One.',
      'Of a alone.',
      'Of b alone.',
      'Of c alone.',
    ]);
    expect(told.flatMap(({ diverIds }) => diverIds)).toHaveLength(all.length);
  });
});

describe('namesText', () => {
  it('lists names as a sentence does', () => {
    expect(namesText(['Guide'])).toBe('Guide');
    expect(namesText(['Guide', 'Guest 1'])).toBe('Guide and Guest 1');
    expect(namesText(['Guide', 'Guest 1', 'Guest 2'])).toBe('Guide, Guest 1 and Guest 2');
  });
});

describe('someNamesText', () => {
  it('names up to four and counts more', () => {
    expect(someNamesText(['a'])).toBe('a');
    expect(someNamesText(['a', 'b', 'c', 'd'])).toBe('a, b, c and d');
    expect(someNamesText(['a', 'b', 'c', 'd', 'e'])).toBe('a, b, c and two more');
    expect(someNamesText(Array.from({ length: 12 }, (_, i) => `g${i}`))).toBe('g0, g1, g2 and nine more');
  });
});
