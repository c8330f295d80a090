import { expect, it } from 'vitest';
import { fileWords } from '../../../../core/words/reader';
import { workingsOf } from '../../../../core/workings/all';
import { aDive, aDiver, aLedger } from '../../../builders/trip';

it('the 24 h clock adds up for a dive that with its stops lasts more than a day', () => {
  const { divers, trip } = aLedger([aDive({ depthM: 43, bottomMin: 90 })], {
    party: [aDiver({ gradient: { low: 0.2, high: 0.2 } })],
  });
  const [diverLedger] = divers;
  const [entry] = diverLedger!.entries;
  expect(entry!.surfacesMin - entry!.startMin).toBeGreaterThan(1440);
  const { steps, exact } = workingsOf('cns.day', entry!, {
    trip,
    diverLedger: diverLedger!,
    words: fileWords,
  });
  const sum = steps.reduce((all, { value }) => all + Number.parseFloat(value), 0);
  expect(sum / 100).toBeCloseTo(exact!, 4);
  expect(exact).toBe(entry!.cns.day);
});
