import { describe, expect, it } from 'vitest';
import { slateWords } from '../../../../core/slate/reading';
import { figure, said } from '../../../../core/words/said';
import { aDive, aDiver, aTrip } from '../../../builders/trip';
import { aPaper, layoutOf, wordsOf } from '../../../support/slates';

describe('slateWords', () => {
  it('give a limit of PO2 as the page does: as it is set', () => {
    expect(slateWords({ units: 'metric', clock: '24h' })(said`${figure('po2Limit', 1.405)}`)).toBe(
      '1.405 bar',
    );
    expect(slateWords({ units: 'imperial', clock: '24h' })(said`${figure('po2Limit', 1.4)}`)).toBe('1.4 bar');
  });

  it('give pressures as the page does: psi in tens, needed up, left down, and one system in a sentence', () => {
    const sentence = (bar: number) => said`${figure('pressureNeeded', bar)}, ${figure('pressureLeft', bar)}`;
    expect(slateWords({ units: 'imperial', clock: '24h' })(sentence(220))).toBe('3200 psi, 3190 psi');
    for (const units of ['metric', 'both'] as const) {
      expect(slateWords({ units, clock: '24h' })(sentence(219.5))).toBe('220 bar, 219 bar');
    }
  });

  it('names one minimum gas on a briefing, in its table and in its cautions', () => {
    const cylinder = { waterL: 10, fillBar: 90, reserveBar: 50 };
    const trip = aTrip([aDive({ depthM: 30 })], { party: [aDiver({ cylinder })] });
    const [page] = layoutOf(trip, { kind: 'briefing', paper: aPaper('A4'), units: 'imperial' }).pages;
    const lines = wordsOf(page!).split('\n');
    const minimum = /minimum gas of (\d+) psi/.exec(lines.join(' '))![1]!;
    expect(lines).toContain('min.');
    expect(lines).toContain(minimum);
    expect(Number(minimum) % 10).toBe(0);
  });
});
