import { describe, expect, it } from 'vitest';
import { lotsFrom, LARGEST_SEED, nextLot } from '../../../../core/lesson/drawing-lots';
import { EXERCISE_KINDS, type Exercise } from '../../../../core/lesson/exercise';
import { exerciseSheet, LEVELS, MOST_QUESTIONS, type Level, type Sheet } from '../../../../core/lesson/sheet';
import { sheetWords } from '../../../../core/lesson/sheet-words';
import { assert } from '../../../../core/result';
import { formulaText } from '../../../../core/words/formula';

const SYSTEMS = ['metric', 'imperial'] as const;

function aSheet(seed: number, level: Level = 3, questions = 14, units: Sheet['units'] = 'metric'): Sheet {
  const made = exerciseSheet({ seed, level, questions, units });
  assert(made.ok, 'no sheet');
  return made.value;
}

/** Every sheet that is looked at: seeds in a row, all levels, both systems. */
const SHEETS = SYSTEMS.flatMap((units) =>
  LEVELS.flatMap((level) => Array.from({ length: 40 }, (_, i) => aSheet(i + 1, level, 20, units))),
);

/**
 * The tables once more, as numbers to look up by hand; what core/ has is held cell by cell in test/published.
 * Source: NOAA Diving Manual, limits of one exposure; U.S. Navy Diving Manual Revision 7, tables 9-7 and 9-8.
 */
const NOAA: Readonly<Record<string, number>> = {
  '0.6': 720, '0.7': 570, '0.8': 450, '0.9': 360, '1.0': 300, '1.1': 240, '1.2': 210, '1.3': 180, '1.4': 150,
}; // prettier-ignore
const LETTERS = 'ABCDEFGHIJKLMNOZ';
const TIMES: Readonly<Record<number, readonly number[]>> = {
  40: [12, 20, 27, 36, 44, 53, 63, 73, 84, 95, 108, 121, 135, 151, 163],
  50: [9, 15, 21, 28, 34, 41, 48, 56, 63, 71, 80, 89, 92],
  60: [7, 12, 17, 22, 28, 33, 39, 45, 51, 57, 63],
  70: [6, 10, 14, 19, 23, 28, 32, 37, 42, 47, 48],
  80: [5, 9, 12, 16, 20, 24, 28, 32, 36, 39],
  90: [4, 7, 11, 14, 17, 21, 24, 28, 31, 33],
  100: [4, 6, 9, 12, 15, 18, 21, 25],
  110: [3, 6, 8, 11, 14, 16, 19, 20],
  120: [3, 5, 7, 10, 12, 15],
  130: [2, 4, 6, 9, 11, 12],
};
const RESIDUAL: Readonly<Record<number, readonly number[]>> = {
  40: [13, 21, 29, 37, 45, 55, 64, 74, 85, 97, 109, 122, 136, 152, 169],
  50: [11, 17, 23, 29, 35, 42, 49, 57, 65, 73, 81, 90, 99, 109, 120],
  60: [9, 14, 19, 24, 29, 35, 40, 46, 52, 58, 65, 72, 79, 86, 93],
  70: [8, 12, 16, 20, 25, 29, 34, 39, 44, 49, 54, 59, 65, 71, 77],
  80: [7, 10, 14, 18, 22, 25, 29, 33, 38, 42, 46, 51, 55, 60, 65],
  90: [6, 9, 12, 16, 19, 22, 26, 29, 33, 37, 41, 44, 48, 52, 57],
  100: [5, 8, 11, 14, 17, 20, 23, 26, 30, 33, 36, 40, 43, 47, 50],
  110: [5, 8, 10, 13, 16, 18, 21, 24, 27, 30, 33, 36, 39, 42, 45],
  120: [5, 7, 9, 12, 14, 17, 19, 22, 24, 27, 30, 32, 35, 38, 41],
  130: [4, 6, 9, 11, 13, 15, 18, 20, 22, 25, 27, 30, 32, 35, 37],
};
/** Minutes at the surface to which a group holds, falling by one at each. */
const BANDS: Readonly<Record<string, readonly number[]>> = {
  A: [140],
  B: [76, 216],
  C: [55, 131, 271],
  D: [52, 107, 183, 323],
  E: [52, 104, 159, 235, 375],
  F: [52, 104, 157, 211, 288, 428],
  G: [52, 104, 157, 209, 263, 340, 480],
  H: [52, 104, 157, 209, 261, 316, 392, 532],
  I: [52, 104, 157, 209, 261, 313, 368, 444, 584],
  J: [52, 104, 157, 209, 261, 313, 366, 420, 496, 636],
  K: [52, 104, 157, 209, 261, 313, 366, 418, 472, 549, 689],
  L: [52, 104, 157, 209, 261, 313, 366, 418, 470, 524, 601, 741],
  M: [52, 104, 157, 209, 261, 313, 366, 418, 470, 522, 577, 653, 793],
  N: [52, 104, 157, 209, 261, 313, 366, 418, 470, 522, 574, 629, 705, 845],
  O: [52, 104, 157, 209, 261, 313, 366, 418, 470, 522, 574, 627, 681, 757, 898],
};

