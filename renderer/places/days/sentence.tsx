import type { ReactNode } from 'react';
import { toldTogether } from '../../../core/cautions/told-together';
import { wallText } from '../../../core/words/calendar';
import type { Entry } from '../../../core/ledger/ledger-types';
import type { Trip } from '../../../core/document/types';
import { chooseDives, showOverlay } from '../../actions/view';
import { clockText, countText, dateText, ordinalText } from '../../figures/format';
import { someNamesText } from '../../figures/names';
import { roomPhrase } from '../../figures/room';
import {
  diveOfDay,
  selectCautions,
  selectLedger,
  selectRoomLimit,
  selectRoomMin,
  selectShownLedger,
  selectTight,
} from '../../store/selectors';
import { useDesk } from '../../store/store';

function plural(count: number, one: string, many: string): string {
  return count === 1 ? `one ${one}` : `${countText(count)} ${many}`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** The mixes that dives really breathe; those on board that nobody breathes are another matter. */
function breathedMixes(ids: ReadonlySet<string>): string {
  return plural(ids.size, 'mix', 'mixes');
}

/** Whom a dive is tight for. */
function whose(alike: readonly Entry[], trip: Trip): string {
  const names = alike.map(({ diver }) => diver.name);
  return names.length > 1 && names.length === trip.party.length ? 'everybody' : someNamesText(names);
}

function startOf(trip: Trip): string {
  const { length } = trip.dives;
  return length === 1 ? 'One dive' : `${length} dives`;
}

/** How the trip stands, in a sentence or three: its size, the tightest dive, before when there is no flying. */
export function Sentence(): ReactNode {
  const trip = useDesk((state) => state.trip);
  const ledger = useDesk(selectLedger);
  const tight = useDesk(selectTight);
  const limitOf = useDesk(selectRoomLimit);
  const roomMinOf = useDesk(selectRoomMin);
  const shown = useDesk(selectShownLedger);
  const cautions = useDesk(selectCautions);
  const clock = useDesk(({ settings }) => settings.clock);
  const diverId = useDesk(({ selection }) => selection.diverId);

  if (trip.dives.length === 0) {
    return (
      <p className="sentence">
        No dives yet. Add the first one, and what it leaves behind is carried from there.
      </p>
    );
  }
  const [tightest] = tight;
  const alike = tight.filter(({ dive }) => dive.id === tightest?.dive.id);
  const otherIds = [...new Set(tight.map(({ dive }) => dive.id))].filter((id) => id !== tightest?.dive.id);
  const mixes = new Set(
    ledger.divers.flatMap(({ entries }) => entries.map((entry) => entry.mix?.id ?? '').filter(Boolean)),
  );
  const told = toldTogether(cautions);
  const stops = told.filter(({ caution }) => caution.severity === 'stop').length;
  const changes = told.filter(({ caution }) => caution.severity === 'change').length;
  // The whole party flies together: the latest of them says when, unless one diver is looked at.
  const flyMin =
    diverId === null
      ? ledger.divers.reduce<number | null>(
          (latest, { flyAfterMin }) =>
            flyAfterMin === null ? latest : Math.max(latest ?? flyAfterMin, flyAfterMin),
          null,
        )
      : (shown?.flyAfterMin ?? null);
  const party = trip.party.length === 1 ? 'one diver' : `a party of ${countText(trip.party.length)}`;

  return (
    <p className="sentence">
      {startOf(trip)} on {breathedMixes(mixes)} for {party}.{' '}
      {tightest ? (
        <>
          <button type="button" className="tightest" onClick={() => chooseDives([tightest.dive.id])}>
            Tightest: {dateText(tightest.dive.startsAt)}, {ordinalText(diveOfDay(trip, tightest.dive))} dive,{' '}
            {roomPhrase(tightest, roomMinOf(tightest), limitOf(tightest))}
            {trip.party.length > 1 ? ` for ${whose(alike, trip)}` : ''}.
          </button>{' '}
          {otherIds.length > 0 ? (
            <>
              <button
                type="button"
                className="linked"
                onClick={() => chooseDives([tightest.dive.id, ...otherIds])}
              >
                {capital(countText(otherIds.length))} more {otherIds.length === 1 ? 'is' : 'are'} as tight.
              </button>{' '}
            </>
          ) : null}
        </>
      ) : (
        'No dive meets a limit. '
      )}
      {flyMin === null ? null : (
        <>
          No flying before {dateText(wallText(flyMin))}, {clockText(wallText(flyMin), clock)}.{' '}
        </>
      )}
      {told.length > 0 ? (
        <button
          type="button"
          className={stops > 0 ? 'linked care' : 'linked'}
          onClick={() => showOverlay({ kind: 'cautions' })}
        >
          {stops > 0
            ? `${capital(plural(stops, 'thing', 'things'))} to stop for`
            : changes > 0
              ? `${capital(plural(changes, 'thing', 'things'))} to change`
              : `${capital(plural(told.length, 'thing', 'things'))} to know`}
        </button>
      ) : null}
    </p>
  );
}
