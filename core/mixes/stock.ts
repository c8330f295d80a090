import type { FilledMap } from '../tissues/affine-map';
import { success, type Result } from '../result';
import { surroundingsOf } from '../profile';
import { atSurface } from '../ledger/at-surface';
import { diverLedger } from '../ledger/ledger';
import type { Id, Trip } from '../document/types';
import { DiverFold, type FoldOutcome } from './diver-fold';
import { assigned, candidateOf, foldTables, NO_MIX, type DiverTables, type FoldTables } from './fold-tables';
import type { PeakTables } from './oxygen-tally';
import {
  diverOutcome,
  medianRoomMin,
  NO_LIMIT_MET,
  settledOutcome,
  smallerRoom,
  type SmallestRoom,
} from './outcome';
import { checkedRequest, listsOf, type RequestTroubleKind, type StockRequest } from './shares';
import { isAir, openTrip, stockedTrip, type OpenTrip } from './stocked-trip';
import type { RoomLimit } from '../ledger/ledger-types';
import { COST_STEP, compareMerits, dominates, meritsOf, type Merits, type Outcome } from './undominated';

/** A list of mixes to stock besides air, and what the trip comes to with it. */
export interface StockList extends Outcome {
  /** Whole percents, rising. */
  readonly percents: readonly number[];
  /** Those of the fixed ones that no open dive gets: the boat could leave them ashore. */
  readonly unusedPercents: readonly number[];
  /** The dive that has the smallest room, and the limit it is to; null where nothing limits a dive. */
  readonly smallestAt: { readonly diveId: Id; readonly limit: RoomLimit } | null;
  /** Dives that are outside a limit for somebody, in the order of the trip. */
  readonly outsideIds: readonly Id[];
  /** Nothing beats it in every measure at once. */
  readonly isBest: boolean;
}

/** The answer to what to stock. */
export interface StockAnswer {
  readonly request: StockRequest;
  /** Best first: all that nothing beats, and at least the first 20 there are. */
  readonly lists: readonly StockList[];
  /** Lists worked out to the end; the others were proved beaten before that. */
  readonly searched: number;
  /** Lists there are. */
  readonly total: number;
  /** Lists left out because a share of them would fill no dive: shorter ones come to the same. */
  readonly withUnused: number;
  /** Dives for which no share at all suits one of their divers: no list can keep them. */
  readonly unreachedDiveIds: readonly Id[];
  /** Of the others, lists left out because they cost more or take more fills than allowed. */
  readonly overLimit: number;
}

/** At least so many lists are told, beaten or not. Source: this project's. */
export const LISTS_TOLD = 20;

/** Called with work done and work there is, in equal steps; from a few times to a few hundred. */
export type Progress = (done: number, total: number) => void;

/** A list under way: what its divers so far have shown is a bound on what it comes to. */
interface Candidate {
  readonly percents: readonly number[];
  readonly mixOfClass: readonly (readonly number[])[];
  readonly keys: readonly string[];
  readonly cost: number;
  readonly fills: number;
  readonly unusedPercents: readonly number[];
  /** Divers worked out so far; what they come to together follows. */
  divers: number;
  smallest: SmallestRoom;
  oxygenPeak: number;
  /** By the trip's dives: 1 where somebody is outside a limit. */
  readonly outside: Uint8Array;
  readonly nitrogenRooms: Float64Array;
  merits: Merits;
}

/** Folds divers with what lists give them, each combination once. */
class Party {
  readonly order: readonly number[];
  private readonly open: OpenTrip;
  private readonly tables: FoldTables;
  private readonly folds: readonly DiverFold[];
  private readonly known: readonly Map<string, FoldOutcome>[];
  private readonly openPlaces: readonly number[];
  private readonly scratch: Float64Array<ArrayBuffer>;

  constructor(open: OpenTrip, tables: FoldTables) {
    this.open = open;
    this.tables = tables;
    const intervals = new Map<number, FilledMap>();
    const peaks: PeakTables = new Map();
    const surface = atSurface(open.trip, surroundingsOf(open.trip).column.surfaceBar);
    this.folds = tables.divers.map((diver) => new DiverFold(diver, surface, intervals, peaks));
    this.known = tables.divers.map(() => new Map());
    this.openPlaces = open.trip.dives.flatMap((dive, place) => (open.openIds.has(dive.id) ? [place] : []));
    this.scratch = new Float64Array(this.openPlaces.length);
    // The diver with the least gradient is the likeliest to set the smallest room, which prunes soonest.
    const gradient = (index: number) => tables.divers[index]!.diver.gradient.high;
    this.order = tables.divers.map((_, index) => index).toSorted((a, b) => gradient(a) - gradient(b));
  }

