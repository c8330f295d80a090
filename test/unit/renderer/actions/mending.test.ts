import { beforeEach, describe, expect, it } from 'vitest';
import { takeWorkedOut } from '../../../../renderer/actions/mending';
import { undoStep } from '../../../../renderer/actions/history';
import { EMPTY_HISTORY } from '../../../../renderer/store/history';
import { desk } from '../../../../renderer/store/store';
import { aDive, aTrip } from '../../../builders/trip';

const trip = aTrip([aDive({ id: 'one' }), aDive({ id: 'two', startsAt: '2027-03-06T12:00' })]);
const mended = { ...trip, dives: [trip.dives[0]!, { ...trip.dives[1]!, bottomMin: 15 }] };

beforeEach(() => desk.setState({ trip, history: EMPTY_HISTORY, notice: null }));

describe('takeWorkedOut', () => {
  it('is one step, named for undo', () => {
    expect(takeWorkedOut(trip, mended, 'Mend: best overall', ['Mended.'])).toBe(true);
    expect(desk.getState().trip).toBe(mended);
    expect(desk.getState().notice).toMatchObject({
      tone: 'said',
      canUndo: true,
      lines: [{ what: 'Mended.' }],
    });
    undoStep();
    expect(desk.getState().trip).toBe(trip);
  });

  it('changes nothing where another trip is on the desk by now', () => {
    const other = { ...trip, title: 'Another' };
    desk.setState({ trip: other });
    expect(takeWorkedOut(trip, mended, 'Mend: best overall', ['Mended.'])).toBe(false);
    expect(desk.getState().trip).toBe(other);
  });
});
