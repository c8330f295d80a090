import { describe, expect, it } from 'vitest';
import { toldTogether } from '../../../../core/cautions/told-together';
import type { Caution } from '../../../../core/cautions/caution';
import { fileWords } from '../../../../core/words/reader';
import { said } from '../../../../core/words/said';

function caution(diverId: string | null, message: string, diveId: string | null = 'd1'): Caution {
  return {
    code: 'past-no-stop',
    severity: 'stop',
    diverId,
    diveId,
    says: said`${message}`,
    source: said`common practice`,
  };
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
    expect(told.map(({ caution: { says } }) => fileWords(says))).toEqual([
      'One.',
      'Of a alone.',
      'Of b alone.',
      'Of c alone.',
    ]);
    expect(told.flatMap(({ diverIds }) => diverIds)).toHaveLength(all.length);
  });
});
