/** Which dive of a trip a recorded one is. */
import { effectiveDive, isOnDive } from '../../document/as-dived';
import { isDivedOnLoop } from '../../document/loops';
import { withProfile, type RecordedFigures } from '../../document/log';
import type { Dive, Diver, Id, Trip } from '../../document/types';
import { wallMin, wallText, type WallMin } from '../../words/calendar';
import type { RecordedDive } from './recorded-dive';

/** Further apart than this, two starts are of two dives, minutes. Source: choice of this project. */
export const SAME_DIVE_MIN = 180;

/** When a dive of the file began by the clock at the trip's place. */
export function startedMin({ startsAt }: RecordedDive, shiftMin: number): WallMin {
  return wallMin(startsAt) + shiftMin;
}

function plain(text: string): string {
  return text.toLowerCase().replaceAll(/\s+/g, ' ').trim();
}

/** The diver whom a file means: of the same name, but for case and blanks; null where nobody is. */
export function diverNamed(party: readonly Diver[], name: string): Id | null {
  const wanted = plain(name);
  return wanted === '' ? null : (party.find((diver) => plain(diver.name) === wanted)?.id ?? null);
}

/**
 * The dives of a trip that the dives of a file are, by when they began: of all pairs less than three hours apart the
 * closest first, each dive once.
 * @param shiftMin minutes by which the clock of the file is behind that of the trip's place
 * @returns for each dive of the file the id of the trip's dive, or null where none is near
 * Source: choice of this project.
 */
export function matchRecorded(
  trip: Trip,
  diver: Diver,
  recorded: readonly RecordedDive[],
  shiftMin: number,
): readonly (Id | null)[] {
  const mine = trip.dives.filter((dive) => isOnDive(dive, diver.id));
  const pairs = recorded.flatMap((each, at) =>
    mine.map((dive) => ({
      at,
      id: dive.id,
      apartMin: Math.abs(effectiveDive(dive, diver).startMin - startedMin(each, shiftMin)),
    })),
  );
  const found: (Id | null)[] = recorded.map(() => null);
  const taken = new Set<Id>();
  for (const { at, id, apartMin } of pairs.toSorted((a, b) => a.apartMin - b.apartMin || a.at - b.at)) {
    if (apartMin > SAME_DIVE_MIN) break;
    if (found[at] !== null || taken.has(id)) continue;
    found[at] = id;
    taken.add(id);
  }
  return found;
}

/** Oxygen within this of what is breathed anyway says nothing more. Source: labels are whole percent. */
const SAME_O2 = 0.0005;

/**
 * A dive of the trip with a recorded one as what a diver made of it: start, depth, bottom time and profile, and what was
 * read of pressure and oxygen; of a dive on a loop these two, which belong to open circuit, are left out.
 * @param knownO2 oxygen fraction the diver breathes by the plan; null where it is not known
 * @returns the dive with that diver's record in place of the one before
 * Source: CONVENTIONS, "Recorded profiles".
 */
export function withRecorded(
  dive: Dive,
  by: Id,
  recorded: RecordedDive,
  shiftMin: number,
  knownO2: number | null,
  party: readonly Id[],
): Dive {
  const { depthM, bottomMin, samples, endBar, o2 } = recorded;
  const isOnLoop = isDivedOnLoop(dive, by);
  const isOther = !isOnLoop && o2 !== null && (knownO2 === null || Math.abs(o2 - knownO2) > SAME_O2);
  const figures: RecordedFigures = {
    startsAt: wallText(startedMin(recorded, shiftMin)),
    depthM,
    bottomMin,
    ...(endBar === null || isOnLoop ? {} : { endBar }),
    ...(isOther ? { o2 } : {}),
    samples,
  };
  return withProfile(dive, by, figures, party);
}