  /** Adds the next diver to a list. */
  advance(list: Candidate): void {
    const diver = this.order[list.divers]!;
    const known = this.known[diver]!;
    const key = list.keys[diver]!;
    let outcome = known.get(key);
    if (!outcome) {
      const dives = this.open.trip.dives.length;
      outcome =
        this.folds[diver]!.fold(list.mixOfClass[diver]!, dives) ?? this.byLedger(diver, list.percents);
      known.set(key, outcome);
    }
    list.divers += 1;
    for (const place of outcome.outside) list.outside[place] = 1;
    const { nitrogenRooms } = list;
    for (const place of this.openPlaces) {
      const min = outcome.nitrogenRooms[place]!;
      if (min < nitrogenRooms[place]!) nitrogenRooms[place] = min;
    }
    list.smallest = smallerRoom(list.smallest, outcome.smallest);
    list.oxygenPeak = Math.max(list.oxygenPeak, outcome.oxygenPeak);
    list.merits = meritsOf(this.outcomeOf(list));
  }

  /** The definition itself, for what the fold has no quick answer to. */
  private byLedger(diver: number, percents: readonly number[]): FoldOutcome {
    const trip = stockedTrip(this.open, percents);
    const { outside, ...rest } = diverOutcome(trip, diverLedger(trip, trip.party[diver]!), this.open.openIds);
    return { ...rest, outside: [...outside].map((id) => trip.dives.findIndex((dive) => dive.id === id)) };
  }

  /** What a list comes to by the divers worked out so far. */
  outcomeOf(list: Candidate): Outcome {
    let divesWithin = list.outside.length;
    for (const isOutside of list.outside) divesWithin -= isOutside;
    return settledOutcome({
      divesWithin,
      smallestRoomMin: list.smallest.min,
      nitrogenRoomMin: medianRoomMin(list.nitrogenRooms, this.openPlaces, this.scratch),
      cost: list.cost,
      oxygenPeak: list.oxygenPeak,
      fills: list.fills,
      mixes: list.percents.length,
    });
  }

  /** A list as it is told. */
  told(list: Candidate, isBest: boolean): StockList {
    const { dives } = this.open.trip;
    const { limit, diveIndex } = list.smallest;
    return {
      percents: list.percents,
      unusedPercents: list.unusedPercents,
      ...this.outcomeOf(list),
      smallestAt: limit === null ? null : { diveId: dives[diveIndex]!.id, limit },
      outsideIds: dives.filter((_, place) => list.outside[place] === 1).map(({ id }) => id),
      isBest,
    };
  }

  unreachedDiveIds(): readonly Id[] {
    const ids = this.tables.divers.flatMap(({ dives, classes }) =>
      dives
        .filter(({ isOpen, classIndex }) => isOpen && !classes[classIndex]!.allowed.includes(true))
        .map(({ dive }) => dive.id),
    );
    return [...new Set(ids)];
  }

  /** What a list gives everybody, and what that costs; nothing is folded yet. */
  candidate(percents: readonly number[]): Candidate {
    const list = percents.map(candidateOf);
    const used = new Set<number>();
    let cost = 0;
    let fills = 0;
    const give = (tables: DiverTables): readonly number[] =>
      tables.classes.map((diveClass) => {
        if (!diveClass.isOpen) return NO_MIX;
        const candidate = assigned(this.tables, diveClass, list);
        if (candidate === NO_MIX) return NO_MIX;
        const mix = this.tables.candidates[candidate]!;
        used.add(candidate);
        cost += diveClass.openDives * mix.costPerFill;
        if (!isAir(mix)) fills += diveClass.openDives;
        return candidate;
      });
    const mixOfClass = this.tables.divers.map(give);
    for (const { loopFills, needsPercents } of this.tables.divers) {
      for (const mix of loopFills) {
        cost += mix.costPerFill;
        if (!isAir(mix)) fills += 1;
      }
      for (const percent of needsPercents) used.add(candidateOf(percent));
    }
    const unusedPercents = percents.filter((percent) => !used.has(candidateOf(percent)));
    const dives = this.open.trip.dives.length;
    const begun = {
      percents,
      mixOfClass,
      // What is on the list of all that a loop needs tells its dives apart too.
      keys: mixOfClass.map((mixes, diver) =>
        [...mixes, ...this.tables.divers[diver]!.needsPercents.map((each) => percents.includes(each))].join(
          ' ',
        ),
      ),
      cost,
      fills,
      unusedPercents,
      divers: 0,
      smallest: NO_LIMIT_MET,
      oxygenPeak: 0,
      outside: new Uint8Array(dives),
      nitrogenRooms: new Float64Array(dives).fill(Infinity),
      merits: NOTHING_YET,
    };
    return { ...begun, merits: meritsOf(this.outcomeOf(begun)) };
  }
}

