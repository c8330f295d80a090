import { describe, expect, it } from 'vitest';
import {
  FILE_READER,
  fileWords,
  inOneSystem,
  pageReader,
  shown,
  worded,
  wordsOf,
  type Reader,
} from '../../../../core/words/reader';
import {
  bare,
  cylinder,
  either,
  figure,
  inRow,
  isNothing,
  listed,
  mostCareful,
  named,
  NOTHING,
  range,
  said,
  saysSame,
  sentences,
  subject,
  typed,
  usual,
  worked,
  type Said,
} from '../../../../core/words/said';
import {
  countSaid,
  divesSaid,
  mixSaid,
  moneyFigure,
  moneySaid,
  ordinalSaid,
  someSaid,
} from '../../../../core/words/terms';

const METRIC = pageReader('metric');
const IMPERIAL = pageReader('imperial');
const BOTH = pageReader('both');
const WINDOW: Reader = {
  ...METRIC,
  dates: 'day',
  signs: { decimal: ',', minus: '\u2212' },
  nameOf: ({ id }) => said`the ${id}`,
};

describe('a figure in a sentence', () => {
  const sentence = said`It is ${figure('depthMet', 30.01)} deep, at ${figure('po2Met', 1.391)}.`;

  it('is in the units and signs of the reader', () => {
    expect(wordsOf(METRIC)(sentence)).toBe('It is 30.1 m deep, at 1.40 bar.');
    expect(wordsOf(IMPERIAL)(sentence)).toBe('It is 99 ft deep, at 1.40 bar.');
    expect(wordsOf(WINDOW)(sentence)).toBe('It is 30,1 m deep, at 1,40 bar.');
  });

  it('is told in both systems to who has both, where they differ', () => {
    expect(wordsOf(BOTH)(sentence)).toBe('It is 30.1 m / 99 ft deep, at 1.40 bar.');
    expect(wordsOf(inOneSystem(BOTH))(sentence)).toBe('It is 30.1 m deep, at 1.40 bar.');
    expect(inOneSystem(IMPERIAL)).toBe(IMPERIAL);
  });

  it('is a dash where there is none', () => {
    expect(wordsOf(BOTH)(said`${figure('depthMet', null)} ${bare('minutesLeft', null)}`)).toBe(
      '\u2013 \u2013',
    );
    expect(shown(figure('depthMet', null), METRIC)).toEqual([{ value: '\u2013', unit: '' }]);
  });

  it('leaves its unit out where the head says it', () => {
    expect(wordsOf(BOTH)(said`${bare('depthMet', 30)}`)).toBe('30 / 99');
    expect(shown(figure('depthMet', 30), BOTH)).toEqual([
      { value: '30', unit: 'm' },
      { value: '99', unit: 'ft' },
    ]);
  });

  it('is a cylinder by its water, or the gas it holds when full', () => {
    const twelve = said`${cylinder({ waterL: 12, fillBar: 200 })}`;
    expect([METRIC, IMPERIAL, BOTH].map((reader) => wordsOf(reader)(twelve))).toEqual([
      '12 L',
      '85 cu ft',
      '12 L / 85 cu ft',
    ]);
    expect(wordsOf(METRIC)(said`${cylinder({ waterL: 11.1, fillBar: 200 })}`)).toBe('11.1 L');
  });

  it('of a calculation has all its digits, in the units of the formula', () => {
    expect(wordsOf(WINDOW)(said`${worked(1.5, 4)} bar`)).toBe('1,5000 bar');
    expect(fileWords(said`${worked(-0.00001, 2)}`)).toBe('0.00');
  });

  it('counts as it stands', () => {
    expect(wordsOf(WINDOW)(said`${1200} dives`)).toBe('1200 dives');
  });
});

