/** The stays of the trip at other heights, and when going up to each is clear. */
import type { ReactNode } from 'react';
import { climbLines } from '../../core/ledger/climb-said';
import type { ClimbViews } from '../../core/ledger/climb-views';
import type { Ledger } from '../../core/ledger/ledger-types';
import type { Id, TripEvent } from '../../core/document/types';
import { momentAt } from '../../core/words/calendar';
import { capital } from '../../core/words/reader';
import { said } from '../../core/words/said';
import { tell } from '../actions/edit';
import {
  addEvent,
  removeEvent,
  setEventAltitude,
  setEventFrom,
  setEventTitle,
  setEventTo,
} from '../actions/heights';
import { NO_FIGURE } from '../figures/format';
import { todayText } from '../figures/local-time';
import { TextField } from '../parts/field';
import { MomentFields } from '../parts/moment-fields';
import { UnitField } from '../parts/number-field';
import { useWords } from '../parts/use-words';
import { selectLedger } from '../store/selectors';
import { useDesk } from '../store/store';
import styles from './heights.module.css';

interface Waits {
  readonly name: string;
  readonly views: ClimbViews;
}

/** Who has to wait longest before an event; null where nobody dived before it, or it is no way up. */
function longestWait({ divers }: Ledger, id: Id): Waits | null {
  return divers
    .flatMap(({ diver, climbs }) =>
      climbs.filter(({ climb }) => climb.event?.id === id).map((views) => ({ name: diver.name, views })),
    )
    .reduce<Waits | null>(
      (longest, each) => (longest === null || each.views.clearMin > longest.views.clearMin ? each : longest),
      null,
    );
}

function Clear({ wait }: { readonly wait: Waits }): ReactNode {
  const words = useWords();
  const { name, views } = wait;
  const isTooSoon = views.climb.atMin < views.clearMin;
  return (
    <div className={styles.clear}>
      <p className={isTooSoon ? 'care' : undefined}>
        {words(
          isTooSoon
            ? said`Too soon: for ${name} going up is clear from ${momentAt(views.clearMin)}.`
            : said`Going up is clear from ${momentAt(views.clearMin)}, for ${name} last.`,
        )}
      </p>
      <ul aria-label="Going up is clear, by each view">
        {climbLines(views).map(({ kind, name: view, clear, why, isLatest }) => (
          <li key={kind} className={isLatest ? styles.latest : undefined}>
            {words(view)}: <span className="figure">{clear === null ? NO_FIGURE : words(clear)}</span>.{' '}
            {capital(words(why))}
            {isLatest ? '. The latest, so it counts.' : '.'}
          </li>
        ))}
      </ul>
    </div>
  );
}

function Stay({ event }: { readonly event: TripEvent }): ReactNode {
  const wait = longestWait(useDesk(selectLedger), event.id);
  const { id, title } = event;
  return (
    <div className={styles.stay} role="group" aria-label={title}>
      <TextField label="What it is" value={title} required commit={(text) => setEventTitle(id, text)} />
      <UnitField
        label="Height"
        kind="depth"
        value={event.altitudeM}
        decimals={0}
        step={50}
        commit={(altitudeM) => setEventAltitude(id, altitudeM)}
        hint="of a road its highest point"
      />
      <MomentFields
        dayLabel="Up there on"
        timeLabel="From"
        value={event.from}
        commit={(from) => setEventFrom(id, from)}
      />
      <MomentFields
        dayLabel="Down again on"
        timeLabel="At"
        value={event.to}
        commit={(to) => setEventTo(id, to)}
      />
      {wait === null ? null : <Clear wait={wait} />}
      <button
        type="button"
        className="linked"
        aria-label={`Remove ${title}`}
        onClick={() => tell(removeEvent(id))}
      >
        Remove
      </button>
    </div>
  );
}

/** In the sheet of the trip, under the water. */
export function Heights(): ReactNode {
  const events = useDesk(({ trip }) => trip.events);
  return (
    <div className={styles.heights}>
      {events?.map((event) => (
        <Stay key={event.id} event={event} />
      ))}
      <button type="button" className="linked" onClick={() => tell(addEvent(todayText()))}>
        Add a pass, a lake or another height
      </button>
    </div>
  );
}
