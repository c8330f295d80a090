/** Mending a party of which some are on loops; that it finds the first of all plans is test/property/mending.test.ts. */
import { describe, expect, it } from 'vitest';
import { highTrip } from '../../../../../core/document/high-trip';
import type { LoopGear, Trip } from '../../../../../core/document/types';
import { ledger } from '../../../../../core/ledger/ledger';
import { figureChanges, figureChangeSaid } from '../../../../../core/proposal/mend/figures-said';
import { mendingDocument } from '../../../../../core/proposal/mend/mending-document';
import { mendings } from '../../../../../core/proposal/mend/proposals';
import { USUAL_REQUEST } from '../../../../../core/proposal/mend/request';
import { fileWords } from '../../../../../core/words/reader';
import { said } from '../../../../../core/words/said';

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
});
