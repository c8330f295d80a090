import { describe, expect, it } from 'vitest';
import { nextLot } from '../../core/lesson/drawing-lots';
import { EXERCISE_KINDS, rulerOf, type Exercise } from '../../core/lesson/exercise';
import { singleExercises, type SingleKind } from '../../core/lesson/single-dive';

// Source: S. K. Park, K. W. Miller, "Random number generators: good ones are hard to find", Communications of the ACM
// 1988;31(10):1192-1201: begun with 1, the minimal standard gives 1043618065 as its 10 000th number after it. From memory,
// and met by this arithmetic, which no other multiplier or modulus meets.
describe('the generator of the exercises', () => {
  it('gives the published 10 000th number', () => {
    let lot = 1;
    for (let i = 0; i < 10_000; i += 1) lot = nextLot(lot);
    expect(lot).toBe(1_043_618_065);
  });
});

function find(kind: SingleKind, system: 'metric' | 'imperial', given: Exercise['given']): number | undefined {
  const all = singleExercises(kind, rulerOf(system), false);
  return all.find((each) => JSON.stringify(each.given) === JSON.stringify(given))?.answer.value;
}

// Source: encyclopaedia article "Equivalent air depth" (36 % at 27 m: 20 m); a nitrox club's formula page for
// (1.6 / 0.32 − 1) · 33 = 132 ft; the inverse of the MOD for 35 % at 30 m. Read in mirrors or computed, as
// test/published/mixes.test.ts says.
describe('exercises that were worked elsewhere', () => {
  const rows = [
    { kind: 'ead', system: 'metric', given: { oxygenPercent: 36, depth: 27 }, value: 20 },
    { kind: 'mod', system: 'imperial', given: { oxygenPercent: 32, po2Limit: 1.6 }, value: 132 },
    { kind: 'richest', system: 'metric', given: { depth: 30, po2Limit: 1.4 }, value: 35 },
  ] as const;
  it('have the answers that are printed there', () => {
    expect(rows.length).toBe(3);
    for (const { kind, system, given, value } of rows) expect(find(kind, system, given)).toBe(value);
  });
  it('are of kinds that a sheet asks for', () => {
    for (const { kind } of rows) expect(EXERCISE_KINDS).toContain(kind);
  });
});
