import { describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { wordsIn } from '../../../../renderer/figures/reader';
import { selectCautions } from '../../../../renderer/store/selectors';
import { freshDesk } from '../../../../renderer/store/store';

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