describe('what was typed', () => {
  it('stands in a file as it is stored, shares as fractions', () => {
    expect(fileWords(said`${typed('depth', 18.25)}, ${typed('share', 0.32)}, ${typed('plain', -95)}`)).toBe(
      '18.25 m, 0.32, -95',
    );
    expect(fileWords(said`${range('pressure', 20, 350)}; ${range('share', 0, 0.05)}`)).toBe(
      '20 to 350 bar; 0 to 0.05',
    );
    expect(
      fileWords(
        said`${usual('cylinder', [12], [80])}, ${usual('gas-rate', [15, 20], [0.5, 0.7])}, ${usual('share', [0.5], [0.5])}`,
      ),
    ).toBe('12 L, 15 to 20 L/min, 0.5');
  });

  it('stands on a page as a field has it', () => {
    expect(wordsOf(METRIC)(said`${typed('share', 0.315)}; ${range('depth', 1, 100)}`)).toBe(
      '31.5 %; 1 to 100 m',
    );
    expect(wordsOf(IMPERIAL)(said`${range('depth', 1, 100)}; ${usual('pressure', [200], [3000])}`)).toBe(
      '4 to 328 ft; 3000 psi',
    );
    expect(
      wordsOf(METRIC)(said`${usual('share', [0.29], [0.29])}; ${usual('gas-rate', [15, 20], [0.5, 0.7])}`),
    ).toBe('29 %; 15 to 20 L/min');
  });

  it('is a cylinder of so much water, or of the gas it holds when full', () => {
    const sentence = said`${typed('cylinder', 12)}, ${usual('cylinder', [12], [80])}`;
    expect(wordsOf(METRIC)(sentence)).toBe('12 L, 12 L');
    expect(wordsOf(IMPERIAL)(sentence)).toBe('12 L of water, 80 cu ft');
    expect(wordsOf({ ...IMPERIAL, fillBar: 200 })(sentence)).toBe('84.8 cu ft, 80 cu ft');
    expect(wordsOf({ ...IMPERIAL, fillBar: 200 })(said`${range('cylinder', 1, 60)}`)).toBe(
      '7.1 to 423.7 cu ft',
    );
  });
});

describe('what is called by its id', () => {
  const sentence = said`${subject('dive', 'd9')} starts while ${named('diver', 'g1')} is ${either(said`in "divers"`, said`on it`)}.`;

  it('in a file is so', () => {
    expect(fileWords(sentence)).toBe('It starts while "g1" is in "divers".');
  });

  it('has a name before the window, large where it begins a sentence', () => {
    expect(wordsOf(WINDOW)(sentence)).toBe('The d9 starts while the g1 is on it.');
  });

  it('goes for both halves of a trouble', () => {
    expect(worded({ what: said`No.`, mend: said`${named('site', 's')}` }, fileWords)).toEqual({
      what: 'No.',
      mend: '"s"',
    });
  });
});

describe('things in a row', () => {
  const list = (...things: string[]): string => fileWords(said`${listed(things)}`);

  it('are joined by commas and a word', () => {
    expect([list(), list('a'), list('a', 'b'), list('a', 'b', 'c')]).toEqual([
      '',
      'a',
      'a and b',
      'a, b and c',
    ]);
    expect(fileWords(said`${listed(['a', 'b', 'c'], 'or')}`)).toBe('a, b or c');
    expect(fileWords(said`${listed(['a', 'b'], 'or')}`)).toBe('a or b');
  });

  it('pass over what says nothing', () => {
    expect(fileWords(said`${inRow(['a', '', NOTHING, said`b`])}`)).toBe('a, b');
    expect(fileWords(sentences([said`A.`, NOTHING, said`B.`]))).toBe('A. B.');
    expect([
      isNothing(NOTHING),
      isNothing(said`a`),
      isNothing(said`${'a'}`),
      fileWords(said`${inRow([])}`),
    ]).toEqual([true, false, false, '']);
  });

  it('are named as far as three, and counted beyond', () => {
    const some = (...names: string[]): string => fileWords(said`${someSaid(names)}`);
    expect([some('a', 'b', 'c'), some('a', 'b', 'c', 'd'), some('a', 'b', 'c', 'd', 'e')]).toEqual([
      'a, b and c',
      'a, b, c and d',
      'a, b, c and two more',
    ]);
  });
});

describe('sentences that read the same', () => {
  const about = (m: number, bar: number): Said =>
    said`${figure('depthMet', m)} and ${said`${figure('pressureLeft', bar)} left`}`;

  it('have the same words and figures that print alike', () => {
    expect(saysSame(about(30.01, 43.9), about(30.02, 43.2))).toBe(true);
    expect(saysSame(about(30.01, 43.9), about(30.11, 43.9))).toBe(false);
    expect(saysSame(about(30.01, 43.9), said`${figure('depthMet', 30.01)} or so`)).toBe(false);
    expect(saysSame(said`${'Guest 1'}`, said`${'Guest 2'}`)).toBe(false);
    expect(saysSame(said`${figure('depthMet', null)}`, said`${figure('depthMet', null)}`)).toBe(true);
    expect(saysSame(said`${figure('depthMet', null)}`, said`${figure('depthMet', 1)}`)).toBe(false);
    expect(saysSame(said`${figure('depthMet', 1)}`, said`${figure('depthSet', 1)}`)).toBe(false);
    expect(saysSame(said`${figure('depthMet', 1)}`, said`${bare('depthMet', 1)}`)).toBe(false);
    expect(saysSame(said`${named('dive', 'a')}`, said`${named('dive', 'b')}`)).toBe(false);
    expect(saysSame(said`${named('dive', 'a')}`, said`${named('dive', 'a')}`)).toBe(true);
    expect(saysSame(said`${3}`, said`${'3'}`)).toBe(false);
    expect(saysSame(said`a ${'x'}`, said`a ${'x'} ${'y'}`)).toBe(false);
  });

  it('also after they were sent to another thread', () => {
    expect(saysSame(about(30, 43), structuredClone(about(30, 43)))).toBe(true);
    expect(saysSame(said`a`, structuredClone(said`b`))).toBe(false);
  });

  it('are told with the most careful of their figures, which feet and psi may print apart', () => {
    const careful = mostCareful(about(30.01, 43.9), about(30.02, 43.2));
    expect(careful.pieces).toEqual([
      figure('depthMet', 30.02),
      { ...said`${figure('pressureLeft', 43.2)} left` },
    ]);
    const none = said`${figure('depthMet', null)}`;
    expect(mostCareful(none, said`${figure('depthMet', 1)}`)).toEqual(none);
  });
});

