/** Undo and redo as laws: whatever was done comes back, to the same object, and forward again. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { begin, bail, EMPTY_HISTORY, end, record, redo, undo, type Turn } from '../../renderer/store/history';
import { blankTrip } from '../../renderer/store/blank-trip';

type Act =
  | { readonly kind: 'edit'; readonly title: string }
  | { readonly kind: 'undo' | 'redo' | 'begin' | 'end' | 'bail' };

const NAME = { label: 'Title', code: 'trip.title' };

const act: fc.Arbitrary<Act> = fc.oneof(
  { weight: 4, arbitrary: fc.string({ maxLength: 3 }).map((title): Act => ({ kind: 'edit', title })) },
  fc.constantFrom<Act>(
    { kind: 'undo' },
    { kind: 'redo' },
    { kind: 'begin' },
    { kind: 'end' },
    { kind: 'bail' },
  ),
);

function apply({ trip, history }: Turn, next: Act): Turn {
  switch (next.kind) {
    case 'edit':
      return record(history, trip, { ...trip, title: next.title }, NAME);
    case 'undo':
      return undo(history, trip);
    case 'redo':
      return redo(history, trip);
    case 'begin':
      return begin(history, trip, NAME);
    case 'end':
      return end(history, trip);
    case 'bail':
      return bail(history, trip);
  }
}

describe('history', () => {
  it('goes all the way back to the first trip and all the way forward again', () => {
    fc.assert(
      fc.property(fc.array(act, { maxLength: 60 }), (acts) => {
        const first = blankTrip();
        const reached = acts.reduce<Turn>(apply, { trip: first, history: EMPTY_HISTORY });
        const settled = end(reached.history, reached.trip);
        let turn = settled;
        let steps = 0;
        while (turn.history.past.length > 0) {
          turn = undo(turn.history, turn.trip);
          steps += 1;
        }
        expect(turn.trip).toBe(first);
        for (let i = 0; i < steps; i += 1) turn = redo(turn.history, turn.trip);
        expect(turn).toEqual(settled);
        expect(turn.trip).toBe(settled.trip);
      }),
      { numRuns: 500 },
    );
  });

  it('holds a gesture to one step, whatever happens within it', () => {
    fc.assert(
      fc.property(fc.array(fc.string({ maxLength: 3 }), { minLength: 1, maxLength: 20 }), (titles) => {
        const first = blankTrip();
        const begun = begin(EMPTY_HISTORY, first, NAME);
        const moved = titles.reduce<Turn>((turn, title) => apply(turn, { kind: 'edit', title }), begun);
        const ended = end(moved.history, moved.trip);
        const isHome = moved.trip.title === first.title;
        expect(ended.history.past.length).toBe(isHome ? 0 : 1);
        expect(ended.trip === first).toBe(isHome);
        expect(bail(moved.history, moved.trip)).toEqual({ trip: first, history: EMPTY_HISTORY });
      }),
      { numRuns: 300 },
    );
  });
});