/** What an exercise comes to, by its numbers alone. Water a bar for 10 m or an atmosphere for 33 ft. */
function comesTo({ kind, given }: Exercise, step: number): number {
  const g = given as Readonly<Record<string, number>>;
  switch (kind) {
    case 'pressure':
      return g.depth === undefined ? (g.pressure! - 1) * step : g.depth / step + 1;
    case 'po2':
      return (g.oxygenPercent! / 100) * (g.depth! / step + 1);
    case 'mod':
      return ((100 * g.po2Limit!) / g.oxygenPercent! - 1) * step;
    case 'richest':
      return (100 * g.po2Limit!) / (g.depth! / step + 1);
    case 'ead':
      return ((g.depth! + step) * (100 - g.oxygenPercent!)) / 79 - step;
    case 'cns': {
      const share = (percent: number, depth: number, min: number): number =>
        (100 * min) / NOAA[((percent / 100) * (depth / step + 1)).toFixed(1)]!;
      const first = share(g.oxygenPercent1!, g.depth1!, g.min1!);
      return first * 0.5 ** (g.intervalMin! / 90) + share(g.oxygenPercent2!, g.depth2!, g.min2!);
    }
    case 'residual': {
      const times = TIMES[g.rowFsw1!]!;
      const group = times.findIndex((time) => g.min1! <= time);
      const fallen = BANDS[LETTERS[group]!]!.findIndex((end) => g.intervalMin! <= end);
      const left = RESIDUAL[g.rowFsw2!]![group - fallen]!;
      return g.min2 === undefined ? TIMES[g.rowFsw2!]!.at(-1)! - left : left + g.min2;
    }
  }
}

