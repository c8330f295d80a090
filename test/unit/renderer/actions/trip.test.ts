import { beforeEach, describe, expect, it } from 'vitest';
import { setEmergency } from '../../../../renderer/actions/trip';
import { desk, freshDesk } from '../../../../renderer/store/store';

const told = () => desk.getState().trip.emergency;

describe('setEmergency', () => {
  beforeEach(() => desk.setState(freshDesk()));

  it('keeps what is told, and takes out of the trip what is left blank', () => {
    expect(told()).toBeUndefined();
    setEmergency('oxygen', 'Dive deck');
    setEmergency('radio', 'Channel 16');
    expect(told()).toEqual({ oxygen: 'Dive deck', radio: 'Channel 16' });
    setEmergency('oxygen', '');
    expect(told()).toEqual({ radio: 'Channel 16' });
    setEmergency('radio', '');
    expect('emergency' in desk.getState().trip).toBe(false);
  });

  it('refuses what a line of the briefing cannot hold, and says which', () => {
    const refused = setEmergency('chamber', 'x'.repeat(121));
    expect(refused.ok).toBe(false);
    expect(refused.ok ? '' : refused.troubles[0].what).toContain('Nearest chamber has 121 characters');
    expect(told()).toBeUndefined();
  });
});
