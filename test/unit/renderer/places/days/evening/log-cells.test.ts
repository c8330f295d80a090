import { describe, expect, it } from 'vitest';
import { loggedValue, logState, type LogField } from '../../../../../../core/document/log';
import { fileWords } from '../../../../../../core/words/reader';
import { readCell } from '../../../../../../renderer/places/days/evening/log-cells';
import { aDive } from '../../../../../builders/trip';

const metric = { units: 'metric', clock: '24h' } as const;
const party = ['a', 'b'];
const dive = aDive({ startsAt: '2027-03-06T23:30', depthM: 18, bottomMin: 40 });

type Viewer = Parameters<typeof readCell>[4];

function after(text: string, field: LogField, by: string | null = 'a', viewer: Viewer = metric) {
  const change = readCell(text, field, dive, by, viewer);
  if (typeof change !== 'function') throw new Error(fileWords(change));
  return change(dive, party);
}
const value = (text: string, field: LogField, viewer: Viewer = metric) =>
  loggedValue(after(text, field, 'a', viewer), 'a', field).value;

describe('readCell', () => {
  it('reads figures in the units of the window, or in those behind them', () => {
    expect(value('18,4', 'depthM')).toBe(18.4);
    expect(value('60 ft', 'depthM')).toBeCloseTo(18.288, 9);
    expect(value('60', 'depthM', { units: 'imperial', clock: '12h' })).toBeCloseTo(18.288, 9);
    expect(value('1000 psi', 'endBar')).toBeCloseTo(68.9476, 4);
    expect(value('1:05', 'bottomMin')).toBe(65);
    expect(value('EAN31.8', 'o2')).toBe(0.318);
  });

  it('takes the time of day that lies nearest to the plan, over midnight too', () => {
    expect(value('23:41', 'startsAt')).toBe('2027-03-06T23:41');
    expect(value('0:10', 'startsAt')).toBe('2027-03-07T00:10');
  });

  it('takes letters in any cell: as planned, not dived, and why', () => {
    expect(logState(after('p', 'endBar'), 'a')).toBe('as-planned');
    expect(after('N', 'depthM').notDived).toEqual([{ by: 'a' }]);
    expect(after('n: ear', 'depthM').notDived).toEqual([{ by: 'a', reason: 'ear' }]);
    expect(after('n swell', 'startsAt', null).notDived).toEqual([{ reason: 'swell' }]);
  });

  it('says why it cannot read a cell', () => {
    for (const [text, field] of [
      ['25:00', 'startsAt'],
      ['deep', 'depthM'],
      ['4 bars', 'endBar'],
      ['p 3', 'endBar'],
      ['1,200', 'endBar'],
    ] as const) {
      const change = readCell(text, field, dive, 'a', metric);
      expect(typeof change, text).toBe('object');
    }
  });

  it('takes a figure back, and that a dive was missed', () => {
    const missed = { ...dive, notDived: [{ by: 'a' }] };
    const change = readCell('', 'depthM', missed, 'a', metric);
    if (typeof change !== 'function') throw new Error('not read');
    expect(change(missed, party)).toEqual(dive);
  });
});
