import type { ReactNode } from 'react';
import { loadPart } from '../../actions/load-part';
import { stepDive } from '../../actions/view';
import { CommandButton } from '../../parts/command-button';
import { usePrinting } from '../../parts/use-printing';
import { useWords } from '../../parts/use-words';
import { selectCautions } from '../../store/selectors';
import { useDesk } from '../../store/store';
import { CautionsByTime, NO_CAUTION } from '../../parts/caution-list';
import styles from './card/card.module.css';
import type { PrintedCautions } from './printed-cautions';

/** Seen on paper alone: loaded behind the start, and there long before anybody prints. */
let Printed: typeof PrintedCautions | null = null;
void loadPart(() => import('./printed-cautions')).then((part) => {
  if (part.ok) Printed = part.value.PrintedCautions;
});

/** With no dive chosen the side shows the trip: its cautions, and where to go on. */
export function TripCard(): ReactNode {
  const cautions = useDesk(selectCautions);
  const trip = useDesk((state) => state.trip);
  const isPrinting = usePrinting();
  const words = useWords();
  return (
    <section className={styles.card} aria-label="The trip">
      <p className={styles.eyebrow}>The whole trip</p>
      <h2>{trip.place === '' ? trip.title : trip.place}</h2>
      <Notes text={trip.notes} />
      {trip.dives.length === 0 ? (
        <p className={styles.end}>
          <CommandButton id="dive.add" className="button first">
            Add the first dive
          </CommandButton>
          <CommandButton id="trip.lay-out" className="button">
            Draft a new trip
          </CommandButton>
        </p>
      ) : (
        <>
          <p className={styles.invitation}>
            Choose a dive on the strip, or{' '}
            <button type="button" className="linked" onClick={() => stepDive(1)}>
              begin with the first
            </button>
            .
          </p>
          {cautions.length === 0 ? (
            <p>{words(NO_CAUTION)}</p>
          ) : isPrinting && Printed !== null ? (
            <Printed cautions={cautions} trip={trip} />
          ) : (
            <CautionsByTime />
          )}
          <p className={styles.end}>
            <CommandButton id="dive.add">New dive</CommandButton>
            <CommandButton id="dive.tightest">The tightest dive</CommandButton>
            <CommandButton id="view.table">As a table</CommandButton>
            <CommandButton id="day.log">Log the day</CommandButton>
          </p>
        </>
      )}
    </section>
  );
}

/** Longer notes would push everything else out of sight. */
const SHORT_NOTES = 400;

function Notes({ text }: { readonly text: string }): ReactNode {
  if (text === '') return null;
  if (text.length <= SHORT_NOTES) return <p className={styles.notes}>{text}</p>;
  return (
    <details>
      <summary>Notes of the trip</summary>
      <p className={styles.notes}>{text}</p>
    </details>
  );
}
