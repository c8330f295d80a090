import { useMemo, type ReactNode } from 'react';
import {
  changesBetween,
  type Changes,
  type DiveChange,
  type FlyAfter,
  type LeastRoom,
} from '../../../../core/cautions/changed';
import type { Caution } from '../../../../core/cautions/caution';
import { ledger } from '../../../../core/ledger/ledger';
import type { Entry } from '../../../../core/ledger/ledger-types';
import { roomMinutes, type MinutesRoom } from '../../../../core/ledger/room';
import { roomShortSaid } from '../../../../core/ledger/room-said';
import { isTooLong } from '../../../../core/ledger/tightest';
import { siteName } from '../../../../core/document/site-of';
import type { DayDate, Dive, Trip } from '../../../../core/document/types';
import { momentAt } from '../../../../core/words/calendar';
import { bare, dayOf, moment, said, type Said } from '../../../../core/words/said';
import { NO_END } from '../../../../core/words/terms';
import { chooseDives } from '../../../actions/view';
import { clockText } from '../../../figures/format';
import { useWords } from '../../../parts/use-words';
import { selectAhead } from '../../../store/clock';
import { memo } from '../../../store/memo';
import { selectLedger, selectRooms } from '../../../store/selectors';
import { useDesk } from '../../../store/store';
import { useBaseline } from './use-baseline';
import styles from './changed.module.css';

const reckoned = memo((trip: Trip) => {
  const of = ledger(trip);
  const rooms = new Map<Entry, MinutesRoom>();
  return {
    ledger: of,
    roomOf: (entry: Entry): MinutesRoom => {
      let room = rooms.get(entry);
      if (!room) rooms.set(entry, (room = roomMinutes(trip, entry)));
      return room;
    },
  };
});

/** What the log, and whatever was done besides, did to the days ahead: since this morning's plan or any earlier save. */
export function Changed({
  date,
  isSinceStep,
}: {
  readonly date: DayDate;
  readonly isSinceStep: boolean;
}): ReactNode {
  const baseline = useBaseline(date, isSinceStep);
  const of = useDesk(selectLedger);
  const roomOf = useDesk(selectRooms);
  const ahead = useDesk(selectAhead);
  const { trip: was } = baseline;
  const changes = useMemo(
    () => (was === null ? null : changesBetween(reckoned(was), { ledger: of, roomOf }, ahead)),
    [was, of, roomOf, ahead],
  );
  return (
    <div className={styles.changed}>
      <label className={styles.since}>
        Since{' '}
        <select value={baseline.chosen ?? ''} onChange={(event) => baseline.choose(event.target.value)}>
          {baseline.choices.map(({ id, label }) => (
            <option key={id} value={id}>
              {label}
            </option>
          ))}
        </select>
      </label>
      {baseline.trouble === null ? null : <p className="care">{baseline.trouble}</p>}
      {changes === null || was === null ? (
        <p className="soft">Looking…</p>
      ) : (
        <Told changes={changes} was={was} />
      )}
    </div>
  );
}

function Told({ changes, was }: { readonly changes: Changes; readonly was: Trip }): ReactNode {
  const words = useWords();
  const trip = useDesk((state) => state.trip);
  const { deeds, come, gone, fly } = changes;
  return (
    <>
      {deeds.length === 0 ? (
        <p className="soft">Nothing was changed.</p>
      ) : (
        <ul className={styles.deeds}>
          {deeds.map((deed, at) => (
            <li key={`${at} ${words(deed)}`}>{words(deed)}</li>
          ))}
        </ul>
      )}
      <Rooms changes={changes} was={was} />
      <p>{words(flySaid(fly.was, fly.is, trip))}</p>
      {come.length + gone.length === 0 ? (
        <p className="soft">No caution came or went.</p>
      ) : (
        <ul className={styles.cautions}>
          {come.map((caution) => (
            <CautionLine key={`+${keyOf(caution)}`} caution={caution} trip={trip} isNew />
          ))}
          {gone.map((caution) => (
            <CautionLine key={`-${keyOf(caution)}`} caution={caution} trip={was} isNew={false} />
          ))}
        </ul>
      )}
    </>
  );
}

function keyOf({ code, diveId, diverId }: Caution): string {
  return `${code} ${diveId} ${diverId}`;
}

function nameOf(trip: Trip, diverId: string): string {
  return trip.party.find(({ id }) => id === diverId)?.name ?? diverId;
}

/** "No flying before Sat 20, 10:20, as it was", or with what it was. */
function flySaid(was: FlyAfter | null, is: FlyAfter | null, trip: Trip): Said {
  if (is === null) return said`Nothing keeps anybody from flying.`;
  const whom = trip.party.length > 1 ? said`, for ${nameOf(trip, is.diverId)}` : said``;
  if (was === null) return said`No flying before ${momentAt(is.atMin)}${whom}; there was no such hour.`;
  return Math.abs(was.atMin - is.atMin) < 1
    ? said`No flying before ${momentAt(is.atMin)}${whom}, as it was.`
    : said`No flying before ${momentAt(is.atMin)}${whom}; it was ${momentAt(was.atMin)}.`;
}

function CautionLine(props: {
  readonly caution: Caution;
  readonly trip: Trip;
  readonly isNew: boolean;
}): ReactNode {
  const { caution, trip, isNew } = props;
  const words = useWords();
  const dive = trip.dives.find(({ id }) => id === caution.diveId);
  const whom = caution.diverId === null ? '' : nameOf(trip, caution.diverId);
  return (
    <li>
      <strong className={isNew ? 'care' : undefined}>{isNew ? 'New' : 'Gone'}</strong>{' '}
      <span>
        {dive ? words(said`${moment(dive.startsAt)}`) : 'The trip'}
        {whom === '' ? '' : `, ${whom}`}: {words(caution.says)}
      </span>
    </li>
  );
}