describe('exerciseSheet', () => {
  it('gives answers that come out of the numbers by plain formulas, for both systems, all levels and many seeds', () => {
    const seen = new Set<string>();
    for (const sheet of SHEETS) {
      const step = sheet.units === 'metric' ? 10 : 33;
      for (const exercise of sheet.exercises) {
        seen.add(exercise.kind);
        const exact = comesTo(exercise, step);
        // An EAD counts as whole from 0.05 below; all else is exact but for binary dust.
        const tolerance = exercise.kind === 'ead' ? 0.05 : 1e-6;
        const short = exercise.answer.value - exact;
        expect(short, JSON.stringify(exercise.given)).toBeGreaterThan(-1e-6);
        expect(short, JSON.stringify(exercise.given)).toBeLessThanOrEqual(tolerance);
      }
    }
    expect([...seen].toSorted()).toEqual([...EXERCISE_KINDS].toSorted());
  });

  it('keeps every dive within 1.6 of PO2, the depth of recreational diving and, in two dives, the no-stop limits', () => {
    for (const { units, exercises } of SHEETS) {
      const [step, deepest] = units === 'metric' ? [10, 40] : [33, 132];
      for (const { kind, given, answer } of exercises) {
        const g = given as Readonly<Record<string, number>>;
        if (g.depth !== undefined) expect(g.depth).toBeLessThanOrEqual(deepest);
        if (kind === 'mod') expect(answer.value).toBeLessThanOrEqual(deepest);
        if (kind === 'po2') expect(answer.value).toBeLessThanOrEqual(1.4);
        if (kind === 'ead')
          expect((g.oxygenPercent! / 100) * (g.depth! / step + 1)).toBeLessThanOrEqual(1.4 + 1e-9);
        if (kind === 'cns') expect(answer.value).toBeLessThanOrEqual(80);
        if (kind === 'residual') {
          const limit = TIMES[g.rowFsw2!]!.at(-1)!;
          expect(g.min1!).toBeLessThanOrEqual(TIMES[g.rowFsw1!]!.at(-1)!);
          expect(answer.value).toBeLessThanOrEqual(limit);
          expect(g.rowFsw2!).toBeLessThanOrEqual(g.rowFsw1!);
        }
        if (kind === 'cns') {
          // On their equivalent air depth in feet, read at the next deeper row; above 40 ft nothing here is too long.
          const isWithin = (percent: number, depth: number, min: number): boolean => {
            const fsw = ((depth / step) * 33 + 33) * ((100 - percent) / 79) - 33;
            const row = Object.keys(TIMES).find((each) => Number(each) >= fsw - 1e-9)!;
            return min <= TIMES[Number(row)]!.at(-1)!;
          };
          expect(isWithin(g.oxygenPercent1!, g.depth1!, g.min1!)).toBe(true);
          expect(isWithin(g.oxygenPercent2!, g.depth2!, g.min2!)).toBe(true);
        }
      }
    }
  });

  it('gives the same sheet for the same seed, and another for the next', () => {
    expect(aSheet(7)).toEqual(aSheet(7));
    const texts = Array.from({ length: 30 }, (_, i) => JSON.stringify(aSheet(i + 1).exercises));
    expect(new Set(texts).size).toBe(30);
    expect(aSheet(LARGEST_SEED).exercises.length).toBe(14);
  });

  it('asks nothing twice, and of each kind as many as the others or one more', () => {
    for (const sheet of SHEETS) {
      const asked = sheet.exercises.map(({ kind, given }) => `${kind} ${JSON.stringify(given)}`);
      expect(new Set(asked).size).toBe(MOST_QUESTIONS);
      const counts = EXERCISE_KINDS.map(
        (kind) => sheet.exercises.filter((each) => each.kind === kind).length,
      ).filter((count) => count > 0);
      expect(Math.max(...counts) - Math.min(...counts)).toBeLessThanOrEqual(1);
      expect(counts.length).toBe({ 1: 3, 2: 5, 3: 7 }[sheet.level]);
    }
  });

  it('shows each answer as exactly as it is', () => {
    for (const { exercises } of SHEETS) {
      for (const { answer } of exercises) {
        expect(Number(answer.value.toFixed(answer.decimals))).toBeCloseTo(answer.value, 9);
      }
    }
  });

  it('refuses a seed, level or count out of range, all at once', () => {
    const made = exerciseSheet({ seed: 0, level: 4 as Level, questions: 2.5, units: 'metric' });
    assert(!made.ok, 'refused');
    expect(made.troubles.map(({ where }) => where)).toEqual(['seed', 'level', 'questions']);
    expect(made.troubles[2]!.what).toBe('2.5 is no whole number from 1 to 20.');
  });
});

describe('a sheet in words', () => {
  it('writes a question, its working in one line and the decimal sign of the reader', () => {
    const words = sheetWords('metric', ',');
    const { asks, working } = aSheet(7, 3, 10).exercises[2]!;
    expect(words(asks)).toBe('A diver breathes EAN34 at 15 m. What is the PO2?');
    expect(formulaText(working, words)).toBe('0,34 × (15 / 10 + 1) = 0,34 × 2,5');
  });
});

describe('lotsFrom', () => {
  it('draws every thing about as often as any other', () => {
    const draw = lotsFrom(5);
    const counts = [0, 0, 0, 0, 0];
    for (let i = 0; i < 5000; i += 1) counts[draw([0, 1, 2, 3, 4])]! += 1;
    // 1000 each, with a standard deviation of 28; five of them.
    for (const count of counts) expect(Math.abs(count - 1000)).toBeLessThan(140);
    expect(nextLot(1)).toBe(16_807);
  });
});
