/** Mending a party of which some are on loops; that it finds the first of all plans is test/property/mending.test.ts. */
import { describe, expect, it } from 'vitest';
import { highTrip } from '../../../../../core/document/high-trip';
import type { LoopGear, Trip } from '../../../../../core/document/types';
import { ledger } from '../../../../../core/ledger/ledger';
import { cheapestPlan } from '../../../../../core/proposal/mend/cheapest-plan';
import type { Plan } from '../../../../../core/proposal/mend/carried-out';
import { figureChanges, figureChangeSaid } from '../../../../../core/proposal/mend/figures-said';
import { mendingDocument } from '../../../../../core/proposal/mend/mending-document';
import { mendings } from '../../../../../core/proposal/mend/proposals';
import { FIXED } from '../../../../../core/proposal/mend/moves';
import { questionOf } from '../../../../../core/proposal/mend/question';
import { USUAL_REQUEST, type MendRequest } from '../../../../../core/proposal/mend/request';
import { fileWords } from '../../../../../core/words/reader';
import { said } from '../../../../../core/words/said';
import { AIR, aDive, aDiver, aTrip } from '../../../../builders/trip';
import { mendedByHand } from '../../../../support/mend-by-hand';

const trip = highTrip();

/** The loop of the trip otherwise, its scrubber never packed afresh. */
function withLoop(change: (gear: LoopGear) => Partial<LoopGear>): Trip {
  return {
    ...trip,
    party: trip.party.map((diver) =>
      diver.loop === undefined ? diver : { ...diver, loop: { ...diver.loop, ...change(diver.loop) } },
    ),
    dives: trip.dives.map(({ loops, ...dive }) => ({
      ...dive,
      ...(loops && { loops: loops.map((each) => ({ ...each, freshScrubber: false })) }),
    })),
  };
}

const scrubbedMin = ledger(withLoop(() => ({ scrubberMin: 1000 })))
  .divers.flatMap(({ entries }) => entries.flatMap(({ loop }) => loop?.scrubber.usedMin ?? []))
  .reduce((most, each) => Math.max(most, each), 0);

