import { useMemo, useState, type KeyboardEvent, type ReactNode } from 'react';
import { closeOverlay } from '../actions/view';
import { findCommands, hintWhereNone } from '../commands/find';
import { chordText, type Command } from '../commands/registry';
import { Dialog } from '../parts/dialog';
import { desk, useDesk } from '../store/store';
import { isMac } from './keys';
import styles from './palette.module.css';

function runAndClose(command: Command): void {
  closeOverlay();
  command.run();
}

/** Type a few letters of a command, a diver or a dive; arrows choose, Enter does it. */
export function Palette(): ReactNode {
  const [query, setQuery] = useState('');
  const [at, setAt] = useState(0);
  // Another trip may come while it is open, with other dives to go to.
  const trip = useDesk((state) => state.trip);
  const found = useMemo(() => findCommands(query, { ...desk.getState(), trip }), [query, trip]);
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
      <div className={styles.palette}>
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
              className={styles.row}
              onMouseMove={() => setAt(i)}
              onClick={() => runAndClose(command)}
            >
              <span className={styles.group}>{command.group}</span>
              <span>{label}</span>
              {command.keys?.[0] ? <kbd>{chordText(command.keys[0], isMac())}</kbd> : null}
            </div>
          ))}
        </div>
        {found.length === 0 ? (
          <p className={`soft ${styles.none}`} role="status">
            Nothing is called that. {hintWhereNone(desk.getState())}
          </p>
        ) : null}
      </div>
    </Dialog>
  );
}
