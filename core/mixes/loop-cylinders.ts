/** The cylinders of a breathing loop, and when they are filled. */
import type { Cylinder, LoopGear, Mix, Trip } from '../document/types';
import { loopOn, type LoopOnDive } from '../document/loops';
import type { Entry } from '../ledger/ledger-types';
import { isSameShare, LEANEST_PERCENT, RICHEST_PERCENT } from './shares';

/** What is put into the oxygen cylinder of a loop, as a gas of a fill. */
const OXYGEN: Mix = { id: ' oxygen', o2: 1, costPerFill: 0 };

/** Whether a gas goes into the oxygen cylinders of loops. */
export function isLoopOxygen({ id }: Pick<Mix, 'id'>): boolean {
  return id === OXYGEN.id;
}

/** Whether nobody said what a gas costs: it is the oxygen of loops, and the trip has no mix of 100 %. */
export function isWithoutPrice(mix: Mix): boolean {
  return mix === OXYGEN;
}

/** What a cylinder of a loop is for. */
export type LoopUse = 'oxygen' | 'diluent' | 'bail-out';

export interface LoopCylinder {
  readonly use: LoopUse;
  readonly mix: Mix;
  readonly cylinder: Cylinder;
}

function bailOutOf({ bailOut }: LoopGear, mixes: readonly Mix[]): readonly LoopCylinder[] {
  return bailOut.map(({ mix: id, cylinder }) => ({
    use: 'bail-out',
    mix: mixes.find((mix) => mix.id === id)!,
    cylinder,
  }));
}

/**
 * The cylinders that a dive on a loop is filled for: oxygen and diluent each time, bail-out before the first one and kept.
 * @param isFirst whether it is the diver's first on a loop
 * @returns oxygen, diluent, then bail-out as it is listed; oxygen costs what the trip's mix labelled 100 % does, the first of
 *   such, and is without a price where there is none
 * Source: CONVENTIONS, "On a loop".
 */
export function loopCylinders(
  { mixes }: Pick<Trip, 'mixes'>,
  { gear, diluent }: LoopOnDive,
  isFirst: boolean,
): readonly LoopCylinder[] {
  const priced = mixes.find(({ o2 }) => isSameShare(o2, 1));
  return [
    {
      use: 'oxygen',
      mix: priced === undefined ? OXYGEN : { ...OXYGEN, costPerFill: priced.costPerFill },
      cylinder: gear.oxygenCylinder,
    },
    { use: 'diluent', mix: mixes.find(({ id }) => id === diluent)!, cylinder: gear.diluentCylinder },
    ...(isFirst ? bailOutOf(gear, mixes) : []),
  ];
}

/**
 * The same of entries of a diver's ledger, by entry; of those on open circuit none.
 * @param entries of one diver, by start: the first on a loop of these is the one that bail-out is filled for
 * Source: as `loopCylinders`.
 */
export function loopFills(
  trip: Pick<Trip, 'mixes'>,
  entries: readonly Entry[],
): ReadonlyMap<Entry, readonly LoopCylinder[]> {
  const onLoops = entries.flatMap((entry) => {
    const onLoop = loopOn(entry.dive, entry.diver);
    return entry.isMade && onLoop !== null ? [{ entry, onLoop }] : [];
  });
  return new Map(
    onLoops.map(({ entry, onLoop }, place) => [entry, loopCylinders(trip, onLoop, place === 0)]),
  );
}

/** Whether a list of mixes to stock can hold a mix: its label is a whole percent that may be asked for. Source: this project's. */
function isOnLists({ o2 }: Mix): boolean {
  const percent = Math.round(o2 * 100);
  return percent >= LEANEST_PERCENT && percent <= RICHEST_PERCENT && isSameShare(o2, percent / 100);
}

/**
 * What loops need of a list of mixes to stock.
 * @param filled what is filled for them
 * @returns whole percents, each once; air, oxygen and what no list can hold are brought besides
 * Source: this project's.
 */
export function neededPercents(filled: readonly LoopCylinder[]): readonly number[] {
  const percents = filled.flatMap(({ mix }) => (isOnLists(mix) ? Math.round(mix.o2 * 100) : []));
  return [...new Set(percents)];
}

/**
 * What a dive on a loop needs and the mixes on board that day lack.
 * @returns whole percents; none for a dive on open circuit, and where the dive may take any mix of the trip
 * Source: this project's.
 */
export function missingPercents(trip: Pick<Trip, 'mixes'>, { dive, diver }: Entry): readonly number[] {
  const onLoop = loopOn(dive, diver);
  const { onBoard } = dive;
  if (onLoop === null || onBoard === undefined) return [];
  const stock = trip.mixes.filter(({ id }) => onBoard.includes(id));
  return neededPercents(loopCylinders(trip, onLoop, true)).filter(
    (percent) => !stock.some(({ o2 }) => isSameShare(o2, percent / 100)),
  );
}
