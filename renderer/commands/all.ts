/** Every command of the window, one list: the menu, buttons, the palette, keys and the desktop menu read it. */
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

export function commandById(id: string): Command {
  const found = COMMANDS.find((command) => command.id === id);
  if (!found) throw new Error(`Carryover has a fault: there is no command "${id}"`);
  return found;
}
