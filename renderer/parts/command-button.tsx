import type { ReactNode } from 'react';
import { commandById } from '../commands/all';
import { isEnabled, labelOf } from '../commands/registry';
import { useDesk } from '../store/store';

/** A button for a command of the registry: its label, its state, its keys in the title. */
export function CommandButton(props: {
  readonly id: string;
  readonly className?: string;
  /** Shown in place of the label, which stays the name for who cannot see it. */
  readonly children?: string;
}): ReactNode {
  const command = commandById(props.id);
  const label = useDesk((state) => labelOf(command, state));
  const enabled = useDesk((state) => isEnabled(command, state));
  return (
    <button
      type="button"
      className={props.className ?? 'plain'}
      disabled={!enabled}
      title={label}
      {...(props.children === undefined ? {} : { 'aria-label': nameFor(props.children, label) })}
      onClick={command.run}
    >
      {props.children ?? label}
    </button>
  );
}

/** The text on a button must be part of its name, or speech control cannot call it. */
function nameFor(shown: string, label: string): string {
  return label.toLowerCase().includes(shown.toLowerCase()) ? label : `${shown}: ${label}`;
}
