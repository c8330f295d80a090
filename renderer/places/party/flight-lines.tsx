import { useMemo, type ReactNode } from 'react';
import { flightLines } from '../../../core/ledger/flight-said';
import type { FlightViews } from '../../../core/ledger/flight-views';
import { capital } from '../../../core/words/reader';
import { NO_FIGURE } from '../../figures/format';
import { wordsIn } from '../../figures/reader';
import { useDesk } from '../../store/store';
import styles from './flight-lines.module.css';

/** When a diver may fly, three ways side by side; the latest counts. */
export function FlightLines({ views }: { readonly views: FlightViews }): ReactNode {
  const trip = useDesk((state) => state.trip);
  const units = useDesk(({ settings }) => settings.units);
  const clock = useDesk(({ settings }) => settings.clock);
  const words = useMemo(() => wordsIn({ units, clock, trip }), [units, clock, trip]);
  return (
    <ul className={styles.views} aria-label="No flying before, by each view">
      {flightLines(views).map(({ kind, name, clear, why, isLatest }) => (
        <li key={kind} className={isLatest ? styles.latest : undefined}>
          <p className={styles.view}>
            <span>{words(name)}</span>
            <span className="figure">{clear === null ? NO_FIGURE : words(clear)}</span>
          </p>
          <p className={styles.why}>
            {capital(words(why))}
            {isLatest ? '. The latest, so it counts.' : '.'}
          </p>
        </li>
      ))}
    </ul>
  );
}
