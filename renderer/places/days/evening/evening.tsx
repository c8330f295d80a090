import { useLayoutEffect, useRef, useState, type ReactNode } from 'react';
import { siteName } from '../../../../core/document/site-of';
import { logProgress } from '../../../../core/document/log';
import { closeEvening, showEvening } from '../../../actions/evening';
import { divesOfDay, setDayNotes, setDiveNotes } from '../../../actions/log';
import { goTo, showMending, showOverlay } from '../../../actions/view';
import { clockText, dateText } from '../../../figures/format';
import { NotesField } from '../../../parts/notes-field';
import { selectAhead } from '../../../store/clock';
import { selectCautions } from '../../../store/selectors';
import { desk, useDesk, type Evening as Shown } from '../../../store/store';
import { AddDived } from './add-dived';
import { Analysed } from './analysed';
import { Changed } from './changed';
import { GasRates } from './gas-rates';
import { LogGrid } from './log-day';
import styles from './evening.module.css';

/** The evening of a day: what was dived is logged, then what that changed is told. Nothing is lost by leaving. */
export function Evening({ evening }: { readonly evening: Shown }): ReactNode {
  const { date, step } = evening;
  useLayoutEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (event.defaultPrevented || event.key !== 'Enter' || !(event.ctrlKey || event.metaKey)) return;
      // What lies over the evening has keys of its own.
      if (desk.getState().overlay !== null) return;
      event.preventDefault();
      showEvening({ date, step: 'changed' });
    };
    // Before the keys of the window, where the same keys add a dive.
    window.addEventListener('keydown', onKey, true);
    return () => window.removeEventListener('keydown', onKey, true);
  }, [date]);
  useFocusBack(date);
  return (
    <section
      onKeyDown={(event) => {
        // What is being typed, and any cell of the log, takes its own Escape first.
        if (event.key !== 'Escape' || event.defaultPrevented) return;
        event.preventDefault();
        closeEvening();
      }}
      className={step === 'log' ? styles.evening : styles.beside}
      aria-label={`Evening of ${dateText(date, true)}`}
    >
      <div className={styles.head}>
        <h2>{dateText(date, true)}</h2>
        <Steps evening={evening} />
        <button type="button" className="plain" onClick={closeEvening}>
          Close
        </button>
      </div>
      {step === 'log' ? (
        <Log date={date} />
      ) : (
        <Changed key={date} date={date} isSinceStep={evening.sinceStep ?? false} />
      )}
    </section>
  );
}

/** As the evening goes, the focus is where it was opened from, else at the day's own button on the board. */
function useFocusBack(date: string): void {
  // Before the log takes it.
  const [opener] = useState(() => document.activeElement);
  const dateNow = useRef(date);
  useLayoutEffect(() => {
    dateNow.current = date;
  });
  useLayoutEffect(
    () => () => {
      const isThere = opener instanceof Element && opener.isConnected && opener !== document.body;
      const target = isThere ? opener : document.querySelector(`[data-log="${dateNow.current}"]`);
      if (target instanceof HTMLElement || target instanceof SVGElement)
        target.focus({ preventScroll: true });
    },
    [opener],
  );
}

function Steps({ evening: { date, step } }: { readonly evening: Shown }): ReactNode {
  const trip = useDesk((state) => state.trip);
  const { done, all } = logProgress(
    divesOfDay(trip, date),
    trip.party.map(({ id }) => id),
  );
  const ahead = useDesk(selectAhead);
  const cautions = useDesk(selectCautions);
  const toMend = new Set(
    cautions.flatMap(({ severity, diveId }) =>
      severity !== 'know' && diveId !== null && ahead.has(diveId) ? [diveId] : [],
    ),
  ).size;
  return (
    <nav className={styles.steps} aria-label="Steps of the evening">
      <button
        type="button"
        aria-current={step === 'log' ? 'step' : undefined}
        onClick={() => showEvening({ date, step: 'log' })}
      >
        Log the day <small>{`${done} of ${all}`}</small>
      </button>
      <button
        type="button"
        aria-current={step === 'changed' ? 'step' : undefined}
        onClick={() => showEvening({ date, step: 'changed' })}
      >
        What changed
      </button>
      <button type="button" onClick={() => showMending(null)}>
        Mend {toMend === 0 ? null : <small>{toMend === 1 ? '1 dive' : `${toMend} dives`}</small>}
      </button>
      <button
        type="button"
        onClick={() => {
          closeEvening();
          goTo('slates');
        }}
      >
        Tomorrow’s slates
      </button>
    </nav>
  );
}

function Log({ date }: { readonly date: string }): ReactNode {
  const notes = useDesk(({ trip }) => trip.days?.find((day) => day.date === date)?.notes ?? '');
  const trip = useDesk((state) => state.trip);
  const clock = useDesk(({ settings }) => settings.clock);
  const dives = divesOfDay(trip, date);
  const [isAdding, setAdding] = useState(false);
  return (
    <>
      <LogGrid key={date} date={date} />
      <div className={styles.under}>
        {isAdding ? (
          <AddDived date={date} onDone={() => setAdding(false)} />
        ) : (
          <button type="button" className="linked" onClick={() => setAdding(true)}>
            Add a dive
          </button>
        )}
        <button type="button" className="linked" onClick={() => showOverlay({ kind: 'recorded' })}>
          Recorded profiles from a file
        </button>
        <span className="soft">
          <kbd>P</kbd> as planned <kbd>N</kbd> not dived, then why
        </span>
      </div>
      <div className={styles.asides}>
        <GasRates date={date} />
        <Analysed date={date} />
        <section className={styles.aside}>
          <NotesField label="Notes of the day" value={notes} commit={(text) => setDayNotes(date, text)} />
          <details>
            <summary>Notes of each dive</summary>
            {dives.map((dive) => (
              <NotesField
                key={dive.id}
                label={`${clockText(dive.startsAt, clock)} ${siteName(trip, dive)}`}
                value={dive.notes ?? ''}
                commit={(text) => setDiveNotes(dive.id, text)}
              />
            ))}
          </details>
          <p className={styles.next}>
            <button
              type="button"
              className="button first"
              onClick={() => showEvening({ date, step: 'changed' })}
            >
              What changed
            </button>
          </p>
        </section>
      </div>
    </>
  );
}
