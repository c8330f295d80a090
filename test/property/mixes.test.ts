import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareSites } from '../../core/mixes/compare';
import { mixChoices } from '../../core/mixes/choice';
import { makeUp, partialPressureFill } from '../../core/mixes/fills';
import { richestMix, whyNot } from '../../core/mixes/richest';
import { contentL, type GasLaw } from '../../core/supply';
import { checkTrip } from '../../core/document/check-trip';
import { ledger } from '../../core/ledger/ledger';
import { deepestLevel } from '../../core/ledger/level-limits';
import type { Entry } from '../../core/ledger/ledger-types';
import type { Trip } from '../../core/document/types';
import { smallTrip } from '../arbitraries/small-trip';
import { surroundingsAt } from '../../core/document/waters';
import { surroundingsOf } from '../../core/profile';

/** The same closed form reached by two ways: a few ulp of the times involved. */
const ROUNDING = 1e-9;

const BUSY = { numRuns: 100, interruptAfterTimeLimit: 60_000 };

/** The trip with one mix on one dive, all else as it is. */
function withMix(trip: Trip, diveId: string, mixId: string): Trip {
  return { ...trip, dives: trip.dives.map((dive) => (dive.id === diveId ? { ...dive, mix: mixId } : dive)) };
}

describe('compareSites', () => {
  it('has in the trip the no-stop time of the tightest dive, by the ledger with that dive on each mix', () => {
    let compared = 0;
    fc.assert(
      fc.property(smallTrip, (trip) => {
        fc.pre(checkTrip(trip).length === 0);
        // An analysed cylinder rules over any mix; the comparison asks what the mix itself would give.
        fc.pre(trip.dives.every((dive) => !dive.asDived?.some((record) => record.o2 !== undefined)));
        const whole = ledger(trip);
        const [row] = compareSites(whole, trip.mixes);
        const visits = whole.divers
          .flatMap(({ entries }) => entries)
          .filter(({ dive }) => dive.siteId === row!.site.id);
        const leftOf = ({ levels }: Entry): number => {
          const { min, noStopMin } = deepestLevel(levels);
          return noStopMin === null ? Infinity : noStopMin - min;
        };
        const made = visits.filter(({ isMade }) => isMade);
        const tightestLeft = Math.min(...made.map(leftOf));
        for (const cell of row!.cells) {
          const onMix = (entry: Entry): Entry =>
            ledger(withMix(trip, entry.dive.id, cell.mix.id), whole)
              .divers.find(({ diver }) => diver.id === entry.diver.id)!
              .entries.find(({ dive }) => dive.id === entry.dive.id)!;
          const may = visits.filter(
            ({ dive, diver }) =>
              whyNot(cell.mix, dive.depthM, diver, trip, surroundingsAt(trip, dive)) === null,
          );
          expect(cell.inTrip === null).toBe(may.length === 0);
          if (cell.inTrip === null) continue;
          compared += 1;
          // Several may be alike; the figure is that of one of them.
          const tightest = may.filter((entry) => entry.isMade && leftOf(entry) === tightestLeft);
          const asked = tightest.length > 0 ? tightest : may;
          const found = asked.map(onMix);
          const leastLeft = Math.min(...found.map(leftOf));
          const wanted =
            tightest.length > 0 ? found : found.filter((entry) => leftOf(entry) <= leastLeft + 1e-6);
          const times = wanted.map(({ levels }) => deepestLevel(levels).noStopMin ?? Infinity);
          const shown = cell.inTrip.min ?? Infinity;
          expect(
            times.some((min) =>
              min === Infinity ? cell.inTrip!.unlimited : Math.abs(shown - min) < ROUNDING * Math.max(1, min),
            ),
          ).toBe(true);
        }
      }),
      BUSY,
    );
    expect(compared).toBeGreaterThan(100);
  }, 80_000);
});

