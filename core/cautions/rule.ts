import type { DiverLedger, Entry, Ledger } from '../ledger/ledger-types';
import type { Id } from '../document/types';
import type { Severity } from './caution';
import type { WallMin } from '../words/calendar';
import { said, type Said } from '../words/said';

/** One finding of a rule, before those of a party are put together. */
export interface Found {
  readonly diverId: Id | null;
  readonly diveId: Id | null;
  /** Orders findings of one severity; those of the whole trip stand at its start. */
  readonly atMin: WallMin;
  readonly says: Said;
}

/** A rule: when it fires, how severe it is, what it says, and who published the limit. */
export interface Rule {
  readonly code: string;
  readonly severity: Severity;
  /** Author, title, year; or "common practice". */
  readonly source: Said;
  readonly find: (ledger: Ledger) => readonly Found[];
}

/** Where an entry stands; good while the rule is asked, and not to be kept. */
export interface Place {
  readonly ledger: Ledger;
  readonly diverLedger: DiverLedger;
  /** The dive made before this one, on the trip or brought to it; null for the first. */
  readonly before: Entry | null;
}

/** Limits and figures may differ by this much through rounding alone before one counts as past the other. */
export const DUST = 1e-9;

/**
 * A rule's search through every dive that is made, one diver after the other.
 * @param says what the rule says to an entry; null where it is silent
 */
export function eachMadeDive(says: (entry: Entry, place: Place) => Said | null): Rule['find'] {
  return asked(says, true);
}

/** As `eachMadeDive`, with the dives that no mix reaches. */
export function eachDive(says: (entry: Entry, place: Place) => Said | null): Rule['find'] {
  return asked(says, false);
}

/** One loop for both: most rules ask every dive of every diver, at every edit. */
function asked(says: (entry: Entry, place: Place) => Said | null, isOfMade: boolean): Rule['find'] {
  return (ledger) => {
    const found: Found[] = [];
    for (const diverLedger of ledger.divers) {
      // One that moves along: a place of its own for every rule and entry would be thrown away thousandfold.
      const place: { -readonly [Key in keyof Place]: Place[Key] } = {
        ledger,
        diverLedger,
        before: diverLedger.earlier.findLast((entry) => entry.isMade) ?? null,
      };
      for (const entry of diverLedger.entries) {
        if (entry.isMade || !isOfMade) {
          const sentence = says(entry, place);
          if (sentence !== null) found.push(findingAt(entry, sentence));
        }
        if (entry.isMade) place.before = entry;
      }
    }
    return found;
  };
}

/** A rule's search through the divers; it says where on the trip it fires. */
export function eachDiver(
  search: (diverLedger: DiverLedger, ledger: Ledger) => readonly Omit<Found, 'diverId'>[],
): Rule['find'] {
  return (ledger) => {
    const found: Found[] = [];
    for (const diverLedger of ledger.divers) {
      for (const each of search(diverLedger, ledger)) found.push({ ...each, diverId: diverLedger.diver.id });
    }
    return found;
  };
}

/**
 * A finding and what to do about it, as one sentence; of a dive that was dived there is nothing left to mend.
 * @param finding without its full stop @param mend in the imperative, without its full stop
 * @param afterwards what to do once it was dived
 */
export function told(entry: Entry, finding: Said, mend: Said, afterwards = MARGIN): Said {
  return entry.isAsDived ? said`${finding}. It was dived so: ${afterwards}.` : said`${finding}: ${mend}.`;
}

/** Where a dive may have done harm already. */
export const WATCH = said`leave more margin after it, and seek medical advice if anyone feels unwell`;

const MARGIN = said`leave more margin in the dives after it`;

/** A finding about one dive of one diver. */
export function findingAt(entry: Entry, says: Said): Found {
  return { diverId: entry.diver.id, diveId: entry.dive.id, atMin: entry.startMin, says };
}