/** In the place of merits that are worked out next. */
const NOTHING_YET: Merits = [0, 0, 0, 0, 0, 0, 0];

/** Lists proved: those that nothing beats, and the first few by merit. */
class Proved {
  readonly all: Candidate[] = [];
  private front: Merits[] = [];
  private readonly leading: Merits[] = [];

  add(list: Candidate): void {
    const { merits } = list;
    this.all.push(list);
    if (!this.isBeaten(merits)) {
      this.front = this.front.filter((other) => !dominates(merits, other));
      this.front.push(merits);
    }
    let at = this.leading.length;
    while (at > 0 && compareMerits(merits, this.leading[at - 1]!) < 0) at -= 1;
    this.leading.splice(at, 0, merits);
    if (this.leading.length > LISTS_TOLD) this.leading.pop();
  }

  private isBeaten(merits: Merits): boolean {
    return this.front.some((other) => dominates(other, merits));
  }

  /**
   * Whether a list can be let go, by the best it may still come to: more divers never raise the dives within,
   * never widen the smallest room and never lower the oxygen peak, while cost and fills are known.
   */
  isDecided(bound: Merits): boolean {
    const last = this.leading[LISTS_TOLD - 1];
    return last !== undefined && compareMerits(last, bound) < 0 && this.isBeaten(bound);
  }

  told(party: Party): readonly StockList[] {
    const sorted = this.all.toSorted(
      (a, b) =>
        compareMerits(a.merits, b.merits) ||
        a.unusedPercents.length - b.unusedPercents.length ||
        compareLists(a.percents, b.percents),
    );
    return sorted
      .map((list) => party.told(list, !this.isBeaten(list.merits)))
      .filter((list, place) => list.isBest || place < LISTS_TOLD);
  }
}

/** Of lists alike in all else the one with the leaner mixes first; they have as many, which is a measure. */
function compareLists(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < a.length; i += 1) if (a[i] !== b[i]) return a[i]! - b[i]!;
  return 0;
}

/**
 * Which mixes to stock besides air: every list of whole percents, judged by dives within every limit, the smallest
 * room, the nitrogen room of the median dive, cost, the highest oxygen share, fills and mixes. Exact. The maps of each dive on each share are
 * computed once; a list is folded diver by diver, and let go as soon as what its divers so far have shown is
 * beaten in every measure by a list worked out to the end.
 * @param trip that `checkTrip` has passed @param request as asked @param progress told in equal steps
 * @returns the lists told, best first; or what is wrong with the request
 * Source: affine maps (tissues/affine-map.ts); branch and bound, A. H. Land, A. G. Doig, Econometrica
 * 1960;28:497-520, on Pareto dominance.
 */
export function searchStock(
  trip: Trip,
  request: StockRequest,
  progress: Progress = () => {},
): Result<StockAnswer, RequestTroubleKind> {
  const checked = checkedRequest(trip, request);
  if (!checked.ok) return checked;
  const { maxCost, maxFills } = checked.value;
  const open = openTrip(trip, checked.value);
  const party = new Party(open, foldTables(open));
  const { fixedPercents } = checked.value;
  const every = listsOf(checked.value, trip.mixes).map((percents) => party.candidate(percents));
  const useful = every.filter(({ unusedPercents }) =>
    unusedPercents.every((percent) => fixedPercents.includes(percent)),
  );
  const allowed = useful.filter(
    ({ cost, fills }) =>
      (maxCost === null || cost <= maxCost + COST_STEP / 2) && (maxFills === null || fills <= maxFills),
  );

  const divers = trip.party.length;
  const work = allowed.length * divers;
  const tellEvery = Math.max(1, Math.floor(work / 200));
  let done = 0;
  const advanced = (by: number): void => {
    const before = Math.floor(done / tellEvery);
    done += by;
    if (Math.floor(done / tellEvery) > before) progress(done, work);
  };

  // The likeliest to be tight first, for every list: what follows starts with the strongest.
  for (const list of allowed) {
    party.advance(list);
    advanced(1);
  }
  allowed.sort((a, b) => compareMerits(a.merits, b.merits));
  const proved = new Proved();
  for (const list of allowed) {
    while (list.divers < divers && !proved.isDecided(list.merits)) {
      party.advance(list);
      advanced(1);
    }
    if (list.divers === divers) proved.add(list);
    else advanced(divers - list.divers);
  }
  return success({
    request: checked.value,
    lists: proved.told(party),
    searched: proved.all.length,
    total: every.length,
    withUnused: every.length - useful.length,
    overLimit: useful.length - allowed.length,
    unreachedDiveIds: party.unreachedDiveIds(),
  });
}
