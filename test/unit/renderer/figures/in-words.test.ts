import { beforeEach, describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/trip/demo-trip';
import { setStart } from '../../../../renderer/actions/dives';
import { inWords } from '../../../../renderer/figures/in-words';
import { desk, freshDesk } from '../../../../renderer/store/store';

describe('inWords', () => {
  const trip = demoTrip();
  const second = trip.dives[1]!;

  it('names dives by their number and moments by day and clock', () => {
    const trouble = {
      kind: 'invalid',
      what: `It starts 2027-03-17T07:30, while the party surfaces from "${second.id}" at 2027-03-17T19:35.`,
      where: `dives[0].startsAt (dive "${trip.dives[0]!.id}")`,
      mend: 'Start it at 2027-03-17T19:35 or later.',
    };
    expect(inWords(trouble, trip, '12h')).toEqual({
      kind: 'invalid',
      what: 'Dive 1 starts Wed 17 7:30 am, while the party surfaces from dive 2 at Wed 17 7:35 pm.',
      where: trouble.where,
      mend: 'Start it at Wed 17 7:35 pm or later.',
    });
  });

  it('leaves alone what is no dive of the trip', () => {
    const trouble = {
      kind: 'invalid',
      what: 'It has no site "nowhere".',
      where: 'sites[0]',
      mend: 'Add it.',
    };
    expect(inWords(trouble, trip, '24h')).toEqual(trouble);
  });
});

describe('a refused edit', () => {
  beforeEach(() => {
    desk.setState(freshDesk(demoTrip()));
  });

  it('says which dives clash, by their numbers on screen', () => {
    const { dives } = desk.getState().trip;
    const result = setStart(dives[1]!.id, dives[0]!.startsAt.replace(/T.*/, 'T09:40'));
    expect(result.ok).toBe(false);
    if (result.ok) return;
    expect(result.troubles[0].what).toMatch(/^Dive \d+ starts .* surfaces from dive \d+ at /);
    expect(result.troubles[0].what).not.toMatch(/T\d\d:|"/);
  });
});
