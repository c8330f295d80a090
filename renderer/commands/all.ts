/** Every command of the window, one list: the menu, buttons, the palette, keys and the desktop menu read it. */
import { chooseDives, chooseDiver, goTo } from '../actions/view';
import { clockText, dateText } from '../figures/format';
import type { Desk } from '../store/store';
import { TRIP_COMMANDS } from './trip-commands';
import { DIVE_COMMANDS, EDIT_COMMANDS } from './dive-commands';
import { HELP_COMMANDS, PLACE_COMMANDS, VIEW_COMMANDS } from './view-commands';
import type { Command } from './registry';

export const COMMANDS: readonly Command[] = [
  ...TRIP_COMMANDS,
  ...EDIT_COMMANDS,
  ...DIVE_COMMANDS,
  ...PLACE_COMMANDS,
  ...VIEW_COMMANDS,
  ...HELP_COMMANDS,
];

/** What the trip itself offers beside them: a diver to look at, a dive to go to. For the palette. */
export function commandsOfTrip({ trip: open, settings }: Desk): readonly Command[] {
  const divers = open.party.map(({ id, name }): Command => ({
    id: `look-at.${id}`,
    group: 'View',
    label: `Figures of ${name}`,
    run: () => chooseDiver(id),
  }));
  const sites = new Map(open.sites.map(({ id, name }) => [id, name]));
  const dives = open.dives.map(({ id, siteId, startsAt }, i): Command => ({
    id: `go-to.${id}`,
    group: 'Dive',
    label: `Dive ${i + 1}, ${sites.get(siteId) ?? siteId}, ${dateText(startsAt)}, ${clockText(startsAt, settings.clock)}`,
    run: () => {
      goTo('days');
      chooseDives([id]);
    },
  }));
  return [...divers, ...dives];
}

export function commandById(id: string): Command {
  const found = COMMANDS.find((command) => command.id === id);
  if (!found) throw new Error(`Carryover has a fault: there is no command "${id}"`);
  return found;
}