describe('the glossary', () => {
  const words = (sentence: Said): string => fileWords(sentence);

  it('has one name for a mix, with the decimals it has', () => {
    expect([0.21, 0.32, 0.317, 0.3249, 0.2096, 0.209999999].map((o2) => words(mixSaid(o2)))).toEqual([
      'Air',
      'EAN32',
      'EAN31.7',
      'EAN32.49',
      'EAN20.96',
      'Air',
    ]);
  });

  it('tells money in hundredths where there are any', () => {
    expect([12, 12.5, 12.004, 12.345].map((cost) => words(said`${moneyFigure(cost)}`))).toEqual([
      '12',
      '12.50',
      '12',
      '12.35',
    ]);
  });

  it('tells money in the currency of the trip, thousands apart but in a file', () => {
    const page = wordsOf(pageReader('metric'));
    const told = [7, 999.5, 1000, 12_622.5, 1_234_567].map((cost) => page(said`${moneySaid(cost, '€')}`));
    expect(told).toEqual(['€7', '€999.50', '€1\u202F000', '€12\u202F622.50', '€1\u202F234\u202F567']);
    expect(page(said`${moneySaid(1240, 'EUR')}`)).toBe('EUR\u00A01\u202F240');
    expect(page(said`${moneySaid(1240)}`)).toBe('1\u202F240');
    expect(words(said`${moneySaid(1240, 'US$')}`)).toBe('US$1240');
    const comma = wordsOf({ ...pageReader('metric'), signs: { decimal: ',', minus: '-', thousands: ' ' } });
    expect(comma(said`${moneySaid(-12_622.5, '€')}`)).toBe('€-12 622,50');
  });

  it('counts in words', () => {
    expect([0, 1, 12, 13].map((n) => words(said`${countSaid(n)}`))).toEqual(['no', 'one', 'twelve', '13']);
    expect([1, 3, 8, 11].map((n) => words(ordinalSaid(n)))).toEqual(['first', 'third', 'eighth', '11th']);
    expect([0, 1, 4].map((n) => words(divesSaid(n)))).toEqual(['no dives', '1 dive', '4 dives']);
  });
});

describe('another language', () => {
  const language = (text: string): string =>
    ({
      '{0} is below {1}': 'unter {1} liegt {0}',
      It: 'Es',
      '{0} and {1}': '{0} und {1}',
      Sat: 'Sa',
      Mar: 'Mär',
    })[text] ?? text;
  const reader = pageReader('imperial', language);

  it('is a reader: whole sentences are looked up, and may have another order', () => {
    expect(wordsOf(reader)(said`${figure('depthMet', 30)} is below ${figure('depthLimit', 20)}`)).toBe(
      'unter 65 ft liegt 99 ft',
    );
    expect(
      wordsOf({ ...FILE_READER, language })(said`${subject('dive', 'd')}: ${listed(['and', 'b'])}`),
    ).toBe('Es: and und b');
  });

  it('has its own names of days and months', () => {
    expect(wordsOf(reader)(said`${{ is: 'day', day: '2027-03-06' }}`)).toBe('Sa 6 Mär 2027');
  });

  it('leaves names alone, whatever stands in them', () => {
    expect(wordsOf(pageReader('metric', () => 'x'))(said`${'It {0}'}`)).toBe('It {0}');
  });

  it('knows more than ten figures in a sentence', () => {
    const twelve = said`${1}${2}${3}${4}${5}${6}${7}${8}${9}${10}${11}, ${12}`;
    expect(wordsOf(pageReader('metric', (text) => text))(twelve)).toBe(wordsOf(METRIC)(twelve));
  });
});
