import { beforeEach, describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { findCommands, hintWhereNone } from '../../../../renderer/commands/find';
import { chooseDives } from '../../../../renderer/actions/view';
import { blankTrip } from '../../../../renderer/store/blank-trip';
import { desk, freshDesk } from '../../../../renderer/store/store';

beforeEach(() => desk.setState(freshDesk(demoTrip()), true));

const labels = (query: string): readonly string[] =>
  findCommands(query, desk.getState()).map(({ label }) => label);

describe('dives of the trip', () => {
  it('are listed by the words of the window', () => {
    const { trip, settings } = desk.getState();
    const site = trip.sites.find(({ id }) => id === trip.dives[11]!.siteId)!;
    expect(labels('dive 12')[0]).toBe(`Dive 12, ${site.name}, Wed 17, 09:25`);
    desk.setState({ settings: { ...settings, clock: '12h' } });
    expect(labels('dive 12')[0]).toBe(`Dive 12, ${site.name}, Wed 17, 9:25 am`);
  });

  it.each(['wed 17', 'Wed 17, 09:25', '09:25', 'dive 12 wed'])('are found by “%s”', (query) => {
    expect(labels(query).some((label) => label.startsWith('Dive 12, '))).toBe(true);
  });
});

describe('commands', () => {
  it.each([
    ['export', 'Save the ledger as CSV'],
    ['lay out', 'Draft a new trip'],
    ['pdf', 'Slates'],
    ['dark', 'Cabin at night'],
    ['zoom', 'Larger text'],
    ['swap', 'Swap with another dive'],
    ['backup', 'My trips'],
    ['backup', 'Save a copy as a file'],
    ['delete', 'Remove the dive'],
    ['spreadsheet', 'The dives as a table'],
    ['warnings', 'All cautions'],
    ['nitrox', 'Mixes'],
    ['shortcuts', 'Keys'],
  ])('are found by other words for them: “%s” finds “%s”', (query, label) => {
    chooseDives([desk.getState().trip.dives[0]!.id]);
    expect(labels(query)).toContain(label);
  });

  it('come first where they are called so', () => {
    chooseDives([desk.getState().trip.dives[0]!.id]);
    expect(labels('print')[0]).toBe('Print this view');
    expect(labels('copy the dive')[0]).toBe('Copy the dive');
  });

  it.each(['Days', 'Sites', 'Mixes', 'Party', 'Slates', 'Settings'])(
    'are first where that is all they are called: “%s”',
    (label) => {
      expect(labels(label.toLowerCase())[0]).toBe(label);
    },
  );
});

describe('what to try where nothing is found', () => {
  it.each([
    ['the demo', demoTrip()],
    ['an empty trip', blankTrip()],
  ])('would be found, in %s and either units', (_, trip) => {
    for (const units of ['metric', 'imperial'] as const) {
      desk.setState({ trip, settings: { ...desk.getState().settings, units } });
      const words = [...hintWhereNone(desk.getState()).matchAll(/“(.*?)”/g)].map(([, word]) => word!);
      expect(words.length).toBeGreaterThan(1);
      for (const word of words) expect(labels(word)).not.toEqual([]);
    }
    expect(labels('depth')).toEqual([]);
  });
});
