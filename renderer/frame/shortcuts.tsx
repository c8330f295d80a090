import type { ReactNode } from 'react';
import { closeOverlay } from '../actions/view';
import { COMMANDS } from '../commands/all';
import { chordText, type CommandGroup } from '../commands/registry';
import { Dialog } from '../parts/dialog';
import { STRIP_KEYS } from '../places/days/strip/strip-key-list';
import { isMac } from './keys';

const GROUPS: readonly CommandGroup[] = ['Trip', 'Edit', 'Dive', 'Places', 'View', 'Help'];

/** What keys do on the strip and in fields, beside the commands. */
const ELSEWHERE = [
  ['In a field: keep what was typed', 'Enter'],
  ['In a field: back to what it was', 'Escape'],
  ['In a field: a step up or down', 'Up, Down'],
  ['In a field: a large step', 'Shift with Up, Down'],
  ...STRIP_KEYS.map(({ what, keys }) => [`On a dive of the strip: ${what}`, keys] as const),
] as const;

export function Shortcuts(): ReactNode {
  return (
    <Dialog title="Keys" width="wide" onClose={closeOverlay}>
      <div className="key-sheet">
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
        <section>
          <h3>In fields and on the strip</h3>
          <dl>
            {ELSEWHERE.map(([what, keys]) => (
              <div key={what}>
                <dt>{what}</dt>
                <dd>
                  <kbd>{keys}</kbd>
                </dd>
              </div>
            ))}
          </dl>
        </section>
      </div>
    </Dialog>
  );
}
