import { describe, expect, it } from 'vitest';
import { compareMixes, compareSites } from '../../../../../core/mixes/compare';
import { demoTrip } from '../../../../../core/document/demo-trip';
import { ledger } from '../../../../../core/ledger/ledger';
import {
  gainText,
  moneyText,
  noStopText,
  richestText,
  roomText,
  whyText,
} from '../../../../../renderer/places/mixes/mixes-words';
import { shownMin, sortedRows } from '../../../../../renderer/places/mixes/site-sort';

const trip = demoTrip();
const rows = compareSites(ledger(trip), compareMixes(trip));

describe('sortedRows', () => {
  it('sorts by name, depth, richest and any mix, both ways', () => {
    const names = sortedRows(rows, 'site', false, true).map(({ site }) => site.name);
    expect(names).toEqual(names.toSorted((a, b) => a.localeCompare(b)));
    const numbered = rows.map((row, at) => ({
      ...row,
      site: { ...row.site, name: `Site ${rows.length * 2 - at}` },
    }));
    const inOrder = sortedRows(numbered, 'site', false, true).map(({ site }) => Number(site.name.slice(5)));
    expect(inOrder).toEqual(inOrder.toSorted((a, b) => a - b));
    expect(Math.max(...inOrder)).toBeGreaterThan(9);
    const depths = sortedRows(rows, 'depth', true, true).map(({ site }) => site.depthM);
    expect(depths).toEqual(depths.toSorted((a, b) => b - a));
    const shares = sortedRows(rows, 'richest', false, true).map(({ richest }) => richest.o2);
    expect(shares).toEqual(shares.toSorted((a, b) => a - b));
    for (const inTrip of [true, false]) {
      const id = trip.mixes.at(-1)!.id;
      const times = sortedRows(rows, `mix:${id}`, false, inTrip).map((row) =>
        shownMin(
          row.cells.find(({ mix }) => mix.id === id)!,
          inTrip,
        ),
      );
      expect(times).toEqual(times.toSorted((a, b) => a - b));
    }
  });
  it('keeps all rows and leaves the document alone', () => {
    const before = rows.map(({ site }) => site.id);
    expect(new Set(sortedRows(rows, 'depth', true, false)).size).toBe(rows.length);
    expect(rows.map(({ site }) => site.id)).toEqual(before);
  });
});

describe('the words of the place', () => {
  it('rounds limits down and says what has no end', () => {
    expect(noStopText({ min: 33.9, unlimited: false })).toBe('33 min');
    expect(noStopText({ min: null, unlimited: true })).toBe('no limit');
    expect(noStopText(null)).toBe('–');
    expect(roomText(-0.2)).toBe('−1 min');
    expect(roomText(null)).toBe('no limit');
    expect(roomText(Number.NEGATIVE_INFINITY)).toBe('past');
    expect(gainText(12.9)).toBe('+12');
    expect(gainText(null)).toBe('');
  });
  it('names money and the richest mix', () => {
    expect(moneyText(640)).toBe('640');
    expect(moneyText(622.5)).toBe('622.50');
    expect(moneyText(12_622.5, '€')).toBe('€12\u202F622.50');
    expect(moneyText(796, 'EUR')).toBe('EUR\u00A0796');
    const richest = { o2: 0.3489, tenthO2: 0.348, percent: 34, limit: 'po2', reachesWithAir: true } as const;
    expect(richestText(richest)).toBe('34.8 %, so 34 %');
    expect(richestText({ ...richest, tenthO2: 0.34 })).toBe('34 %');
    expect(richestText({ ...richest, reachesWithAir: false })).toBe('not even air');
  });
  it('says why not in the units of the window, the MOD rounded down', () => {
    const diver = { ...trip.party[0]!, name: 'Guide' };
    expect(whyText({ kind: 'mod', diver, modM: 33.9 }, 'metric')).toBe('MOD 33 m for Guide');
    expect(whyText({ kind: 'mod', diver, modM: 33.9 }, 'imperial')).toBe('MOD 111 ft for Guide');
    expect(whyText({ kind: 'ceiling', diver, maxO2: 0.36 }, 'metric')).toBe('above the 36 % of Guide');
  });
});
