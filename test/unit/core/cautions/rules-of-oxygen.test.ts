import { describe, expect, it } from 'vitest';
import { aDive, aLedger, RICH } from '../../../builders/trip';
import { codes, of, only } from '../../../support/cautions';

describe('oxygen', () => {
  const long = { depthM: 28, mix: 'rich' as const };

  it('changes above 80 % of the single-exposure clock and stops above 100 %', () => {
    expect(only('cns-over-80', aLedger([aDive({ ...long, bottomMin: 135 })]))).toMatchObject({
      severity: 'change',
    });
    const over = aLedger([aDive({ ...long, bottomMin: 165 })]);
    expect(only('cns-over-100', over)).toMatchObject({ severity: 'stop' });
    expect(codes(over)).not.toContain('cns-over-80');
    expect(codes(aLedger([aDive({ ...long, bottomMin: 110 })]))).not.toContain('cns-over-80');
  });

  it('stops above the limit of any 24 hours, on the dive that passes it', () => {
    const dives = ['08:00', '12:00', '16:00'].map((time) =>
      aDive({ ...long, bottomMin: 70, startsAt: `2027-03-06T${time}` }),
    );
    const ledger = aLedger(dives);
    expect(only('cns-day-over-100', ledger).diveId).toBe(dives[2]!.id);
  });

  it('counts OTU against the day and ESOT against the advice, once a day', () => {
    const times = ['06:00', '10:00', '14:00', '18:00'];
    const days = ['06', '07', '08', '09'];
    const dives = days.flatMap((day) =>
      times.map((time) => aDive({ ...long, bottomMin: 90, startsAt: `2027-03-${day}T${time}` })),
    );
    const ledger = aLedger(dives);
    const over = of('otu-over-day', ledger);
    expect(over.map((caution) => caution.diveId?.slice(0, 5))).toEqual(over.map(() => 'dive-'));
    const { days: lines, entries } = ledger.divers[0]!;
    const expected = lines.flatMap((line) => {
      const first = entries.find(
        (entry) => entry.dive.startsAt.startsWith(line.date) && entry.otu.day > line.otuAllowed,
      );
      return first ? [first.dive.id] : [];
    });
    expect(expected.length).toBeGreaterThan(0);
    expect(over.map((caution) => caution.diveId)).toEqual(expected);
    const esot = of('esot-over-day', ledger);
    expect(esot.length).toBe(4);
    expect(esot[0]).toMatchObject({ severity: 'know' });
    // Four diving days: K 70, 60 sqrt(70) = 501.99.
    expect(esot[0]!.message).toContain('more than the 501 min advised a day on a trip with 4 diving days');
  });
});

describe('ESOT and the days that count', () => {
  it('counts only days on which a dive is made', () => {
    // 140 min at 1.4 bar is an ESOT of 302: two such dives are past 502, short of 657.
    const long = { depthM: 28.7, mix: 'auto' as const, bottomMin: 140 };
    const dives = ['06', '07'].flatMap((day) =>
      ['06:00', '14:00'].map((time) => aDive({ ...long, startsAt: `2027-03-${day}T${time}` })),
    );
    const none = aDive({ depthM: 39, mix: 'auto', startsAt: '2027-03-08T08:00' });
    const ledger = aLedger([...dives, none], { mixes: [RICH] });
    expect(ledger.divers[0]!.entries[4]!.isMade).toBe(false);
    expect(ledger.divers[0]!.days).toHaveLength(3);
    expect(ledger.divers[0]!.days[0]!.esot).toBeGreaterThan(502);
    expect(ledger.divers[0]!.days[0]!.esot).toBeLessThan(657);
    expect(codes(ledger)).not.toContain('esot-over-day');
    const made = aDive({ depthM: 9, mix: 'auto', bottomMin: 20, startsAt: '2027-03-08T08:00' });
    expect(codes(aLedger([...dives, made], { mixes: [RICH] }))).toContain('esot-over-day');
  });
});
