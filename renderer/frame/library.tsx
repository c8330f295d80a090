import { useEffect, useState, type ReactNode } from 'react';
import type { HostResult, HostTrouble, TripSummary, TripToken, TripVersion } from '../../core/host';
import { newTrip, openDemo, openFile, openKept } from '../actions/files';
import { removeKept, takeVersion } from '../actions/stored-trips';
import { closeOverlay, showOverlay } from '../actions/view';
import { clockText, dateText } from '../figures/format';
import { localText } from '../figures/local-time';
import { Dialog } from '../parts/dialog';
import { machine } from '../store/machine';
import { desk, useDesk } from '../store/store';
import styles from './library.module.css';

/** A list asked of the host: undefined until it first comes; asked again, the one before stands so long. */
function useAsked<T>(ask: () => Promise<HostResult<T>>, key: unknown): HostResult<T> | undefined {
  const [answer, setAnswer] = useState<HostResult<T>>();
  useEffect(() => {
    let isWanted = true;
    void ask().then((result) => {
      if (isWanted) setAnswer(result);
    });
    return () => {
      isWanted = false;
    };
    // oxlint-disable-next-line react/exhaustive-deps -- `key` says when to ask again; `ask` is new each time.
  }, [key]);
  return answer;
}

/** A moment in UTC as this machine's date and time. */
function whenText(iso: string, clock: '24h' | '12h'): string {
  const local = localText(new Date(iso));
  return `${dateText(local, true)}, ${clockText(local, clock)}`;
}

function Failed({ trouble }: { readonly trouble: HostTrouble }): ReactNode {
  return (
    <p className="care" role="alert">
      {trouble.what} {trouble.mend}
    </p>
  );
}

export function Library(): ReactNode {
  const [round, setRound] = useState(0);
  const asked = useAsked(() => machine().listTrips(), round);
  const open = useDesk(({ keeping }) => keeping.token);
  const clock = useDesk(({ settings }) => settings.clock);
  const remove = async (token: TripToken): Promise<void> => {
    await removeKept(token);
    setRound(round + 1);
  };
  return (
    <Dialog
      title="My trips"
      width="wide"
      onClose={closeOverlay}
      foot={
        <>
          <button type="button" className="button" onClick={() => void openDemo()}>
            Open the demo trip
          </button>
          <button type="button" className="button" onClick={() => void openDemo(true)}>
            The demo over a pass
          </button>
          <button type="button" className="button" onClick={() => void openFile()}>
            Open a file
          </button>
          <button type="button" className="button first" onClick={() => void newTrip()}>
            New trip
          </button>
        </>
      }
    >
      {asked === undefined ? <p className="soft">Looking…</p> : null}
      {asked && !asked.ok ? <Failed trouble={asked.trouble} /> : null}
      {asked?.ok && asked.value.length === 0 ? (
        <p className="soft">No trip is saved here yet. The one on screen is saved with its first change.</p>
      ) : null}
      {asked?.ok && asked.value.length > 0 ? (
        <ul className={styles.library}>
          {asked.value.map((trip) => (
            <TripRow
              key={trip.token}
              trip={trip}
              isOpen={trip.token === open}
              when={whenText(trip.savedAt, clock)}
              onRemove={() => void remove(trip.token)}
            />
          ))}
        </ul>
      ) : null}
    </Dialog>
  );
}

function TripRow(props: {
  readonly trip: TripSummary;
  readonly isOpen: boolean;
  readonly when: string;
  readonly onRemove: () => void;
}): ReactNode {
  const { trip, isOpen, when, onRemove } = props;
  return (
    <li>
      <div>
        {trip.unreadable === undefined ? (
          <button
            type="button"
            className={`linked name ${styles.name}`}
            onClick={() => void openKept(trip.token)}
          >
            {trip.title}
          </button>
        ) : (
          <span className={`name ${styles.name}`}>{trip.title}</span>
        )}
        <p className="soft">
          {isOpen ? 'On screen. ' : ''}
          {trip.home === 'file' ? 'A file outside the library. ' : ''}Saved {when}
        </p>
        {trip.unreadable === undefined ? null : (
          <p className="care">This trip cannot be read and is left untouched: {trip.unreadable}</p>
        )}
      </div>
      <div className={styles.end}>
        <button
          type="button"
          className="plain"
          aria-label={`Earlier saves of ${trip.title}`}
          onClick={() => showOverlay({ kind: 'versions', token: trip.token, title: trip.title })}
        >
          Earlier saves
        </button>
        {trip.home === 'library' ? (
          <button
            type="button"
            className="plain"
            aria-label={`Move ${trip.title} to the bin`}
            onClick={onRemove}
          >
            To the bin
          </button>
        ) : null}
      </div>
    </li>
  );
}

export function Versions(props: { readonly token: TripToken; readonly title: string }): ReactNode {
  const asked = useAsked(() => machine().listVersions(props.token), props.token);
  const open = useDesk(({ keeping }) => keeping.token);
  const clock = useDesk(({ settings }) => settings.clock);
  const take = async (version: TripVersion): Promise<void> => {
    if (open !== props.token) await openKept(props.token);
    // Where the trip itself would not open, its earlier save must not land in another one.
    if (desk.getState().keeping.token !== props.token) return;
    await takeVersion(props.token, version.version);
  };
  return (
    <Dialog title={`Earlier saves of ${props.title}`} onClose={() => showOverlay({ kind: 'library' })}>
      {asked === undefined ? <p className="soft">Looking…</p> : null}
      {asked && !asked.ok ? <Failed trouble={asked.trouble} /> : null}
      {asked?.ok && asked.value.length === 0 ? <p className="soft">There is no earlier save.</p> : null}
      {asked?.ok ? (
        <ul className={styles.library}>
          {asked.value.map((version) => (
            <li key={version.version}>
              <span>{whenText(version.savedAt, clock)}</span>
              {version.unreadable === undefined ? (
                <button
                  type="button"
                  className="button"
                  aria-label={`Take the save of ${whenText(version.savedAt, clock)}`}
                  onClick={() => void take(version)}
                >
                  Take this one
                </button>
              ) : (
                <p className="care">It is passed over and left untouched: {version.unreadable}</p>
              )}
            </li>
          ))}
        </ul>
      ) : null}
      <p className="soft">
        Taking an earlier save is a change like any other: undo brings back what is on screen now.
      </p>
    </Dialog>
  );
}
