import { beforeEach, describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { setDepth } from '../../../../renderer/actions/dives';
import { asOneStep, startGesture } from '../../../../renderer/actions/gesture';
import { redoStep, undoStep } from '../../../../renderer/actions/history';
import { setTitle } from '../../../../renderer/actions/trip';
import { showOverlay } from '../../../../renderer/actions/view';
import { EMPTY_HISTORY } from '../../../../renderer/store/history';
import { desk, freshDesk } from '../../../../renderer/store/store';

const DEPTH = { label: 'Depth of dive 1', code: 'dive.depth' };
const steps = () => desk.getState().history.past.map(({ label }) => label);
const dive = () => desk.getState().trip.dives[0]!;

let over = 0;
const start = () => startGesture(DEPTH, () => (over += 1));
const deeper = () => setDepth(dive().id, dive().depthM + 1);

beforeEach(() => {
  desk.setState(freshDesk(demoTrip()), true);
  over = 0;
});

describe('a gesture', () => {
  it('is one step of undo, and Escape goes back to its mark', () => {
    const first = dive();
    const drag = start();
    drag.edit(deeper);
    drag.edit(deeper);
    drag.end();
    expect(steps()).toEqual(['Depth of dive 1']);
    const other = start();
    other.edit(deeper);
    other.cancel();
    expect(dive().depthM).toBe(first.depthM + 2);
    expect(over).toBe(2);
    undoStep();
    expect(dive()).toBe(first);
  });

  it('leaves no step where it ends where it began', () => {
    const before = desk.getState().trip;
    const drag = start();
    drag.edit(deeper);
    drag.edit(() => setDepth(dive().id, before.dives[0]!.depthM));
    drag.end();
    expect(steps()).toEqual([]);
    expect(desk.getState().trip).toBe(before);
  });

  it('takes nobody else’s edit in: it is over, and theirs is a step of its own', () => {
    const drag = start();
    drag.edit(deeper);
    setTitle('Ours');
    expect(steps()).toEqual(['Depth of dive 1', 'Title']);
    expect(over).toBe(1);
    const depthM = dive().depthM;
    expect(drag.edit(deeper)).toBeNull();
    drag.end();
    drag.cancel();
    expect(dive().depthM).toBe(depthM);
    expect(steps()).toEqual(['Depth of dive 1', 'Title']);
    expect(over).toBe(1);
  });

  it('is over where another begins, and where another trip takes its place', () => {
    const drag = start();
    drag.edit(deeper);
    const other = start();
    expect([over, steps()]).toEqual([1, ['Depth of dive 1']]);
    desk.setState({ trip: demoTrip(), history: EMPTY_HISTORY });
    expect(over).toBe(2);
    expect(other.edit(deeper)).toBeNull();
    expect(steps()).toEqual([]);
  });

  it('is over where a sheet is laid over the strip', () => {
    const drag = start();
    drag.edit(deeper);
    showOverlay({ kind: 'palette' });
    expect(over).toBe(1);
    expect(steps()).toEqual(['Depth of dive 1']);
  });

  it('is neither undone nor redone in its midst', () => {
    setTitle('Ours');
    const drag = start();
    drag.edit(deeper);
    const { trip } = desk.getState();
    undoStep();
    redoStep();
    expect(desk.getState().trip).toBe(trip);
    drag.end();
    expect(steps()).toEqual(['Title', 'Depth of dive 1']);
  });
});

describe('asOneStep', () => {
  it('ends its step also where what it runs breaks off', () => {
    expect(() =>
      asOneStep(DEPTH, () => {
        deeper();
        throw new Error('broken off');
      }),
    ).toThrow('broken off');
    expect(steps()).toEqual(['Depth of dive 1']);
    expect(desk.getState().history.mark).toBeNull();
  });
});
