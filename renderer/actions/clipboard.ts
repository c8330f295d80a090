/** Copying dives and days: within the window as they are, and to the system's clipboard as rows of text. */
import { failure } from '../../core/result';
import { wallMin, wallText } from '../../core/words/calendar';
import { said } from '../../core/words/said';
import { mixSaid } from '../../core/words/terms';
import { siteName } from '../../core/document/site-of';
import type { Dive, Trip } from '../../core/document/types';
import { clockText, dateText, depthText, minutesText } from '../figures/format';
import { wordsIn } from '../figures/reader';
import { say } from '../store/notice';
import { selectChosenDives } from '../store/selectors';
import { desk } from '../store/store';
import { addCopies } from './dives';
import type { EditResult } from './edit';
import { copyShift } from './next-start';

const DAY_MIN = 1440;

/** What was copied last in this window; the system's clipboard has it as text alone. */
let copied: readonly Dive[] = [];

export function hasCopied(): boolean {
  return copied.length > 0;
}

/** Remembers the chosen dives. Returns them as text, a line each and tabs between, as a spreadsheet takes them. */
export function rememberChosen(): string {
  const state = desk.getState();
  copied = selectChosenDives(state);
  return copied.map((dive) => rowText(dive, state.trip)).join('\n');
}

function rowText(dive: Dive, trip: Trip): string {
  const { units, clock } = desk.getState().settings;
  const words = wordsIn({ units, clock, trip });
  const mix = trip.mixes.find(({ id }) => id === dive.mix);
  return [
    dateText(dive.startsAt),
    clockText(dive.startsAt, clock),
    siteName(trip, dive),
    depthText(dive.depthM, units),
    minutesText(dive.bottomMin, 'near'),
    mix ? words(mixSaid(mix.o2)) : words(said`best`),
  ].join('\t');
}

/** For the menu and the palette, where no key has the browser copy. */
export function copyChosen(): void {
  const text = rememberChosen();
  // Refused where the page may not write there: within the window they are copied all the same.
  navigator.clipboard?.writeText(text).catch(() => undefined);
  const { length } = copied;
  say({
    tone: 'said',
    lines: [
      {
        what: length === 1 ? 'The dive is copied.' : `${length} dives are copied.`,
        where: '',
        mend: 'Choose a dive of another day and paste.',
      },
    ],
  });
}

/**
 * Puts what was copied on the day of the chosen dive, at the times of day it had. On its own day, and with none chosen,
 * it goes where a duplicate would.
 */
export function pasteDives(): EditResult {
  const state = desk.getState();
  const [first] = copied;
  if (!first) {
    return failure({ kind: 'invalid', what: 'Nothing was copied.', where: '', mend: 'Copy a dive first.' });
  }
  const known = new Set(state.trip.sites.map(({ id }) => id));
  const unknown = copied.find(({ siteId }) => !known.has(siteId));
  if (unknown) {
    return failure({
      kind: 'invalid',
      what: `What was copied goes to a site, “${unknown.siteId}”, that this trip does not have.`,
      where: '',
      mend: 'Copy dives of this trip.',
    });
  }
  const target = selectChosenDives(state).find(
    ({ startsAt }) => startsAt.slice(0, 10) !== first.startsAt.slice(0, 10),
  );
  const dayOf = (dive: Dive): number => Math.floor(wallMin(dive.startsAt) / DAY_MIN);
  const byMin =
    target === undefined
      ? copyShift(
          state,
          copied.map(({ id }) => id),
        )
      : (dayOf(target) - dayOf(first)) * DAY_MIN;
  return addCopies(
    copied.map((dive) => ({ ...dive, startsAt: wallText(wallMin(dive.startsAt) + byMin) })),
    copied.length === 1 ? 'Paste of a dive' : `Paste of ${copied.length} dives`,
  );
}
