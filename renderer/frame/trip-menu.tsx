import { useEffect, useRef, useState, type KeyboardEvent, type ReactNode } from 'react';
import { COMMANDS } from '../commands/all';
import { chordText, isEnabled, labelOf, type Command } from '../commands/registry';
import { CAN_RUN, walkMenu } from '../parts/menu-keys';
import { desk, useDesk } from '../store/store';
import { isMac } from './keys';
import styles from './trip-menu.module.css';

/** What stands together in the menu, under a heading; a command of the trip that no group names stands in the third. */
const GROUPS: readonly { readonly name: string; readonly ids: readonly string[] }[] = [
  { name: 'Begin', ids: ['trip.lay-out', 'trip.new', 'trip.open', 'trip.library', 'trip.demo'] },
  {
    name: 'Save and print',
    ids: [
      'trip.save',
      'trip.save-as',
      ...COMMANDS.map(({ id }) => id).filter((id) => id.startsWith('save.')),
      'trip.print',
    ],
  },
  { name: 'This trip', ids: ['trip.details', 'view.table', 'sites.list', 'view.cautions'] },
  { name: 'Carryover', ids: ['help.guide', 'help.settings', 'help.keys', 'help.about'] },
];

const NAMED: ReadonlySet<string> = new Set(GROUPS.flatMap(({ ids }) => ids));

const IN_MENU = GROUPS.map(
  ({ name, ids }, at): { readonly name: string; readonly commands: readonly Command[] } => {
    const named = ids.flatMap((id) => COMMANDS.filter((command) => command.id === id));
    const others = at === 2 ? COMMANDS.filter(({ group, id }) => group === 'Trip' && !NAMED.has(id)) : [];
    return { name, commands: [...named, ...others] };
  },
);

/** The commands of the trip behind one button; arrows walk it, Escape closes it and gives the button focus. */
export function TripMenu(): ReactNode {
  const [isOpen, setOpen] = useState(false);
  const box = useRef<HTMLDivElement>(null);
  const button = useRef<HTMLButtonElement>(null);
  const list = useRef<HTMLDivElement>(null);

  useEffect(() => {
    if (!isOpen) return undefined;
    list.current?.querySelector<HTMLElement>(CAN_RUN)?.focus();
    const close = (event: PointerEvent): void => {
      if (event.target instanceof Node && !box.current?.contains(event.target)) setOpen(false);
    };
    document.addEventListener('pointerdown', close);
    return () => document.removeEventListener('pointerdown', close);
  }, [isOpen]);

  const onKeyDown = (event: KeyboardEvent): void => {
    if (!isOpen) return;
    if (walkMenu(list.current, event.key)) event.preventDefault();
    else if (event.key === 'Escape') {
      event.stopPropagation();
      setOpen(false);
      button.current?.focus();
    } else if (event.key === 'Tab') {
      setOpen(false);
    }
  };

  return (
    <div className={styles.box} ref={box} onKeyDown={onKeyDown}>
      <button
        ref={button}
        type="button"
        className="plain"
        aria-haspopup="menu"
        aria-expanded={isOpen}
        onClick={() => setOpen(!isOpen)}
      >
        Trip
      </button>
      {isOpen ? (
        <div className={styles.menu} role="menu" aria-label="Trip" ref={list}>
          {IN_MENU.map(({ name, commands }) => (
            <div key={name} role="group" aria-label={name} className={styles.group}>
              <p aria-hidden="true">{name}</p>
              {commands.map((command) => (
                <MenuItem
                  key={command.id}
                  command={command}
                  onRun={() => {
                    setOpen(false);
                    button.current?.focus();
                    command.run();
                  }}
                />
              ))}
            </div>
          ))}
        </div>
      ) : null}
    </div>
  );
}

function MenuItem({ command, onRun }: { readonly command: Command; readonly onRun: () => void }): ReactNode {
  const label = useDesk((state) => labelOf(command, state));
  const [chord] = command.keys ?? [];
  return (
    <button
      type="button"
      role="menuitem"
      tabIndex={-1}
      disabled={!isEnabled(command, desk.getState())}
      onClick={onRun}
    >
      <span>{label}</span>
      {chord ? <kbd>{chordText(chord, isMac())}</kbd> : null}
    </button>
  );
}
