import { beforeEach, describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { wallMin } from '../../../../core/words/calendar';
import { logRestAsPlanned, putLog } from '../../../../renderer/actions/log';
import { withLogged } from '../../../../core/document/log';
import {
  selectCautions,
  selectCautionsByTime,
  selectStanding,
  selectTightest,
} from '../../../../renderer/store/selectors';
import { desk, freshDesk } from '../../../../renderer/store/store';

const now = () => desk.getState();

beforeEach(() => desk.setState(freshDesk(demoTrip())));

describe('what of the trip is told as ahead', () => {
  it('leaves the tightest to what can still be changed', () => {
    const tightest = selectTightest(now())!;
    desk.setState({ nowMin: tightest.startMin });
    const next = selectTightest(now())!;
    expect(next.startMin).toBeGreaterThan(tightest.startMin);
    expect(selectStanding(now())).toMatchObject({ isUnderWay: true });
  });

  it('tells a logged dive past its limit among what is done, and heads nothing with it', () => {
    const [first] = now().trip.dives;
    putLog('2027-03-14', [
      { diveId: first!.id, change: (dive, party) => withLogged(dive, null, 'depthM', 32, party) },
    ]);
    expect(
      selectCautions(now()).some(({ severity, diveId }) => severity !== 'know' && diveId === first!.id),
    ).toBe(true);
    const { ahead, done } = selectCautionsByTime(now());
    expect(done.some(({ diveId, severity }) => diveId === first!.id && severity !== 'know')).toBe(true);
    expect(ahead.some(({ diveId }) => diveId === first!.id)).toBe(false);
    expect(selectStanding(now()).past).not.toContain(first!.id);
  });

  it('has nothing ahead once all is logged or the last day is over', () => {
    for (const date of new Set(now().trip.dives.map(({ startsAt }) => startsAt.slice(0, 10))))
      logRestAsPlanned(date);
    expect(selectStanding(now()).dives).toEqual([]);
    expect(selectTightest(now())).toBeNull();
    desk.setState(freshDesk(demoTrip()));
    const last = now().trip.dives.at(-1)!;
    desk.setState({ nowMin: wallMin(`${last.startsAt.slice(0, 10)}T23:59`) });
    expect(selectStanding(now()).dives).toEqual([]);
  });
});
