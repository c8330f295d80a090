import type { ReactNode } from 'react';
import { closeOverlay } from '../actions/view';
import { COMMANDS } from '../commands/all';
import { chordText, type CommandGroup } from '../commands/registry';
import { Dialog } from '../parts/dialog';
import { STRIP_HAND } from '../places/days/strip/strip-hand-list';
import { STRIP_KEYS } from '../places/days/strip/strip-key-list';
import { isMac } from './keys';
import styles from './shortcuts.module.css';

const GROUPS: readonly CommandGroup[] = ['Trip', 'Edit', 'Dive', 'Places', 'View', 'Help'];

/** What keys do in fields, beside the commands. */
const IN_FIELDS = [
  ['keep what was typed', 'Enter'],
  ['back to what it was', 'Escape'],
  ['a step up or down', 'Up, Down'],
  ['a large step', 'Shift with Up, Down'],
] as const;

const ON_A_DIVE = STRIP_KEYS.map(({ what, keys }) => [what, keys] as const);
const BY_HAND = STRIP_HAND.map(({ what, hand }) => [what, hand] as const);

function Section(props: {
  readonly title: string;
  readonly rows: readonly (readonly [what: string, keys: string])[];
}): ReactNode {
  return (
    <section>
      <h3>{props.title}</h3>
      <dl>
        {props.rows.map(([what, keys]) => (
          <div key={what}>
            <dt>{what}</dt>
            <dd>
              <kbd>{keys}</kbd>
            </dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

export function Shortcuts(): ReactNode {
  return (
    <Dialog title="Keys" width="wide" onClose={closeOverlay}>
      <div className={styles.keys}>
        {GROUPS.map((group) => {
          const withKeys = COMMANDS.filter((command) => command.group === group && command.keys);
          if (withKeys.length === 0) return null;
          return (
            <section key={group}>
              <h3>{group}</h3>
              <dl>
                {withKeys.map(({ id, label, keys = [] }) => (
                  <div key={id}>
                    <dt>{label}</dt>
                    <dd>
                      {keys.map((chord) => (
                        <kbd key={chord}>{chordText(chord, isMac())}</kbd>
                      ))}
                    </dd>
                  </div>
                ))}
              </dl>
            </section>
          );
        })}
        <Section title="In a field" rows={IN_FIELDS} />
        <Section title="On a dive of the strip" rows={ON_A_DIVE} />
        <Section title="By hand on the strip" rows={BY_HAND} />
      </div>
    </Dialog>
  );
}
