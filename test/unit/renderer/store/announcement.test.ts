import { beforeEach, describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { setBottomMin, setDepth } from '../../../../renderer/actions/dives';
import { startGesture } from '../../../../renderer/actions/gesture';
import { chooseDives } from '../../../../renderer/actions/view';
import { blankTrip } from '../../../../renderer/store/blank-trip';
import { announcement } from '../../../../renderer/store/announcement';
import { selectCautions, selectLedger, selectTightest } from '../../../../renderer/store/selectors';
import { desk, freshDesk } from '../../../../renderer/store/store';

beforeEach(() => desk.setState(freshDesk(demoTrip()), true));

const after = (change: () => void): string => {
  const before = desk.getState();
  change();
  return announcement(before, desk.getState());
};

describe('announcement', () => {
  it('tells the room of the chosen dive and what cautions came', () => {
    const { id } = selectTightest(desk.getState())!.dive;
    chooseDives([id]);
    const said = after(() => setBottomMin(id, 60));
    expect(said).toMatch(/^Dive 13: \d+ min over\./);
    expect(said).toMatch(/new cautions?/i);
    // No minutes shorter would make it shallower.
    expect(after(() => setDepth(id, 38))).toMatch(/^Dive 13: past the diver’s depth limit\./);
  });

  it('tells which cautions are settled when they go', () => {
    const { id, depthM } = selectTightest(desk.getState())!.dive;
    setDepth(id, 38);
    expect(after(() => setDepth(id, depthM))).toMatch(/settled\./);
  });

  it('begins each sentence with a capital letter', () => {
    const { id, depthM } = selectTightest(desk.getState())!.dive;
    chooseDives([id]);
    expect(after(() => setDepth(id, 60))).toMatch(/\. [A-Z][a-z]+ new cautions\./);
    const said = after(() => setDepth(id, depthM));
    expect(said).not.toMatch(/(^|\. )[a-z]/);
  });

  it('says nothing of the cautions of another trip', () => {
    const id = selectTightest(desk.getState())!.dive.id;
    setDepth(id, 60);
    const before = desk.getState();
    desk.setState(freshDesk(blankTrip()), true);
    expect(announcement(before, desk.getState())).toBe('');
    expect(announcement(desk.getState(), before)).toMatch(/^Tightest is dive \d+, [^.]*\.$/);
  });

  it('tells the cautions of a run of changes within one gesture', () => {
    const { id } = selectTightest(desk.getState())!.dive;
    const drag = startGesture({ label: 'Depth', code: 'dive.depth' });
    drag.edit(() => setDepth(id, 60));
    expect(after(() => drag.edit(() => setDepth(id, 10)))).toMatch(/settled\.$/);
  });

  it('tells of the tightest dive where none is chosen', () => {
    const { id } = selectTightest(desk.getState())!.dive;
    expect(after(() => setDepth(id, 10))).toMatch(/^Tightest is dive \d+, \d+ min of room\./);
  });

  it('says nothing where the trip did not change', () => {
    expect(after(() => chooseDives([desk.getState().trip.dives[0]!.id]))).toBe('');
  });

  it('leaves what is on screen the same object, so that telling of it draws nothing anew', () => {
    const { id } = selectTightest(desk.getState())!.dive;
    const before = desk.getState();
    setDepth(id, 20);
    setDepth(id, 19);
    const shown = [
      selectLedger(desk.getState()),
      selectCautions(desk.getState()),
      selectTightest(desk.getState()),
    ];
    announcement(before, desk.getState());
    const now = [
      selectLedger(desk.getState()),
      selectCautions(desk.getState()),
      selectTightest(desk.getState()),
    ];
    expect(now.map((each, i) => each === shown[i])).toEqual([true, true, true]);
  });
});
