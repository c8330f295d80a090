import type { DiverLedger, Entry, Ledger } from '../ledger/ledger-types';
import type { Id } from '../document/types';
import type { Wording } from './wording';
import type { Severity } from './caution';
import type { WallMin } from '../words/calendar';

/** One finding of a rule, before those of a party are put together. */
export interface Found {
  readonly diverId: Id | null;
  readonly diveId: Id | null;
  /** Orders findings of one severity; those of the whole trip stand at its start. */
  readonly atMin: WallMin;
  readonly message: string;
}

/** A rule: when it fires, how severe it is, what it says, and who published the limit. */
export interface Rule {
  readonly code: string;
  readonly severity: Severity;
  /** Author, title, year; or "common practice". */
  readonly source: string;
  readonly find: (ledger: Ledger, say: Wording) => readonly Found[];
}

/** Where an entry stands; good while the rule is asked, and not to be kept. */
export interface Place {
  readonly ledger: Ledger;
  readonly diverLedger: DiverLedger;
  /** The dive made before this one, on the trip or brought to it; null for the first. */
  readonly before: Entry | null;
  readonly say: Wording;
}

/** Limits and figures may differ by this much through rounding alone before one counts as past the other. */
export const DUST = 1e-9;

/**
 * A rule's search through every dive that is made, one diver after the other.
 * @param message what the rule says to an entry; null where it is silent
 */
export function eachMadeDive(message: (entry: Entry, place: Place) => string | null): Rule['find'] {
  return eachDive((entry, place) => (entry.isMade ? message(entry, place) : null));
}

/** As `eachMadeDive`, with the dives that no mix reaches. */
export function eachDive(message: (entry: Entry, place: Place) => string | null): Rule['find'] {
  return (ledger, say) => {
    const found: Found[] = [];
    for (const diverLedger of ledger.divers) {
      // One that moves along: a place of its own for every rule and entry would be thrown away thousandfold.
      const place: { -readonly [Key in keyof Place]: Place[Key] } = {
        ledger,
        diverLedger,
        before: diverLedger.earlier.findLast((entry) => entry.isMade) ?? null,
        say,
      };
      for (const entry of diverLedger.entries) {
        const text = message(entry, place);
        if (text !== null) found.push(findingAt(entry, text));
        if (entry.isMade) place.before = entry;
      }
    }
    return found;
  };
}

/** A rule's search through the divers; it says where on the trip it fires. */
export function eachDiver(
  search: (diverLedger: DiverLedger, ledger: Ledger, say: Wording) => readonly Omit<Found, 'diverId'>[],
): Rule['find'] {
  return (ledger, say) =>
    ledger.divers.flatMap((diverLedger) =>
      search(diverLedger, ledger, say).map((found) => ({ ...found, diverId: diverLedger.diver.id })),
    );
}

/**
 * A finding and what to do about it, as one sentence; of a dive that was dived there is nothing left to mend.
 * @param finding without its full stop @param mend in the imperative, without its full stop
 * @param afterwards what to do once it was dived
 */
export function told(
  entry: Entry,
  finding: string,
  mend: string,
  afterwards = 'leave more margin in the dives after it',
): string {
  return entry.isAsDived ? `${finding}. It was dived so: ${afterwards}.` : `${finding}: ${mend}.`;
}

/** Where a dive may have done harm already. */
export const WATCH = 'leave more margin after it, and seek medical advice if anyone feels unwell';

/** A finding about one dive of one diver. */
export function findingAt(entry: Entry, message: string): Found {
  return { diverId: entry.diver.id, diveId: entry.dive.id, atMin: entry.startMin, message };
}
