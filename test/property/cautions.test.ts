import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cautionsOf, RULES } from '../../core/cautions/all';
import { ledger } from '../../core/ledger/ledger';
import type { Entry } from '../../core/ledger/ledger-types';
import type { Trip } from '../../core/document/types';
import { fileWords, pageReader, wordsOf } from '../../core/words/reader';
import { isNothing } from '../../core/words/said';
import { wordedCautions } from '../support/cautions';
import { trips } from '../support/trip-arbitrary';
import type { Caution } from '../../core/cautions/caution';

const RUNS = { numRuns: 150 };

/** Whether a caution of one of these codes speaks of this dive of this diver. */
function isSaid(cautions: readonly Caution[], entry: Entry, ...codes: readonly string[]): boolean {
  return cautions.some(
    ({ code, diveId, diverId }) =>
      codes.includes(code) && diveId === entry.dive.id && (diverId === null || diverId === entry.diver.id),
  );
}

function eachEntry(trip: Trip, check: (entry: Entry, cautions: readonly Caution[]) => void): void {
  const whole = ledger(trip);
  const cautions = cautionsOf(whole);
  for (const { entries } of whole.divers) for (const entry of entries) check(entry, cautions);
}

describe('cautionsOf', () => {
  it('speaks of every figure that does not exist', () => {
    fc.assert(
      fc.property(trips(), (trip) => {
        eachEntry(trip, (entry, cautions) => {
          if (!entry.isMade) {
            expect(isSaid(cautions, entry, 'no-mix')).toBe(true);
            return;
          }
          const { usedL, endBar, turnBar, minimumBar } = entry.gas;
          const isOut = isSaid(cautions, entry, 'gas-runs-out', 'gas-not-for-stops');
          expect(isOut).toBe(usedL !== null && endBar === null);
          if (turnBar === null && minimumBar !== null)
            expect(isSaid(cautions, entry, 'below-minimum-gas')).toBe(true);
          // Gas is not known only where no way up on it was found, and that is said.
          if (usedL === null || minimumBar === null) {
            const said = cautions.filter(
              (each) =>
                isSaid([each], entry, 'past-no-stop', 'level-past-no-stop') &&
                fileWords(each.says).includes('gas'),
            );
            expect(said.some(({ says }) => fileWords(says).includes('not known'))).toBe(true);
          }
          if (entry.stops === null) expect(isSaid(cautions, entry, 'past-no-stop')).toBe(true);
        });
        for (const { entries, diver } of ledger(trip).divers) {
          const firstUnknown = entries.find(
            (entry) => entry.isMade && (entry.cns.after === null || entry.cns.day === null),
          );
          if (!firstUnknown) continue;
          expect(
            isSaid(cautionsOf(ledger(trip)), firstUnknown, 'po2-without-limit', 'cns-unknown'),
            diver.id,
          ).toBe(true);
        }
      }),
      RUNS,
    );
  });

  it('stops exactly where a limit of the dive itself is passed', () => {
    fc.assert(
      fc.property(trips(), (trip) => {
        eachEntry(trip, (entry, cautions) => {
          const isPast = isSaid(cautions, entry, 'past-no-stop', 'level-past-no-stop');
          expect(isPast).toBe(entry.isPastLimit);
          if (!entry.isMade) return;
          const { modM, depthM, diver, o2 } = entry;
          expect(isSaid(cautions, entry, 'below-mod', 'below-mod-analysed')).toBe(depthM > modM! + 1e-9);
          expect(isSaid(cautions, entry, 'richer-than-diver')).toBe(o2! > diver.maxO2 + 1e-9);
          expect(isSaid(cautions, entry, 'cns-over-100')).toBe((entry.cns.after ?? 0) > 1 + 1e-9);
        });
      }),
      RUNS,
    );
  });

  it('says whole sentences with figures in them, each with its source, in order of severity', () => {
    const rank = { stop: 0, change: 1, know: 2 };
    const codes = new Set(RULES.map((rule) => rule.code));
    fc.assert(
      fc.property(trips(), fc.constantFrom('metric' as const, 'imperial' as const), (trip, units) => {
        const cautions = wordedCautions(ledger(trip), wordsOf(pageReader(units)));
        for (const { message, source, code } of cautions) {
          expect(message).toMatch(/^[\dA-Z].*\.$/);
          expect(message).not.toMatch(/NaN|Infinity|undefined|null|\.\.| {2}/);
          if (units === 'imperial') expect(message).not.toMatch(/\d m\b(?!in)/);
          expect(isNothing(source)).toBe(false);
          expect(codes).toContain(code);
        }
        const keys = cautions.map(({ code, diverId, diveId }) => JSON.stringify([code, diverId, diveId]));
        expect(new Set(keys).size).toBe(keys.length);
        const ranks = cautions.map((caution) => rank[caution.severity]);
        expect(ranks).toEqual(ranks.toSorted((a, b) => a - b));
      }),
      RUNS,
    );
  });

  it('does not depend on the order of the party', () => {
    fc.assert(
      fc.property(trips({ party: { min: 2, max: 3 } }), (trip) => {
        const forwards = cautionsOf(ledger(trip)).map((caution) => JSON.stringify(caution));
        const backwards = cautionsOf(ledger({ ...trip, party: trip.party.toReversed() })).map((caution) =>
          JSON.stringify(caution),
        );
        expect(backwards.toSorted()).toEqual(forwards.toSorted());
      }),
      RUNS,
    );
  });
});
