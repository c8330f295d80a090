import { describe, expect, it } from 'vitest';
import { fileWords } from '../../../../core/words/reader';
import { workingsOf } from '../../../../core/workings/all';
import { aDive, aLedger } from '../../../builders/trip';

/** How the second of two dives comes about by the table, when it begins so late. */
function stepsAt(startsAt: string): readonly (readonly [string, string])[] {
  const { divers, trip } = aLedger([
    aDive({ depthM: 18, bottomMin: 20 }),
    aDive({ depthM: 10, bottomMin: 15.5, startsAt }),
  ]);
  const entry = divers[0]!.entries[1]!;
  const asked = { trip, diverLedger: divers[0]!, words: fileWords };
  return workingsOf('secondOpinion', entry, asked).steps.map(({ label, value }) => [label, value]);
}

describe('the second opinion, worked out', () => {
  it('counts a dive under ten minutes after another as one with it, and says of what it is the sum', () => {
    const steps = stepsAt('2027-03-06T08:30');
    expect(steps[1]![0]).toBe('Surface interval');
    expect(Number.parseFloat(steps[1]![1])).toBeLessThan(10);
    const deepest = steps[2]!;
    expect(deepest[0]).toBe('Under 10 min it counts as one dive with that before; the deepest of them');
    expect(Number.parseFloat(deepest[1])).toBeGreaterThan(57);
    expect(steps).toContainEqual(['Row of the table', '60 fsw']);
    expect(steps).toContainEqual(['Group before the first of them', 'none: a first dive']);
    expect(steps).toContainEqual(['With 35.5 min of bottom time together, rounded up', '36 min']);
  });

  it('looks a later one up by itself', () => {
    const steps = stepsAt('2027-03-06T09:00');
    expect(steps).toContainEqual(['Row of the table', '35 fsw']);
    expect(steps.map(([label]) => label)).toContain('Group at the end of the interval');
    expect(steps.map(([label]) => label)).toContain('With 15.5 min of bottom time, rounded up');
  });
});
