import { rateOn } from '../document/gas-rate';
import type { DayDate, Id } from '../document/types';
import { wallDate } from '../words/calendar';
import type { Ledger } from './ledger-types';

/** So many dives show how somebody breathes; of fewer a median says nothing. Source: this project's own. */
export const DIVES_FOR_RATE = 3;

/** What a diver breathed on the dives whose pressure was read, litres a minute at the surface. */
export interface Breathed {
  readonly diverId: Id;
  readonly dives: readonly { readonly diveId: Id; readonly lpm: number }[];
  /** Null where no pressure was read. */
  readonly medianLpm: number | null;
  readonly leastLpm: number | null;
  readonly mostLpm: number | null;
  /** What the diver is planned with on the day asked for. */
  readonly plannedLpm: number;
}

function median(ordered: readonly number[]): number | null {
  if (ordered.length === 0) return null;
  const half = ordered.length / 2;
  return ordered.length % 2 === 1 ? ordered[Math.floor(half)]! : (ordered[half - 1]! + ordered[half]!) / 2;
}

/**
 * What each diver breathed up to a day, with its median and spread.
 * @param untilDate the last day that counts @param plannedOn the day whose rate is told beside it
 * @returns in the order of the party
 * Source: CONVENTIONS, "Gas".
 */
export function breathedUntil(ledger: Ledger, untilDate: DayDate, plannedOn: DayDate): readonly Breathed[] {
  return ledger.divers.map(({ diver, entries }) => {
    const dives = entries.flatMap(({ dive, startMin, gas }) =>
      gas.breathedLpm === null || wallDate(startMin) > untilDate
        ? []
        : [{ diveId: dive.id, lpm: gas.breathedLpm }],
    );
    const ordered = dives.map(({ lpm }) => lpm).toSorted((a, b) => a - b);
    return {
      diverId: diver.id,
      dives,
      medianLpm: median(ordered),
      leastLpm: ordered[0] ?? null,
      mostLpm: ordered.at(-1) ?? null,
      plannedLpm: rateOn(diver, plannedOn),
    };
  });
}
