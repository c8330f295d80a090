import { useMemo, useState, type KeyboardEvent, type ReactNode } from 'react';
import { closeOverlay } from '../actions/view';
import { COMMANDS, commandsOfTrip } from '../commands/all';
import { chordText, fit, isEnabled, labelOf, type Command } from '../commands/registry';
import { Dialog } from '../parts/dialog';
import { desk } from '../store/store';
import { isMac } from './keys';

const SHOWN = 60;

interface Found {
  readonly command: Command;
  readonly label: string;
  readonly score: number;
}

/** Best first; among equals the order of the list. Without a query the commands, not the trip's own. */
function find(query: string): readonly Found[] {
  const state = desk.getState();
  const all = query.trim() === '' ? COMMANDS : [...COMMANDS, ...commandsOfTrip(state)];
  return all
    .filter((command) => command.id !== 'help.palette' && isEnabled(command, state))
    .map((command) => {
      const label = labelOf(command, state);
      return {
        command,
        label,
        score: Math.max(fit(query, label), fit(query, `${command.group} ${label}`) * 0.9),
      };
    })
    .filter(({ score }) => score > 0)
    .toSorted((a, b) => b.score - a.score)
    .slice(0, SHOWN);
}

function runAndClose(command: Command): void {
  closeOverlay();
  command.run();
}

/** Type a few letters of a command, a diver or a dive; arrows choose, Enter does it. */
export function Palette(): ReactNode {
  const [query, setQuery] = useState('');
  const [at, setAt] = useState(0);
  const found = useMemo(() => find(query), [query]);
  const chosen = Math.min(at, Math.max(0, found.length - 1));

  const onKeyDown = (event: KeyboardEvent): void => {
    const by = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (by !== undefined && found.length > 0) {
      event.preventDefault();
      const next = (chosen + by + found.length) % found.length;
      setAt(next);
      document.getElementById(`palette-${next}`)?.scrollIntoView({ block: 'nearest' });
    } else if (event.key === 'Enter') {
      event.preventDefault();
      const hit = found[chosen];
      if (hit) runAndClose(hit.command);
    }
  };

  return (
    <Dialog title="Find a command" hideTitle onClose={closeOverlay}>
      <div className="palette">
        <input
          type="text"
          role="combobox"
          aria-label="Find a command, a diver or a dive"
          aria-expanded="true"
          aria-controls="palette-list"
          aria-autocomplete="list"
          {...(found.length > 0 ? { 'aria-activedescendant': `palette-${chosen}` } : {})}
          autoComplete="off"
          spellCheck={false}
          placeholder="What would you like to do?"
          value={query}
          onChange={(event) => {
            setQuery(event.target.value);
            setAt(0);
          }}
          onKeyDown={onKeyDown}
        />
        <div id="palette-list" role="listbox" aria-label="Commands">
          {found.map(({ command, label }, i) => (
            <div
              key={command.id}
              id={`palette-${i}`}
              role="option"
              aria-selected={i === chosen}
              className="palette-row"
              onMouseMove={() => setAt(i)}
              onClick={() => runAndClose(command)}
            >
              <span className="palette-group">{command.group}</span>
              <span>{label}</span>
              {command.keys?.[0] ? <kbd>{chordText(command.keys[0], isMac())}</kbd> : null}
            </div>
          ))}
        </div>
        {found.length === 0 ? (
          <p className="soft palette-none" role="status">
            Nothing is called that. Try “depth”, “feet” or the name of a site.
          </p>
        ) : null}
      </div>
    </Dialog>
  );
}
