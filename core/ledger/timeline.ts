import { leadingShare } from '../ascent/tolerated';
import { cnsAfterInterval, cnsFraction } from '../oxygen/cns';
import { dayShareAt, type ClockPiece } from '../oxygen/cns-day';
import { type Leg, surroundingsOf } from '../profile';
import { applyMap, type AffineMap, type Lanes } from '../tissues/affine-map';
import { AIR_N2, inspiredBar } from '../tissues/compartments';
import { intervalMap, stretchMap } from '../tissues/leg-map';
import { surfaceLimits } from './entry';
import type { Carry, DiverLedger, Entry } from './ledger-types';
import type { Trip } from '../document/types';
import type { WallMin } from '../words/calendar';

/** One moment of the bands: exact at the moment, straight lines between them are for the eye. */
export interface TimelinePoint {
  readonly atMin: WallMin;
  readonly depthM: number;
  readonly compartment: number;
  readonly fractionOfLimit: number;
  readonly tensions: Lanes;
  readonly cns: number | null;
  readonly cnsDay: number | null;
}

/** In the water a point at least every so many minutes. */
const WATER_STEP_MIN = 3;

/** At the surface the curves flatten: points lie denser after surfacing, minutes since it. */
const SURFACE_STEPS_MIN = [
  5, 10, 15, 20, 30, 45, 60, 90, 120, 180, 240, 360, 480, 720, 960, 1440, 2160, 2880,
];

/** The first part of a leg, as a leg of its own. */
function part(leg: Leg, min: number): Leg {
  const share = min / leg.min;
  return {
    ...leg,
    toM: leg.fromM + share * (leg.toM - leg.fromM),
    toBar: leg.fromBar + share * (leg.toBar - leg.fromBar),
    min,
  };
}

interface Place {
  readonly restBar: number;
  readonly limits: Lanes;
  readonly surfaceBar: number;
  /** The map of each stretch at the surface that points are set by. */
  readonly waits: readonly Wait[];
}

interface Wait {
  readonly min: number;
  readonly map: AffineMap;
}

/** Exposures that can share a 24 h window, in order of time. */
interface DayClock {
  readonly pieces: readonly ClockPiece[];
  /** Where no share can be told, as one exposure has none. */
  readonly unknownSpans: readonly { readonly fromMin: WallMin; readonly toMin: WallMin }[];
}

/** What the carry on surfacing still knows is all that a window ending before the next dive can hold. */
function dayClock({ exposures }: Carry): DayClock {
  return {
    pieces: exposures.flatMap((exposure) => exposure.pieces ?? []),
    unknownSpans: exposures
      .filter((exposure) => exposure.pieces === null)
      .map(({ startMin, endMin }) => ({ fromMin: startMin, toMin: endMin + 1440 })),
  };
}

function dayShare(clock: DayClock, atMin: WallMin): number | null {
  const isUnknown = clock.unknownSpans.some((span) => span.fromMin <= atMin && atMin <= span.toMin);
  return isUnknown ? null : dayShareAt(clock.pieces, atMin);
}

function pointAt(
  atMin: WallMin,
  depthM: number,
  tensions: Lanes,
  cns: number | null,
  clock: DayClock,
  place: Place,
): TimelinePoint {
  const { compartment, fractionOfLimit } = leadingShare(tensions, place.restBar, place.limits);
  return { atMin, depthM, compartment, fractionOfLimit, tensions, cns, cnsDay: dayShare(clock, atMin) };
}

/** A leg cut into steps: the end of each, and the map from the leg's beginning to it. */
interface Cut {
  readonly done: Leg;
  readonly map: AffineMap;
}

/** Legs belong to a plan, which every diver shares and which outlives an edit of another dive. */
const cutsKnown = new WeakMap<Leg, readonly Cut[]>();

function cutsOf(leg: Leg): readonly Cut[] {
  let cuts = cutsKnown.get(leg);
  if (!cuts) {
    const count = Math.ceil(leg.min / WATER_STEP_MIN);
    cuts = Array.from({ length: count }, (_, i) => {
      const done = i + 1 === count ? leg : part(leg, (leg.min * (i + 1)) / count);
      return { done, map: stretchMap(done.fromBar, done.toBar, done.min) };
    });
    cutsKnown.set(leg, cuts);
  }
  return cuts;
}

