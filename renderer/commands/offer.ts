/** Tells the host which commands there are, for a menu of the system's own; again whenever a label or state changes. */
import type { Host, MenuCommand } from '../../core/host';
import { desk, type Desk } from '../store/store';
import { COMMANDS } from './all';
import { isEnabled, isUnderSheet, labelOf } from './registry';

export function menuCommands(state: Desk): readonly MenuCommand[] {
  const isReachable = !isUnderSheet(state);
  return COMMANDS.map((command) => {
    const [keys] = command.keys ?? [];
    return {
      id: command.id,
      label: labelOf(command, state),
      group: command.group,
      ...(keys === undefined ? {} : { keys }),
      enabled: isReachable && isEnabled(command, state),
    };
  });
}

/** What the system's menu asks for: nothing under a sheet, where the menu's keys do nothing either. */
export function runFromMenu(id: string): void {
  const state = desk.getState();
  const command = COMMANDS.find((each) => each.id === id);
  if (command && !isUnderSheet(state) && isEnabled(command, state)) command.run();
}

/**
 * Offers the commands as they stand, and again where one of them changed.
 * @param afterMs what changes within it is told together: a key is not to wait for a menu
 * @returns how to stop
 */
export function offerCommands(host: Host, afterMs = 50): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let offered = '';
  const offer = (): void => {
    timer = undefined;
    const commands = menuCommands(desk.getState());
    const text = JSON.stringify(commands);
    if (text === offered) return;
    offered = text;
    host.offerCommands(commands);
  };
  offer();
  const stop = desk.subscribe((now, before) => {
    // A drag changes the trip many times a second and no label until it ends.
    const same =
      now.history === before.history &&
      now.overlay === before.overlay &&
      now.ready === before.ready &&
      now.selection === before.selection &&
      now.settings === before.settings;
    if (!same) timer ??= setTimeout(offer, afterMs);
  });
  return () => {
    clearTimeout(timer);
    stop();
  };
}
