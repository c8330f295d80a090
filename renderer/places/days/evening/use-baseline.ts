/** What the trip is compared with: an earlier save that the host kept, or the trip as this window opened it. */
import { useEffect, useState } from 'react';
import { readTrip } from '../../../../core/document/read-trip';
import { saysDived } from '../../../../core/document/as-dived';
import type { DayDate, Trip } from '../../../../core/document/types';
import { clockText, dateText } from '../../../figures/format';
import { localText } from '../../../figures/local-time';
import { divesOfDay } from '../../../actions/log';
import { machine } from '../../../store/machine';
import { desk, useDesk } from '../../../store/store';

/** The trip as it stood when this window opened it; null where nothing was changed since. */
const OPENED = 'opened';

/** The trip as it stood before the last step, which is told in its choice. */
const STEP = 'step';

export interface BaselineChoice {
  readonly id: string;
  readonly label: string;
}

export interface Baseline {
  readonly choices: readonly BaselineChoice[];
  readonly chosen: string | null;
  /** Null while it is read, or where it cannot be. */
  readonly trip: Trip | null;
  readonly trouble: string | null;
  readonly choose: (id: string) => void;
}

/** Whether nothing of a day was logged yet. */
function isBefore(trip: Trip, date: DayDate): boolean {
  return divesOfDay(trip, date).every(
    ({ asDived, notDived, added }) => !asDived?.some(saysDived) && !notDived && !added,
  );
}

interface Known {
  readonly choices: readonly BaselineChoice[];
  readonly chosen: string | null;
  readonly trips: ReadonlyMap<string, Trip>;
  readonly trouble: string | null;
}

async function read(id: string): Promise<Trip | null> {
  const { keeping, history, trip } = desk.getState();
  if (id === STEP) return history.past.at(-1)?.trip ?? trip;
  if (id === OPENED) return history.past[0]?.trip ?? trip;
  if (keeping.token === null) return null;
  const text = await machine().readVersion(keeping.token, id);
  const result = text.ok ? readTrip(text.value) : null;
  return result?.ok ? result.value : null;
}

/**
 * All there is to compare with, newest first, and of it the last in which nothing of the day was logged, or, where that is
 * asked, the trip before the last step.
 */
async function found(date: DayDate, clock: '24h' | '12h', isSinceStep: boolean): Promise<Known> {
  const { keeping, history } = desk.getState();
  const last = history.past.at(-1);
  const listed = keeping.token === null ? null : await machine().listVersions(keeping.token);
  const versions = listed?.ok ? listed.value.filter(({ unreadable }) => unreadable === undefined) : [];
  const choices = [
    ...(last ? [{ id: STEP, label: `before “${last.label}”` }] : []),
    ...versions.map(({ version, savedAt }) => {
      const local = localText(new Date(savedAt));
      return { id: version, label: `${dateText(local, true)}, ${clockText(local, clock)}` };
    }),
    { id: OPENED, label: 'as it was opened here' },
  ];
  const trips = new Map<string, Trip>();
  let chosen: string | null = null;
  for (const { id } of isSinceStep ? choices.slice(0, 1) : choices.filter((choice) => choice.id !== STEP)) {
    // One after the other, newest first: mostly the first or second is it.
    // oxlint-disable-next-line eslint/no-await-in-loop
    const trip = await read(id);
    if (trip === null) continue;
    trips.set(id, trip);
    chosen = id;
    if (isBefore(trip, date)) break;
  }
  return { choices, chosen, trips, trouble: listed && !listed.ok ? listed.trouble.what : null };
}

/**
 * What to compare with: at first the newest save in which nothing of the day was logged, this morning's plan.
 * @param isSinceStep at first the trip before the last step instead
 */
export function useBaseline(date: DayDate, isSinceStep: boolean): Baseline {
  const clock = useDesk(({ settings }) => settings.clock);
  const [known, setKnown] = useState<Known | null>(null);
  const [wish, setWish] = useState<string | null>(null);
  useEffect(() => {
    let isWanted = true;
    void found(date, clock, isSinceStep).then((all) => {
      if (isWanted) setKnown(all);
    });
    return () => {
      isWanted = false;
    };
  }, [date, clock, isSinceStep]);
  const chosen = wish ?? known?.chosen ?? null;
  const trip = chosen === null ? null : (known?.trips.get(chosen) ?? null);
  return {
    choices: known?.choices ?? [],
    chosen,
    trip,
    trouble: known?.trouble ?? null,
    choose: (id) => {
      setWish(id);
      void read(id).then((other) => {
        if (other === null) return;
        setKnown((held) => held && { ...held, trips: new Map(held.trips).set(id, other) });
      });
    },
  };
}