function waterPoints(entry: Entry, clock: DayClock, place: Place): readonly TimelinePoint[] {
  const n2 = 1 - entry.o2!;
  const points = [pointAt(entry.startMin, 0, entry.tensionsBefore, entry.cns.before, clock, place)];
  let atMin = entry.startMin;
  let tensions = entry.tensionsBefore;
  let cns = entry.cns.before;
  for (const leg of entry.legs) {
    const cuts = cutsOf(leg);
    for (const { done, map } of cuts) {
      const taken = cnsFraction([done], entry.o2!, 'single');
      points.push(
        pointAt(
          atMin + done.min,
          done.toM,
          applyMap(map, tensions, n2),
          cns === null || taken === null ? null : cns + taken,
          clock,
          place,
        ),
      );
    }
    if (cuts.length > 0) {
      const last = points[points.length - 1]!;
      atMin = last.atMin;
      tensions = last.tensions;
      cns = last.cns;
    }
  }
  return points;
}

function surfacePoints(
  carry: Carry,
  untilMin: WallMin,
  clock: DayClock,
  place: Place,
): readonly TimelinePoint[] {
  const lastMin = untilMin - carry.atMin;
  const last = { min: lastMin, map: intervalMap(place.surfaceBar, lastMin) };
  return [...place.waits.filter(({ min }) => min < lastMin), last].map(({ min, map }) =>
    pointAt(
      carry.atMin + min,
      0,
      applyMap(map, carry.tensions, AIR_N2),
      carry.cns === null ? null : cnsAfterInterval(carry.cns, min),
      clock,
      place,
    ),
  );
}

/** The points of one dive and of the time at the surface after it. */
interface Part {
  readonly untilMin: WallMin;
  readonly points: readonly TimelinePoint[];
}

/** The bands of one diver, and what of them those after an edit can take over. */
export interface Timeline {
  /** In order of time. */
  readonly points: readonly TimelinePoint[];
  readonly parts: ReadonlyMap<Entry, Part>;
}

function partFrom(entry: Entry, untilMin: WallMin, place: Place, known: Part | undefined): Part {
  if (known?.untilMin === untilMin) return known;
  const { after } = entry;
  const clock = dayClock(after);
  const points = [
    // Where the stops of a dive run into the next, the next goes on from all that they let go.
    ...waterPoints(entry, clock, place).filter((point) => point.atMin <= untilMin),
    ...(untilMin > after.atMin ? surfacePoints(after, untilMin, clock, place) : []),
  ];
  return { untilMin, points };
}

/**
 * The bands of one diver: what is carried from before the first dive to a moment after the last, unbroken
 * through intervals and nights.
 * @param ledger of one diver @param trip the document it was made from
 * @param untilMin wall minutes where the bands end; nothing is drawn past it
 * @param previous bands of an earlier ledger: an entry taken over from it has the same past, and so the same points
 * @returns points in order of time, each exact; empty for a diver without dives. A dive whose stops run into
 *   the next is drawn until the next begins: there the curves jump, as the ledger does
 * Source: as the ledger's own steps.
 */
export function timelineOf(
  ledger: DiverLedger,
  trip: Trip,
  untilMin: WallMin,
  previous?: Timeline,
): Timeline {
  const { column } = surroundingsOf(trip);
  const { surfaceBar } = column;
  const place: Place = {
    surfaceBar,
    restBar: AIR_N2 * inspiredBar(surfaceBar),
    limits: surfaceLimits(column, ledger.diver.gradient.high),
    waits: SURFACE_STEPS_MIN.map((min) => ({ min, map: intervalMap(surfaceBar, min) })),
  };
  const made = ledger.entries.filter((entry) => entry.isMade);
  const parts = new Map(
    made.map((entry, turn) => {
      const endMin = made[turn + 1]?.startMin ?? untilMin;
      return [entry, partFrom(entry, endMin, place, previous?.parts.get(entry))];
    }),
  );
  return { points: [...parts.values()].flatMap(({ points }) => points), parts };
}
