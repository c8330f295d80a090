import { beforeEach, expect, it } from 'vitest';
import type { TripReport } from '../../../../core/host';
import { setTitle } from '../../../../renderer/actions/trip';
import { reportTrip } from '../../../../renderer/frame/report-trip';
import { desk, freshDesk } from '../../../../renderer/store/store';

beforeEach(() => desk.setState(freshDesk(), true));

it('tells the host of the trip that is open, of an edit and of its save, each once', () => {
  const told: TripReport[] = [];
  reportTrip({ reportTrip: (report) => void told.push(report) });
  expect(told.splice(0)).toEqual([{ token: null, isEdited: false }]);
  setTitle('A week');
  setTitle('Our week');
  expect(told.splice(0)).toEqual([{ token: null, isEdited: true }]);
  const { trip, keeping } = desk.getState();
  desk.setState({ keeping: { ...keeping, token: 'week', saved: trip } });
  expect(told.splice(0)).toEqual([{ token: 'week', isEdited: false }]);
  desk.setState({ isTable: true });
  expect(told).toEqual([]);
});
