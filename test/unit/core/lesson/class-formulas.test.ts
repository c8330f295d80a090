import { runInNewContext } from 'node:vm';
import { describe, expect, it } from 'vitest';
import { classFormulas } from '../../../../core/lesson/class-formulas';
import { ledger } from '../../../../core/ledger/ledger';
import { CLASS_MIN, classTrip, type ClassLoop } from '../../../../core/mixes/class-dive';
import { richestMix } from '../../../../core/mixes/richest';
import { surroundingsOf } from '../../../../core/profile';
import { isBuilt, type Formula } from '../../../../core/words/formula';
import { fileWords } from '../../../../core/words/reader';
import { said } from '../../../../core/words/said';
import { aClassLoop, clocksByHand, onLoopByHand } from '../../../support/class-loop';

/** A formula with its numbers put in, as a sum for a machine that knows nothing of it. */
function sumOf(formula: Formula): string {
  return formula
    .map((term) => {
      if (!isBuilt(term)) return fileWords(said`${term}`);
      return term.is === 'fraction'
        ? `((${sumOf(term.over)}) / (${sumOf(term.under)}))`
        : `Math.pow(${sumOf(term.base)}, ${sumOf(term.power)})`;
    })
    .join(' ')
    .replaceAll('×', '*')
    .replaceAll('−', '-')
    .replaceAll('ln 2', 'Math.log(2)')
    .replaceAll(/ln (?=\()/g, 'Math.log');
}

function comesTo(formula: Formula): number {
  return runInNewContext(sumOf(formula), { Math }) as number;
}

const PERCENTS = [21, 28, 32, 36];
/** Of numbers put in with four digits each; minutes of a slow compartment and metres of a shallow depth lose most. */
const BY_HAND = { minutes: 0.05, rest: 0.004 };

function row(depthM: number, title: string, loop: ClassLoop | null = null) {
  const found = classFormulas({ depthM, percents: PERCENTS, loop }).rows.find(
    (each) => fileWords(each.title) === title,
  );
  if (found === undefined) throw new Error(`no row ${title}`);
  return found;
}

describe('classFormulas', () => {
  it('comes to each figure by the numbers that are put in, at every depth of the class', () => {
    for (let depthM = 9; depthM <= 42; depthM += 3) {
      for (const { title, mixes } of classFormulas({ depthM, percents: PERCENTS, loop: null }).rows) {
        for (const { put, exact } of mixes) {
          if (exact === null || put === null) continue;
          const name = fileWords(title);
          const tolerance =
            name === 'No-stop limit' ? BY_HAND.minutes * Math.max(1, exact / 60) : BY_HAND.rest;
          expect(Math.abs(comesTo(put) - exact), `${name} at ${depthM} m: ${sumOf(put)}`).toBeLessThan(
            tolerance,
          );
        }
      }
    }
  });

  it('has the figures of the ledger of that dive', () => {
    for (const depthM of [12, 26, 33]) {
      const trip = classTrip({ depthM, percents: PERCENTS, loop: null });
      const entries = ledger(trip).divers.map(({ entries: [entry] }) => entry!);
      const exact = (title: string) => row(depthM, title).mixes.map((each) => each.exact);
      const near = (got: readonly (number | null)[], wanted: readonly (number | null)[]) => {
        expect(got.length).toBe(wanted.length);
        for (const [at, value] of wanted.entries()) expect(got[at]).toBeCloseTo(value!, 9);
      };
      near(
        exact('PO2'),
        entries.map((entry) => entry.po2Bar),
      );
      near(
        exact('MOD'),
        entries.map((entry) => entry.modM),
      );
      near(
        exact('EAD'),
        entries.map((entry) => entry.eadM),
      );
      near(
        exact('No-stop limit'),
        entries.map((entry) => entry.noStopMin),
      );
      near(
        exact('CNS of 25 min'),
        entries.map((entry) => entry.cns.after),
      );
      near(
        exact('OTU of 25 min'),
        entries.map((entry) => entry.otu.dive),
      );
      const best = richestMix(depthM, entries[0]!.diver, trip, surroundingsOf(trip));
      expect(Math.min(exact('Richest mix')[0]!, entries[0]!.diver.maxO2)).toBeCloseTo(best.o2, 9);
      expect(Math.max(exact('Minimum gas')[0]!, 50)).toBeCloseTo(entries[0]!.gas.minimumBar!, 6);
    }
  });

  it('rounds what comes out to the careful side, and says where a ceiling or a reserve holds', () => {
    expect(row(26, 'PO2').mixes.map(({ result }) => fileWords(result))).toEqual([
      '0.76 bar',
      '1.02 bar',
      '1.16 bar',
      '1.31 bar',
    ]);
    expect(row(26, 'MOD').mixes.map(({ result }) => fileWords(result))).toEqual([
      '56 m',
      '39 m',
      '33 m',
      '28 m',
    ]);
    expect(fileWords(row(10, 'Richest mix').mixes[0]!.result)).toBe('40 %, no more than the ceiling');
    expect(fileWords(row(9, 'Minimum gas').mixes[0]!.result)).toMatch(/bar/);
  });

  it('has no CNS figure where the PO2 is above the last limit', () => {
    expect(fileWords(row(42, 'CNS of 25 min').mixes[3]!.result)).toBe('no figure');
  });

  const LOOPS = [
    aClassLoop(),
    aClassLoop({ switchM: 20, diluentPercent: 32 }),
    aClassLoop({ switchM: 2, highBar: 1.5 }),
  ];

  it('comes to each figure of a loop by the numbers that are put in', () => {
    let seen = 0;
    for (const loop of LOOPS) {
      for (let depthM = 3; depthM <= 42; depthM += 3) {
        for (const { title, loop: putIn } of classFormulas({ depthM, percents: [21, 32], loop }).rows) {
          if (putIn === null || putIn.put === null || putIn.exact === null) continue;
          seen += 1;
          const { put, exact } = putIn;
          const name = fileWords(title);
          const tolerance =
            name === 'No-stop limit' ? BY_HAND.minutes * Math.max(1, exact / 60) : BY_HAND.rest;
          expect(Math.abs(comesTo(put) - exact), `${name} at ${depthM} m: ${sumOf(put)}`).toBeLessThan(
            tolerance,
          );
        }
      }
    }
    expect(seen).toBeGreaterThan(200);
  });

  it('has the figures of a loop that small steps come to', () => {
    for (const loop of LOOPS.slice(0, 2)) {
      for (const depthM of [22, 26]) {
        const exact = (title: string) => row(depthM, title, loop).loop!.exact!;
        const steady = onLoopByHand(loop, depthM, 0.05, 0.8);
        const clocks = clocksByHand(loop, depthM, CLASS_MIN, 0.05);
        expect(exact('PO2')).toBeCloseTo(steady.po2Bar, 9);
        expect(exact('EAD')).toBeCloseTo(steady.eadM, 9);
        expect(Math.abs(exact('No-stop limit') - steady.noStopMin)).toBeLessThan(0.03);
        expect(exact('CNS of 25 min')).toBeCloseTo(clocks.cns, 3);
        expect(exact('OTU of 25 min')).toBeCloseTo(clocks.otu, 1);
      }
    }
  });

  it('says of a loop why its PO2 is not the setpoint, and why a figure is not there', () => {
    const result = (depthM: number, title: string, loop = aClassLoop()) =>
      fileWords(row(depthM, title, loop).loop!.result);
    expect(result(26, 'PO2')).toBe('1.20 bar');
    expect(result(3, 'PO2', LOOPS[2])).toBe('1.26 bar, as 1.5 is not reached there');
    expect(result(15, 'PO2', LOOPS[1])).toBe('0.79 bar, as the diluent is richer than 0.7 there');
    expect(result(26, 'MOD')).toBe('56 m, of the diluent');
    expect(result(6, 'EAD')).toBe('none: less nitrogen than air has at the surface');
    for (const title of ['Richest mix', 'Minimum gas']) {
      expect(row(26, title, aClassLoop()).loop!.put).toBeNull();
      expect(result(26, title)).toMatch(/^none: /);
    }
    expect(
      classFormulas({ depthM: 26, percents: PERCENTS, loop: null }).rows.every(({ loop }) => loop === null),
    ).toBe(true);
  });
});