/** Minutes of room, or the words that stand in their place. */
function roomCell(of: LeastRoom | null): Said {
  if (of === null) return said`–`;
  if (!of.entry.isMade || of.min === null) return roomShortSaid(of.entry, of);
  return said`${bare('minutesLeft', of.min)}`;
}

function noStopCell(of: LeastRoom | null): Said {
  if (of === null || !of.entry.isMade) return said`–`;
  return of.entry.unlimited ? NO_END : said`${bare('minutesLeft', of.entry.noStopMin)}`;
}

function isPast(of: LeastRoom | null): boolean {
  return of !== null && of.entry.isMade && (of.min === null ? of.minLimit !== null : isTooLong(of.min));
}

/** The axis that all rows share, in minutes: from the most over, or none, to the widest room. */
function axisOf(dives: readonly DiveChange[]): { readonly least: number; readonly most: number } {
  const minutes = dives.flatMap(({ was, is }) => [was?.min ?? [], is?.min ?? []].flat());
  return { least: Math.min(0, ...minutes), most: Math.max(10, ...minutes) };
}

function diveOf({ dives }: Trip, { diveId }: DiveChange): Dive | undefined {
  return dives.find(({ id }) => id === diveId);
}

function Rooms({ changes, was }: { readonly changes: Changes; readonly was: Trip }): ReactNode {
  const words = useWords();
  const trip = useDesk((state) => state.trip);
  const clock = useDesk(({ settings }) => settings.clock);
  const chosen = useDesk(({ selection }) => selection.diveIds);
  const axis = axisOf(changes.dives);
  if (changes.dives.length === 0) return <p className="soft">No dive is ahead.</p>;
  return (
    <table className={styles.rooms}>
      <caption className="unseen">Least room of each dive ahead, before and after</caption>
      <thead>
        <tr>
          <th scope="col">Room, least of the party</th>
          <td />
          <th scope="col" className={styles.number}>
            was
          </th>
          <th scope="col" className={styles.number}>
            is
          </th>
          <th scope="col" className={styles.number}>
            no-stop
          </th>
        </tr>
      </thead>
      <tbody>
        {changes.dives.map((change, at) => {
          const now = diveOf(trip, change);
          const dive = now ?? diveOf(was, change);
          if (dive === undefined) return null;
          const before = changes.dives[at - 1];
          const date = dive.startsAt.slice(0, 10);
          const isFirst = !(
            before && (diveOf(trip, before) ?? diveOf(was, before))?.startsAt.startsWith(date)
          );
          const site = siteName(trip, dive);
          const past = isPast(change.is);
          return (
            <tr
              key={change.diveId}
              className={isFirst ? styles.first : undefined}
              data-chosen={chosen.includes(change.diveId) || undefined}
            >
              <th scope="row">
                {isFirst ? <strong>{words(said`${dayOf(date, 'weekday')}`)} </strong> : null}
                <button
                  type="button"
                  className="linked"
                  disabled={now === undefined}
                  onClick={() => chooseDives([change.diveId])}
                  onFocus={() => {
                    if (now !== undefined) chooseDives([change.diveId]);
                  }}
                >
                  {clockText(dive.startsAt, clock)} {site}
                </button>
              </th>
              <td>
                <Dots change={change} {...axis} />
              </td>
              <td className={styles.number}>{words(roomCell(change.was))}</td>
              <td className={`${styles.number} ${past ? 'care' : ''}`}>
                <strong>{words(now === undefined ? said`gone` : roomCell(change.is))}</strong>
              </td>
              <td className={styles.number}>
                <NoStop change={change} />
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

/** One figure where it is what it was. */
function NoStop({ change }: { readonly change: DiveChange }): ReactNode {
  const words = useWords();
  const [was, is] = [words(noStopCell(change.was)), words(noStopCell(change.is))];
  return was === is ? is : `${was} → ${is}`;
}

const WIDTH = 96;
const HEIGHT = 16;
const EDGE = 6;

/** An open ring where the room was, a dot where it is, a diamond where it is past the limit. */
function Dots(props: {
  readonly change: DiveChange;
  readonly least: number;
  readonly most: number;
}): ReactNode {
  const { change, least, most } = props;
  const x = (min: number): number => EDGE + ((min - least) / (most - least)) * (WIDTH - 2 * EDGE);
  const from = change.was?.min ?? null;
  const to = change.is?.min ?? null;
  const y = HEIGHT / 2;
  return (
    <svg
      className={styles.dots}
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      width={WIDTH}
      height={HEIGHT}
      aria-hidden="true"
    >
      <path className={styles.limit} d={`M${x(0)} 0V${HEIGHT}`} />
      {from !== null && to !== null ? <path className={styles.way} d={`M${x(from)} ${y}H${x(to)}`} /> : null}
      {from === null ? null : <circle className={styles.was} cx={x(from)} cy={y} r="3.5" />}
      {to === null ? null : isTooLong(to) ? (
        <path className={styles.over} d={`M${x(to)} ${y - 4.5}l4.5 4.5-4.5 4.5-4.5-4.5z`} />
      ) : (
        <circle className={styles.is} cx={x(to)} cy={y} r="3.5" />
      )}
    </svg>
  );
}
