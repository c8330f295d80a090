import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { cautionsOf, RULES } from '../../../../core/cautions/all';
import { demoTrip } from '../../../../core/document/demo-trip';
import { fileWords, pageReader, wordsOf } from '../../../../core/words/reader';
import { wordedCautions } from '../../../support/cautions';
import { ledger } from '../../../../core/ledger/ledger';
import { aDive, aDiver, aLedger } from '../../../builders/trip';

const TWO = { party: [aDiver(), aDiver({ id: 'guest-2', name: 'Guest 2' })] };

describe('RULES', () => {
  it('has a file for every rule, named after its code', () => {
    const files = readdirSync(new URL('../../../../core/cautions/', import.meta.url));
    for (const { code } of RULES) expect(files).toContain(`${code}.ts`);
    expect(new Set(RULES.map((rule) => rule.code)).size).toBe(RULES.length);
  });

  it('names a source for each', () => {
    for (const { source } of RULES) expect(fileWords(source)).toMatch(/common practice|\d{4}|Manual/);
  });
});

describe('cautionsOf', () => {
  it('leaves a well-planned week with little to know and nothing to change', () => {
    const cautions = cautionsOf(ledger(demoTrip()));
    expect(cautions.map((caution) => caution.severity)).toEqual(cautions.map(() => 'know'));
    expect(cautions.length).toBeLessThanOrEqual(5);
  });

  it('says once for the party what is the same for all on the dive', () => {
    const alike = cautionsOf(aLedger([aDive({ depthM: 30, bottomMin: 10, mix: 'rich' })], TWO));
    expect(alike.filter((caution) => caution.code === 'below-mod').map((caution) => caution.diverId)).toEqual(
      [null],
    );
  });

  it('keeps apart what differs, and what concerns only some', () => {
    const strict = aDiver({ id: 'guest-2', name: 'Guest 2', gradient: { low: 0.3, high: 0.7 } });
    const differing = cautionsOf(
      aLedger([aDive({ depthM: 30, bottomMin: 40 })], { party: [aDiver(), strict] }),
    );
    expect(differing.filter((c) => c.code === 'past-no-stop').map((c) => c.diverId)).toEqual([
      'guest-1',
      'guest-2',
    ]);
    const trained = aDiver({ id: 'guest-2', name: 'Guest 2', maxDepthM: 60 });
    const some = cautionsOf(aLedger([aDive({ depthM: 41, bottomMin: 3 })], { party: [aDiver(), trained] }));
    expect(some.filter((c) => c.code === 'deeper-than-diver').map((c) => c.diverId)).toEqual(['guest-1']);
  });

  it('puts a finding together where all who are on the dive share it, and the rest of the party is not', () => {
    const dive = aDive({ depthM: 30, bottomMin: 10, mix: 'rich', divers: ['guest-1', 'guest-2'] });
    const party = [...TWO.party, aDiver({ id: 'guide', name: 'Guide' })];
    const found = cautionsOf(aLedger([dive], { party })).filter((c) => c.code === 'below-mod');
    expect(found.map((c) => c.diverId)).toEqual([null]);
  });

  it('puts stop before change before know, and earlier before later', () => {
    const dives = [
      aDive({ depthM: 9, startsAt: '2027-03-06T08:00' }),
      aDive({ depthM: 30, bottomMin: 10, startsAt: '2027-03-06T08:40' }),
      aDive({ depthM: 30, bottomMin: 60, startsAt: '2027-03-06T12:00' }),
    ];
    const cautions = cautionsOf(aLedger(dives));
    const rank = { stop: 0, change: 1, know: 2 };
    const ranks = cautions.map((caution) => rank[caution.severity]);
    expect(ranks).toEqual(ranks.toSorted((a, b) => a - b));
    expect(new Set(ranks).size).toBe(3);
    const changes = cautions
      .filter((caution) => caution.severity === 'change')
      .map((caution) => caution.diveId);
    expect(changes.slice(0, 2)).toEqual([dives[1]!.id, dives[1]!.id]);
  });

  it('speaks feet and psi where asked, still to the careful side', () => {
    const cylinder = { waterL: 12, fillBar: 200, reserveBar: 120 };
    const imperial = wordedCautions(
      aLedger([aDive({ depthM: 30.48, bottomMin: 19, mix: 'rich' })], { party: [aDiver({ cylinder })] }),
      wordsOf(pageReader('imperial')),
    );
    const message = (code: string) => imperial.find((caution) => caution.code === code)!.message;
    // MOD of 36 %: 28.756 m = 94.3 ft; 100 ft is 30.48 m exactly; 120 bar = 1740.5 psi.
    expect(message('below-mod')).toContain('100 ft is below the MOD of 94 ft');
    expect(message('below-reserve')).toContain('reserve of 1750 psi');
  });

  it('tells no one to mend a dive that was dived', () => {
    const dived = aDive({ depthM: 30, bottomMin: 10, mix: 'rich', asDived: [{ depthM: 31, bottomMin: 35 }] });
    const cautions = wordedCautions(aLedger([dived]));
    const message = (code: string) => cautions.find((caution) => caution.code === code)!.message;
    expect(message('below-mod')).toMatch(/^31 m is below .* 1\.4 bar\. It was dived so: .* medical advice/);
    expect(message('past-no-stop')).toMatch(/^35 min .*\. It was dived so: /);
    expect(cautions.find((caution) => caution.code === 'past-no-stop')!.severity).toBe('stop');
  });

  it('still tells to mend a dive whose cylinder was only analysed', () => {
    const analysed = aDive({ depthM: 30, bottomMin: 10, mix: 'rich', asDived: [{ o2: 0.37 }] });
    const found = wordedCautions(aLedger([analysed])).find(
      (caution) => caution.code === 'below-mod-analysed',
    )!;
    expect(found.message).toContain(': stay above it, or take a mix of 34 % or less.');
  });

  it('is worked out once for a ledger, whoever reads it', () => {
    const whole = aLedger([aDive({ depthM: 41, bottomMin: 3 })], TWO);
    expect(cautionsOf(whole)).toBe(cautionsOf(whole));
  });

  it('tells a party the most careful figure of those that read alike in metres and bar', () => {
    const [guide, guest] = [aDiver(), aDiver({ id: 'guest', name: 'Guest' })];
    const dived = { by: 'guest', depthM: 41.02 };
    const dive = aDive({ depthM: 41.01, bottomMin: 3, asDived: [{ by: guide.id, depthM: 41.01 }, dived] });
    const whole = aLedger([dive], { party: [guide, guest].map((diver) => ({ ...diver, maxDepthM: 40 })) });
    const [told, ...others] = cautionsOf(whole).filter(({ code }) => code === 'deeper-than-diver');
    expect([told!.diverId, others]).toEqual([null, []]);
    const depths = JSON.stringify(told!.says);
    expect(depths).toContain('41.02');
    expect(depths).not.toContain('41.01');
  });

  it('has nothing to say of an empty trip', () => {
    expect(cautionsOf(aLedger([]))).toEqual([]);
  });
});