describe('mixChoices', () => {
  it('tells every later dive whose room, no-stop time or clock another mix changes, and no other', () => {
    fc.assert(
      fc.property(smallTrip, fc.nat(), (trip, pick) => {
        fc.pre(checkTrip(trip).length === 0);
        const whole = ledger(trip);
        const place = pick % trip.dives.length;
        for (const choice of mixChoices(whole, trip.dives[place]!.id)) {
          const after = ledger(withMix(trip, trip.dives[place]!.id, choice.mix.id));
          const told = new Set(choice.later.map((change) => change.dive.id));
          for (const dive of trip.dives.slice(place + 1)) {
            const clocks = (of: typeof whole) =>
              of.divers.flatMap(({ entries }) =>
                entries
                  .filter((entry) => entry.dive.id === dive.id)
                  .flatMap((entry) => [
                    deepestLevel(entry.levels).noStopMin ?? -1,
                    (entry.cns.after ?? -1) * 1000,
                  ]),
              );
            const [was, is] = [clocks(whole), clocks(after)];
            const isChanged = was.some((value, i) => Math.abs(value - is[i]!) > 1e-5);
            if (isChanged) expect(told.has(dive.id)).toBe(true);
          }
          for (const change of choice.later) expect(trip.dives.indexOf(change.dive)).toBeGreaterThan(place);
        }
      }),
      BUSY,
    );
  }, 80_000);
});

describe('richestMix', () => {
  it('is tight: that share may go there, a tenth of a percent more may not', () => {
    fc.assert(
      fc.property(smallTrip, fc.double({ min: 6, max: 50, noNaN: true }), (trip, depthM) => {
        const around = surroundingsOf(trip);
        const diver = trip.party[0]!;
        const { o2, tenthO2, percent } = richestMix(depthM, diver, trip, around);
        fc.pre(o2 > 0.01);
        const may = (share: number) =>
          whyNot({ id: 'x', o2: share, costPerFill: 0 }, depthM, diver, trip, around) === null;
        expect(may(tenthO2)).toBe(true);
        expect(may(percent / 100)).toBe(true);
        expect(may(tenthO2 + 0.001 + 1e-6)).toBe(false);
      }),
    );
  });
});

const law = fc.constantFrom<GasLaw>('ideal', 'real');
const bar = (min: number, max: number) => fc.integer({ min, max });

describe('partialPressureFill', () => {
  it('on what is left of the same mix takes what making up the difference takes', () => {
    fc.assert(
      fc.property(
        law,
        bar(0, 150),
        bar(160, 300),
        fc.integer({ min: 21, max: 40 }),
        (gas, startBar, fillBar, percent) => {
          const o2 = percent / 100;
          const fill = partialPressureFill({ waterL: 12, startBar, fillBar, startO2: o2 }, o2, gas);
          if (!fill.ok) throw new Error(fill.troubles[0].what);
          const litres = contentL(12, fillBar, o2, gas) - contentL(12, startBar, o2, gas);
          expect(fill.value.oxygenL).toBeCloseTo(makeUp(litres, o2).oxygenL, 6);
          expect(fill.value.airL).toBeCloseTo(makeUp(litres, o2).airL, 6);
        },
      ),
    );
  });

  it('takes more oxygen for a richer mix, and never a negative amount of either gas', () => {
    fc.assert(
      fc.property(
        law,
        bar(0, 150),
        fc.integer({ min: 22, max: 39 }),
        fc.integer({ min: 21, max: 40 }),
        (gas, startBar, percent, left) => {
          const start = { waterL: 12, startBar, fillBar: 200, startO2: left / 100 };
          const lean = partialPressureFill(start, percent / 100, gas);
          const rich = partialPressureFill(start, (percent + 1) / 100, gas);
          for (const fill of [lean, rich]) {
            if (!fill.ok) continue;
            // A pressure to let down to is found to a millionth of a bar: 12 L of that.
            expect(Math.min(fill.value.oxygenL, fill.value.airL)).toBeGreaterThan(-1e-3);
            expect(fill.value.fromBar).toBeLessThanOrEqual(startBar);
          }
          if (lean.ok && rich.ok && !lean.value.isDrained && !rich.value.isDrained) {
            expect(rich.value.oxygenL).toBeGreaterThan(lean.value.oxygenL);
          }
        },
      ),
    );
  });
});
