import { describe, expect, it } from 'vitest';
import {
  begin,
  bail,
  EMPTY_HISTORY,
  end,
  record,
  redo,
  STEPS_KEPT,
  undo,
} from '../../../../renderer/store/history';
import { blankTrip } from '../../../../renderer/store/blank-trip';

const a = { ...blankTrip(), title: 'a' };
const b = { ...a, title: 'b' };
const c = { ...a, title: 'c' };
const NAME = { label: 'Title', code: 'trip.title' };

describe('record', () => {
  it('leaves a step that undo returns from and redo goes to again', () => {
    const done = record(EMPTY_HISTORY, a, b, NAME);
    const back = undo(done.history, done.trip);
    const again = redo(back.history, back.trip);
    expect([done.trip, back.trip, again.trip]).toEqual([b, a, b]);
    expect(back.history.future).toEqual([{ ...NAME, trip: b }]);
    expect(again.history).toEqual(done.history);
  });

  it('leaves no step where nothing changed, and the trip the same object', () => {
    const same = { ...a, party: a.party.map((diver) => ({ ...diver, before: undefined })) };
    for (const after of [a, same]) {
      const turn = record(EMPTY_HISTORY, a, after as typeof a, NAME);
      expect(turn.history).toBe(EMPTY_HISTORY);
      expect(turn.trip).toBe(a);
    }
  });

  it('empties the redo stack', () => {
    const done = record(EMPTY_HISTORY, a, b, NAME);
    const back = undo(done.history, done.trip);
    expect(record(back.history, a, c, NAME).history.future).toEqual([]);
  });

  it('forgets the oldest steps beyond what is kept', () => {
    let history = EMPTY_HISTORY;
    for (let i = 0; i < STEPS_KEPT + 20; i += 1) {
      history = record(history, { ...a, title: `${i}` }, { ...a, title: `${i + 1}` }, NAME).history;
    }
    expect(history.past).toHaveLength(STEPS_KEPT);
    expect(history.past[0]?.trip.title).toBe('20');
  });
});

describe('a gesture', () => {
  const begun = begin(EMPTY_HISTORY, a, NAME).history;
  const once = record(begun, a, b, { label: 'other', code: 'other' });
  const twice = record(once.history, b, c, { label: 'other', code: 'other' });

  it('is one step under its own name, whatever its changes were called', () => {
    expect(end(twice.history, twice.trip).history.past).toEqual([{ ...NAME, trip: a }]);
  });

  it('returns to its mark when it is given up, and leaves no step', () => {
    expect(bail(twice.history, twice.trip)).toEqual({ trip: a, history: EMPTY_HISTORY });
  });

  it('leaves no step where it ends where it began', () => {
    const home = record(twice.history, c, { ...a, sites: [...a.sites] }, NAME);
    const ended = end(home.history, home.trip);
    expect(ended.history).toEqual(EMPTY_HISTORY);
    expect(ended.trip).toBe(a);
  });

  it('is in nobody’s way: neither undo nor redo touches the trip in its midst', () => {
    const past = record(EMPTY_HISTORY, a, b, NAME);
    const held = begin(past.history, past.trip, NAME);
    const moved = record(held.history, held.trip, c, NAME);
    expect(undo(moved.history, moved.trip)).toEqual(moved);
    const back = undo(past.history, past.trip);
    const heldAgain = begin(back.history, back.trip, NAME);
    expect(redo(heldAgain.history, heldAgain.trip)).toEqual(heldAgain);
  });

  it('is ended where another begins without its end', () => {
    const next = begin(twice.history, twice.trip, { label: 'Next', code: 'next' });
    expect(next.history.past).toEqual([{ ...NAME, trip: a }]);
    expect(next.history.mark?.trip).toBe(c);
  });
});

describe('undo and redo', () => {
  it('do nothing where there is nothing', () => {
    expect(undo(EMPTY_HISTORY, a)).toEqual({ trip: a, history: EMPTY_HISTORY });
    expect(redo(EMPTY_HISTORY, a)).toEqual({ trip: a, history: EMPTY_HISTORY });
  });
});
