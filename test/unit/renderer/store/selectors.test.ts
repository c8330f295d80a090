import { describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { wordsIn } from '../../../../renderer/figures/reader';
import { partyFigures } from '../../../../renderer/places/party/party-figures';
import {
  entriesOf,
  selectCautions,
  selectLedger,
  selectRooms,
  selectStanding,
  selectTight,
  selectTightOfDays,
} from '../../../../renderer/store/selectors';
import { freshDesk } from '../../../../renderer/store/store';
import { aDive, aDiver, AIR, aTrip, RICH } from '../../../builders/trip';

describe('selectCautions', () => {
  it('are the same in whatever units, clock and language they are read', () => {
    const state = freshDesk(demoTrip());
    const imperial = { ...state.settings, units: 'imperial', clock: '12h' } as const;
    expect(selectCautions({ ...state, settings: imperial })).toBe(selectCautions(state));
  });

  it('writes moments by day and clock, as the rest of the window does', () => {
    const trip = demoTrip();
    const last = trip.dives.at(-1)!;
    const flight = { at: `${last.startsAt.slice(0, 10)}T23:00` };
    const at = (clock: '12h' | '24h') => {
      const state = freshDesk({ ...trip, flight });
      const found = selectCautions(state).find(({ code }) => code === 'flight-too-soon')!;
      return wordsIn({ units: 'metric', clock })(found.says);
    };
    expect(at('24h')).toMatch(/flying is clear on \w{3} \d+, \d\d:\d\d, 18 h/);
    expect(at('12h')).toMatch(/be out of the water by \w{3} \d+, 5:00 am, or take a later flight/);
    expect(at('12h')).not.toMatch(/\d{4}-\d\d/);
  });

  it('writes days in words too', () => {
    const trip = demoTrip();
    const early = { ...trip.dives[0]!, depthM: 8, bottomMin: 10 };
    const more = ['06:00', '07:30'].map((time, i) => ({
      ...early,
      id: `early${i}`,
      startsAt: `2027-03-14T${time}`,
    }));
    const state = freshDesk({ ...trip, dives: [...more, ...trip.dives] });
    const many = selectCautions(state).find(({ code }) => code === 'many-dives')!;
    expect(wordsIn({ units: 'metric', clock: '24h' })(many.says)).toContain('5 dives on Sun 14 March: ');
  });
});

describe('selectTight', () => {
  const mixes = [AIR, RICH];
  const party = [aDiver({ maxO2: 1 })];
  const easy = aDive({ startsAt: '2027-03-06T08:00', depthM: 10, bottomMin: 20 });
  const hot = aDive({ startsAt: '2027-03-07T08:00', depthM: 38, bottomMin: 5, mix: 'rich' });
  const after = aDive({ startsAt: '2027-03-07T12:00', depthM: 10, bottomMin: 20 });

  it('leaves out a dive above 1.6 bar, which is past and not tight; of its day it is the least', () => {
    const state = freshDesk(aTrip([easy, hot, after], { party, mixes }));
    expect(selectTight(state).map(({ dive }) => dive)).toEqual([easy]);
    expect(selectStanding(state).past).toEqual([hot.id]);
    expect(selectTightOfDays(state).map(({ dive }) => dive)).toEqual([easy, hot]);
    expect(partyFigures(selectLedger(state), selectRooms(state))[0]!.tightest!.dive).toBe(hot);
  });

  it('shows the diver who is past a limit before one whose clocks are not known', () => {
    const both = aDive({ startsAt: '2027-03-08T08:00', depthM: 30, bottomMin: 10 });
    const unknown = { ...hot, divers: ['guest-1'] };
    const second = aDiver({ id: 'g2', name: 'Guest 2', maxDepthM: 20 });
    const state = freshDesk(aTrip([unknown, both], { party: [...party, second], mixes }));
    expect(entriesOf(state, both.id).map(({ diver }) => diver.id)).toEqual(['g2', 'guest-1']);
  });
});
