/** Finding commands by what is typed, and what to type where nothing is found. */
import type { Desk } from '../store/store';
import { COMMANDS } from './all';
import { commandsOfTrip } from './of-trip';
import { fit, isEnabled, labelOf, type Command } from './registry';

const SHOWN = 60;

export interface Found {
  readonly command: Command;
  readonly label: string;
  readonly score: number;
}

/** Best first; among equals the order of the list. Without a query the commands, not the trip's own. */
export function findCommands(query: string, state: Desk): readonly Found[] {
  const all = query.trim() === '' ? COMMANDS : [...COMMANDS, ...commandsOfTrip(state)];
  return all
    .filter((command) => command.id !== 'help.palette' && isEnabled(command, state))
    .map((command) => {
      const label = labelOf(command, state);
      return {
        command,
        label,
        score: Math.max(
          fit(query, label),
          fit(query, `${command.group} ${label}`) * 0.9,
          // What it is called goes before what else people call it.
          fit(query, `${label} ${command.finds ?? ''}`) * 0.5,
        ),
      };
    })
    .filter(({ score }) => score > 0)
    .toSorted((a, b) => b.score - a.score)
    .slice(0, SHOWN);
}

/** What people look for first. */
const TRIED = ['undo', 'feet', 'metres', 'print'] as const;

/** What to try where nothing was found: only what would be. */
export function hintWhereNone(state: Desk): string {
  const [first, second] = TRIED.filter((word) => findCommands(word, state).length > 0);
  const third = state.trip.dives.length > 0 ? 'the name of a site' : '“keys”';
  return `Try “${first}”, “${second}” or ${third}.`;
}