describe('mending with a loop ahead', () => {
  it('takes from the dives before what a scrubber lacks, and proves that nothing is cheaper', () => {
    const short = withLoop(() => ({ scrubberMin: scrubbedMin - 4 }));
    const { proposals, toMend } = mendings(short, USUAL_REQUEST);
    expect(toMend.map(({ code }) => code)).toEqual(['scrubber-short']);
    const [best] = proposals;
    expect([best!.cost, best!.atLeast]).toEqual([4, 4]);
    expect(best!.plan.reduce((sum, { shorter }) => sum + shorter, 0)).toBe(4);
    const of = best!.changes.at(-1)!;
    expect(of.before.scrubber!.min).toBeCloseTo(-4, 6);
    expect(of.after!.scrubber!.min).toBeCloseTo(0, 6);
    expect(figureChanges(of).map((each) => fileWords(said`${figureChangeSaid(each)}`))).toContain(
      'scrubber left -4 min → 0 min',
    );
    const { entries } = mendingDocument(short, mendings(short, USUAL_REQUEST), fileWords).proposals[0]!;
    expect(entries.at(-1)!.after!.scrubberLeftMin).toBeCloseTo(0, 6);
  }, 60_000);

  it('takes the pressure left from who has a cylinder: a loop does not read as gas that is out', () => {
    const long = withLoop(() => ({ scrubberMin: 1000 }));
    const dives = long.dives.map((dive, i) => (i === 2 ? { ...dive, bottomMin: dive.bottomMin + 8 } : dive));
    const [best] = mendings({ ...long, dives }, USUAL_REQUEST).proposals;
    const { after } = best!.changes.find(({ diveId }) => diveId === dives[2]!.id)!;
    const left = ledger(best!.trip)
      .divers.flatMap(({ entries }) => entries)
      .filter(({ dive, loop }) => dive.id === dives[2]!.id && loop === null)
      .map(({ gas }) => gas.endBar!);
    expect(after!.left!.bar).toBe(Math.min(...left));
  }, 60_000);

  it('keeps a bail-out that is too small for the depth by going less deep or less long', () => {
    const small = withLoop(({ bailOut }) => ({
      scrubberMin: 1000,
      bailOut: bailOut.map((each) => ({ ...each, cylinder: { waterL: 3, fillBar: 200, reserveBar: 50 } })),
    }));
    const { toMend, proposals } = mendings(small, USUAL_REQUEST);
    expect(new Set(toMend.map(({ code }) => code))).toEqual(new Set(['bail-out-short']));
    const [best] = proposals;
    expect(best!.cost).toBe(best!.atLeast);
    const ways = ledger(best!.trip).divers.flatMap(({ entries }) =>
      entries.flatMap(({ loop }) => loop ?? []),
    );
    expect(ways.length).toBeGreaterThan(0);
    for (const { bailOut } of ways) expect(bailOut!.spareL).toBeGreaterThanOrEqual(-1e-6);
  }, 60_000);

  /** Four dives on a loop; the third is past its limit by a twentieth of a minute, and the fourth keeps it from being later by an hour's interval. */
  function tightTrip([a, b, c, d]: readonly [string, string, string, string]): Trip {
    const cylinder = { waterL: 24, fillBar: 230, reserveBar: 20 };
    const gear: LoopGear = {
      setpoints: { lowBar: 1.3, highBar: 0.6, switchM: 10 },
      diluent: AIR.id,
      oxygenCylinder: cylinder,
      diluentCylinder: cylinder,
      scrubberMin: 1000,
      bailOut: [{ mix: AIR.id, cylinder }],
    };
    const dive = (startsAt: string, depthM: number, bottomMin: number) =>
      aDive({ startsAt: `2027-03-${startsAt}`, depthM, bottomMin, loops: [{ by: 'p' }] });
    const loops = [{ by: 'p', setpoints: { lowBar: 1.3, highBar: 1, switchM: 10 } }];
    const dives = [{ ...dive(a, 28, 15), loops }, dive(b, 6, 60), dive(c, 18, 47.08), dive(d, 6, 10)];
    return aTrip(dives, { party: [aDiver({ id: 'p', loop: gear })] });
  }

  const OVER_MIDNIGHT = ['06T20:25', '06T22:00', '07T00:10', '07T02:04'] as const;

  it.each([
    ['in a day', ['06T08:00', '06T09:35', '06T11:45', '06T13:39']],
    ['over midnight', OVER_MIDNIGHT],
  ] as const)(
    'starts a shallow dive later that needs it not itself, as it gives off more than the surface: %s',
    (_, starts) => {
      const tight = tightTrip(starts);
      const request: MendRequest = { ...USUAL_REQUEST, reach: { ...FIXED, later: 2 } };
      const found = cheapestPlan(questionOf(ledger(tight), request));
      expect(found).toMatchObject({ kind: 'plan', cost: 1, atLeast: 1 });
      expect(found.kind === 'plan' && found.plan.map(({ later }) => later)).toEqual([0, 1, 0, 0]);
      expect(mendedByHand(tight, request, 1000)).toMatchObject({
        cost: 1,
        plan: (found as { plan: Plan }).plan,
      });
    },
  );

  it('counts what a later start on the evening before takes off, where the day could be mended by itself for more', () => {
    const tight = tightTrip(OVER_MIDNIGHT);
    const request: MendRequest = {
      ...USUAL_REQUEST,
      costs: { ...USUAL_REQUEST.costs, shorter: 5 },
      reach: { ...FIXED, later: 2, shorter: 1 },
    };
    const found = cheapestPlan(questionOf(ledger(tight), request));
    expect(found).toMatchObject({ kind: 'plan', cost: 1, atLeast: 1 });
    expect(found.kind === 'plan' && found.plan.map(({ later }) => later)).toEqual([0, 1, 0, 0]);
  });
});
