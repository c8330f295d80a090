import type { ReactNode } from 'react';
import { changeSettings, goTo, showOverlay } from '../actions/view';
import { save } from '../actions/files';
import { chordText } from '../commands/registry';
import { clockText } from '../figures/format';
import { localText } from '../figures/local-time';
import { CommandButton } from '../parts/command-button';
import { isUnsaved } from '../store/autosave';
import { useDesk } from '../store/store';
import { isMac } from './keys';
import { PLACES } from '../commands/place-names';
import { TripMenu } from './trip-menu';
import styles from './header.module.css';

export function Header(): ReactNode {
  // Until the last trip is there, nobody's title stands here.
  const title = useDesk(({ ready, trip }) => (ready ? trip.title : 'Carryover'));
  const place = useDesk(({ settings }) => settings.place);
  const units = useDesk(({ settings }) => settings.units);
  return (
    <header className={styles.head}>
      <h1>
        <button
          type="button"
          className={styles.title}
          title="Title, water and flight"
          onClick={() => showOverlay({ kind: 'trip' })}
        >
          {title}
        </button>
      </h1>
      <nav aria-label="Places">
        {PLACES.map(({ id, label }) => (
          <button
            key={id}
            type="button"
            className={styles.place}
            {...(id === place ? { 'aria-current': 'page' as const } : {})}
            onClick={() => goTo(id)}
          >
            {label}
          </button>
        ))}
      </nav>
      <div className={styles.end}>
        <SavedLine />
        <TripMenu />
        <CommandButton id="edit.undo">Undo</CommandButton>
        <CommandButton id="edit.redo">Redo</CommandButton>
        <button
          type="button"
          className="plain"
          aria-label={units === 'metric' ? 'Units: metres. Change to feet' : 'Units: feet. Change to metres'}
          onClick={() => changeSettings({ units: units === 'metric' ? 'imperial' : 'metric' })}
        >
          {units === 'metric' ? 'metres' : 'feet'}
        </button>
        <CommandButton id="help.palette">{`Find or do ${chordText('Mod+K', isMac())}`}</CommandButton>
      </div>
    </header>
  );
}

/** When the trip on screen was last kept, or that it is not. */
function SavedLine(): ReactNode {
  const ready = useDesk((state) => state.ready);
  const keeping = useDesk((state) => state.keeping);
  const unsaved = useDesk(isUnsaved);
  const clock = useDesk(({ settings }) => settings.clock);
  if (!ready) return null;
  if (keeping.trouble) {
    return (
      <span className={styles.saved} data-part="saved" role="alert">
        Not saved: {keeping.trouble.what}{' '}
        <button type="button" className="linked" onClick={() => void save()}>
          Try again
        </button>
      </span>
    );
  }
  if (keeping.savedAt === null)
    return (
      <span className={styles.saved} data-part="saved">
        Not saved
      </span>
    );
  if (unsaved || keeping.writing)
    return (
      <span className={styles.saved} data-part="saved">
        Saving…
      </span>
    );
  return (
    <span className={styles.saved} data-part="saved">
      Saved {clockText(localText(new Date(keeping.savedAt)), clock)}
    </span>
  );
}
