import { afterEach, describe, expect, it } from 'vitest';
import { fileWords } from '../../../../../core/words/reader';
import { newDiverIds, putDivers } from '../../../../../renderer/actions/party-cells';
import {
  cellText,
  DIVER_FIELDS,
  namesIn,
  readDiverCell,
  type DiverField,
} from '../../../../../renderer/places/party/diver-cells';
import { desk, freshDesk } from '../../../../../renderer/store/store';
import { aDiver, aTrip } from '../../../../builders/trip';

const party = [aDiver(), aDiver({ id: 'b', name: 'Guest 2', group: { name: 'Second boat', afterMin: 10 } })];

/** What a cell says after a text was typed into it, or why it was not taken. */
function after(text: string, field: DiverField, units: 'metric' | 'imperial' = 'metric'): string {
  const change = readDiverCell(text, field, party[0]!, { units, party });
  return typeof change === 'function' ? cellText(change(party[0]!), field, units) : fileWords(change);
}

describe('a cell of the divers', () => {
  it.each<[DiverField, string, string]>([
    ['certification', 'deep, nitrox', 'deep, nitrox'],
    ['certification', '', ''],
    ['rate', '16,5', '16.5'],
    ['cylinder', '2x12', '24 L'],
    ['cylinderNo', '17', '17'],
    ['fill', '3000 psi', '206'],
    ['reserve', '60 bar', '60'],
    ['depth', '100 ft', '30.4'],
    ['ceiling', '36', '36'],
    ['po2', '1.3/1.5', '1.3/1.5'],
    ['po2', '1.3', '1.3/1.6'],
    ['gradient', '45/75', '45/75'],
    ['group', 'Shore +15', 'Shore, +15 min'],
    ['group', 'Shore, +15 min', 'Shore, +15 min'],
    ['group', 'Second boat', 'Second boat, +10 min'],
    ['group', 'Boat 2', 'Boat 2'],
    ['group', '', ''],
  ])('reads into %s what is typed as %j', (field, text, shown) => {
    expect(after(text, field)).toBe(shown);
  });

  it.each<[DiverField, string]>([
    ['rate', 'much'],
    ['cylinder', 'big'],
    ['po2', '1.2/1.4/1.6'],
    ['gradient', 'x/80'],
    ['group', '+10'],
    ['group', 'Shore +soon'],
  ])('refuses in %s what is typed as %j', (field, text) => {
    expect(after(text, field)).toMatch(/\.$/);
  });

  it('says again what it read, in both units', () => {
    for (const units of ['metric', 'imperial'] as const) {
      for (const field of DIVER_FIELDS) {
        const said = cellText(party[1]!, field, units);
        const change = readDiverCell(said, field, party[1]!, { units, party });
        expect(typeof change === 'function' && cellText(change(party[1]!), field, units)).toBe(said);
      }
    }
  });

  it('takes names with commas, semicolons and one a line', () => {
    expect(namesIn(' Ann, Bo;Cy\nDee ,')).toEqual(['Ann', 'Bo', 'Cy', 'Dee']);
  });
});

describe('putDivers', () => {
  afterEach(() => desk.setState(freshDesk(), true));

  it('takes what can be in one step, and says of the rest why not', () => {
    desk.setState(freshDesk(aTrip([], { party })), true);
    const [id] = newDiverIds(1);
    const told = putDivers(
      [
        { id: id!, name: 'Ann' },
        { id: 'x', name: 'guest 2' },
      ],
      [
        { id: id!, change: (diver) => ({ ...diver, maxO2: 0.36 }) },
        { id: 'b', change: (diver) => ({ ...diver, maxO2: 5 }) },
        { id: 'b', change: (diver) => ({ ...diver, name: 'Guest 1' }) },
        { id: 'x', change: (diver) => ({ ...diver, maxO2: 0.32 }) },
      ],
      'Several',
    );
    expect(told.added.map((why) => why && fileWords(why))).toEqual([
      null,
      expect.stringContaining('Guest 2 is the name of another diver.'),
    ]);
    expect(told.edits.map((why) => why !== null)).toEqual([false, true, true, false]);
    const now = desk.getState();
    expect(now.trip.party.map(({ name, maxO2 }) => [name, maxO2])).toEqual([
      ['Guest 1', 0.4],
      ['Guest 2', 0.4],
      ['Ann', 0.36],
    ]);
    expect(now.history.past).toHaveLength(1);
  });

  it('lets a whole group enter at the minutes typed for one of it', () => {
    const other = aDiver({ id: 'c', name: 'Guest 3', group: { name: 'Second boat', afterMin: 10 } });
    desk.setState(freshDesk(aTrip([], { party: [...party, other] })), true);
    const change = readDiverCell('Second boat +25', 'group', other, { units: 'metric', party });
    if (typeof change !== 'function') throw new Error('refused');
    putDivers([], [{ id: 'c', change }], 'Group');
    expect(desk.getState().trip.party.map(({ group }) => group?.afterMin)).toEqual([undefined, 25, 25]);
  });
});
