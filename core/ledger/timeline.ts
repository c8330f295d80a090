import { leadingShare, toleratedTensions } from '../ascent/tolerated';
import { surroundingsAt } from '../document/waters';
import { cnsAfterInterval, cnsFraction } from '../oxygen/cns';
import { dayShareAt, type ClockPiece } from '../oxygen/cns-day';
import { type Leg, type Surroundings, surroundingsOf } from '../profile';
import { applyMap, compose, type AffineMap, type Lanes } from '../tissues/affine-map';
import { AIR_N2, inspiredBar } from '../tissues/compartments';
import { breathedMap } from '../tissues/breathed-legs';
import {
  afterSurface,
  atSurface,
  isSameAir,
  stretchesOf,
  type Air,
  type AtSurface,
  type Stay,
} from './at-surface';
import { nitrogenOf, oxygenBreathed } from './breathed-oxygen';
import type { Carry, DiverLedger, Entry } from './ledger-types';
import { loopAround } from './loop-around';
import { straightUpMap } from './straight-up-map';
import type { Trip } from '../document/types';
import type { WallMin } from '../words/calendar';

/** What a share of the limit is told by at one pressure of the air. */
export interface Scale {
  readonly restBar: number;
  readonly limits: Lanes;
}

/** One moment of the bands: exact at the moment, straight lines between them are for the eye. */
export interface TimelinePoint {
  readonly atMin: WallMin;
  readonly depthM: number;
  /** The largest share of its limit that a compartment would have on surfacing, and which (1 to 16). */
  readonly compartment: number;
  readonly fractionOfLimit: number;
  /** Tensions on surfacing, were the diver to go straight up at this moment, bar; at the surface those of now. */
  readonly surfacingTensions: Lanes;
  /** What they are held to, by the pressure surfaced to. */
  readonly scale: Scale;
  readonly cns: number | null;
  readonly cnsDay: number | null;
}

/** How near points may lie to each other, minutes above 0: as near as is told apart where they are drawn. */
export interface Steps {
  readonly waterMin: number;
  readonly surfaceMin: number;
}

/**
 * The densest that is of use, however close the view: between such points the fastest compartment, of 5 minutes,
 * bends less than a three-hundredth of a band that shows its limit. Source: choice of this project, by a property test.
 */
export const FINEST_STEP_MIN = 0.5;

/** From a bend on, curves flatten as time goes by, and points may lie further apart in proportion to it. */
const SPREAD = 0.12;

/** However flat a curve: where another compartment takes the lead, or an exposure leaves the 24 h, it bends. */
const WIDEST = { waterMin: 3, surfaceMin: 30 } as const;

/** On a slope what is taken up grows with the square of the depth: a step is no more than so many metres. */
const SLOPE_M = 2;

/** Moments along a stretch, minutes since its beginning: dense at first, its end the last of them. */
function momentsAlong(
  min: number,
  leastMin: number,
  widestMin: number,
  finestMin = FINEST_STEP_MIN,
): readonly number[] {
  const moments: number[] = [];
  const least = Math.max(leastMin, finestMin);
  const widest = Math.max(least, widestMin);
  let at = 0;
  for (;;) {
    const step = Math.min(widest, Math.max(least, at * SPREAD));
    const left = min - at;
    if (left <= step) break;
    // Less than two steps are left in two halves: nobody sees a last one of no length, and a longer one bends.
    at += left < 2 * step ? left / 2 : step;
    moments.push(at);
  }
  moments.push(min);
  return moments;
}

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

/** A dive's own water, and where the diver breathes after it. */
interface Place {
  /** Of the water's surface. */
  readonly scale: Scale;
  readonly around: Surroundings;
  readonly steps: Steps;
  readonly surface: AtSurface;
  /** Of the air at a pressure: at the trip's own height, and at that of an event. */
  readonly scaleAt: (bar: number) => Scale;
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
  surfacingTensions: Lanes,
  cns: number | null,
  clock: DayClock,
  scale: Scale,
): TimelinePoint {
  const { compartment, fractionOfLimit } = leadingShare(surfacingTensions, scale.restBar, scale.limits);
  const cnsDay = dayShare(clock, atMin);
  return { atMin, depthM, compartment, fractionOfLimit, surfacingTensions, scale, cns, cnsDay };
}

/** A leg cut into steps: the end of each, and the map from the leg's beginning to it and straight up from there. */
interface Cut {
  readonly done: Leg;
  readonly straightUp: AffineMap;
}

interface Cuts {
  readonly around: Surroundings;
  readonly waterMin: number;
  readonly cuts: readonly Cut[];
  /** From the leg's beginning to its end. */
  readonly whole: AffineMap;
}

/** Legs belong to a plan, which every diver shares and which outlives an edit of another dive. */
const cutsKnown = new WeakMap<Leg, Cuts>();

/** On the very way that is asked about the answer stays the same: its end is enough. */
function isStraightUp(leg: Leg, { ascentMPerMin }: Surroundings): boolean {
  const rise = leg.fromM - leg.toM;
  return rise > 0 && Math.abs(rise - ascentMPerMin * leg.min) < 1e-9 * rise;
}

function legMoments({ fromM, toM, min }: Leg, waterMin: number): readonly number[] {
  if (fromM === toM) return momentsAlong(min, waterMin, WIDEST.waterMin);
  const slopeMin = (SLOPE_M / Math.abs(toM - fromM)) * min;
  return momentsAlong(min, waterMin, slopeMin, Math.min(FINEST_STEP_MIN, slopeMin));
}

/** @param level the way straight up, where the whole leg lies at one depth */
function cutAt(leg: Leg, min: number, around: Surroundings, level: AffineMap | null = null): Cut {
  const done = min === leg.min ? leg : part(leg, min);
  const map = breathedMap([done], around.breathing);
  return { done, straightUp: compose(map, level ?? straightUpMap(done.toM, around)) };
}

function cutsOf(leg: Leg, { around, steps: { waterMin } }: Place): Cuts {
  const known = cutsKnown.get(leg);
  if (known?.around === around && known.waterMin === waterMin) return known;
  const moments = leg.min === 0 ? [] : isStraightUp(leg, around) ? [leg.min] : legMoments(leg, waterMin);
  const level = leg.fromM === leg.toM ? straightUpMap(leg.toM, around) : null;
  const cuts = moments.map((min) => cutAt(leg, min, around, level));
  const made = { around, waterMin, cuts, whole: breathedMap([leg], around.breathing) };
  cutsKnown.set(leg, made);
  return made;
}

/** A bend that is cut off by less than this share of the limit is not seen. */
const SEEN = 1 / 500;

/**
 * Where, between two points, another compartment takes the lead: there the curve bends at once, however near they lie.
 * @returns the share of the time between them, 0 to 1; null for no bend that can be seen
 */
function bendBetween(from: TimelinePoint, to: TimelinePoint, { restBar, limits }: Scale): number | null {
  if (from.compartment === to.compartment) return null;
  const share = ({ surfacingTensions }: TimelinePoint, compartment: number): number =>
    (surfacingTensions[compartment - 1]! - restBar) / (limits[compartment - 1]! - restBar);
  const ahead = from.fractionOfLimit - share(from, to.compartment);
  const behind = to.fractionOfLimit - share(to, from.compartment);
  const at = ahead / (ahead + behind);
  return at * behind > SEEN ? at : null;
}

function waterPoints(entry: Entry, clock: DayClock, own: Place): readonly TimelinePoint[] {
  const n2 = nitrogenOf(entry);
  const place: Place =
    entry.loop === null ? own : { ...own, around: loopAround(own.around, entry.loop.breathing) };
  const points = [pointAt(entry.startMin, 0, entry.tensionsBefore, entry.cns.before, clock, place.scale)];
  let atMin = entry.startMin;
  let tensions = entry.tensionsBefore;
  let cns = entry.cns.before;
  const after = ({ done, straightUp }: Cut): TimelinePoint => {
    const oxygen = oxygenBreathed([done], entry);
    const taken = cnsFraction(oxygen.legs, oxygen.o2, 'single');
    return pointAt(
      atMin + done.min,
      done.toM,
      applyMap(straightUp, tensions, n2),
      cns === null || taken === null ? null : cns + taken,
      clock,
      place.scale,
    );
  };
  for (const leg of entry.legs) {
    const { cuts, whole } = cutsOf(leg, place);
    for (const cut of cuts) {
      const before = points[points.length - 1]!;
      const point = after(cut);
      const bend = bendBetween(before, point, place.scale);
      if (bend !== null) {
        const sinceMin = before.atMin - atMin;
        points.push(after(cutAt(leg, sinceMin + bend * (cut.done.min - sinceMin), place.around)));
      }
      points.push(point);
    }
    if (cuts.length === 0) continue;
    const last = points[points.length - 1]!;
    atMin = last.atMin;
    tensions = applyMap(whole, tensions, n2);
    cns = last.cns;
  }
  return points;
}

/** The points of a while at one pressure; at its beginning there is one where the pressure is another than before. */
function stretchPoints(
  carry: Carry,
  { fromMin, toMin, bar }: Stay,
  isChanged: boolean,
  clock: DayClock,
  place: Place,
): readonly TimelinePoint[] {
  const scale = place.scaleAt(bar);
  const after = (min: number): TimelinePoint =>
    pointAt(
      fromMin + min,
      0,
      afterSurface(place.surface, carry, fromMin + min),
      carry.cns === null ? null : cnsAfterInterval(carry.cns, fromMin + min - carry.atMin),
      clock,
      scale,
    );
  let before = after(0);
  const points: TimelinePoint[] = isChanged ? [before] : [];
  for (const min of momentsAlong(toMin - fromMin, place.steps.surfaceMin, WIDEST.surfaceMin)) {
    const point = after(min);
    const bend = bendBetween(before, point, scale);
    if (bend !== null) {
      const sinceMin = before.atMin - fromMin;
      points.push(after(sinceMin + bend * (min - sinceMin)));
    }
    points.push(point);
    before = point;
  }
  return points;
}

function surfacePoints(
  carry: Carry,
  untilMin: WallMin,
  clock: DayClock,
  place: Place,
): readonly TimelinePoint[] {
  let bar = place.around.column.surfaceBar;
  return stretchesOf(place.surface, carry.atMin, untilMin).flatMap((stretch) => {
    const points = stretchPoints(carry, stretch, stretch.bar !== bar, clock, place);
    ({ bar } = stretch);
    return points;
  });
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
  readonly steps: Steps;
  readonly air: Air;
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
 * The bands of one diver from before the first dive to a moment after the last, unbroken through intervals and
 * nights. Of nitrogen they answer one question: how near the limit would the diver surface who went straight up now?
 * So the curve is at 1 exactly when the no-stop time is up; past it, required stops or not, it is above.
 * @param ledger of one diver @param trip the document it was made from
 * @param untilMin wall minutes where the bands end; nothing is drawn past it
 * @param steps how near points may lie: a pixel's worth where they are drawn; less than `FINEST_STEP_MIN` shows
 *   nothing more
 * @param previous bands of an earlier ledger: an entry taken over from it has the same past, and so the same
 *   points, where they lie as near
 * @returns points in order of time, each exact; empty for a diver without dives. A dive whose stops run into
 *   the next is drawn until the next begins: there the curves jump, as the ledger does
 * Source: as the ledger's own steps; CONVENTIONS, "Share of the limit".
 */
export function timelineOf(
  ledger: Pick<DiverLedger, 'diver' | 'entries'>,
  trip: Trip,
  untilMin: WallMin,
  steps: Steps,
  previous?: Timeline,
): Timeline {
  const gradientHigh = ledger.diver.gradient.high;
  const surface = atSurface(trip, surroundingsOf(trip).column.surfaceBar);
  const air: Air = { homeBar: surface.homeBar, stays: surface.stays };
  const scales = new Map<number, Scale>();
  const scaleAt = (bar: number): Scale => {
    let scale = scales.get(bar);
    if (!scale) {
      scale = { restBar: AIR_N2 * inspiredBar(bar), limits: toleratedTensions(bar, gradientHigh) };
      scales.set(bar, scale);
    }
    return scale;
  };
  const placeOf = ({ dive }: Entry): Place => {
    const around = surroundingsAt(trip, dive);
    return { around, steps, surface, scaleAt, scale: scaleAt(around.column.surfaceBar) };
  };
  const known =
    previous?.steps.waterMin === steps.waterMin &&
    previous.steps.surfaceMin === steps.surfaceMin &&
    isSameAir(previous.air, surface)
      ? previous.parts
      : undefined;
  const made = ledger.entries.filter((entry) => entry.isMade);
  const parts = new Map(
    made.map((entry, turn) => {
      const endMin = made[turn + 1]?.startMin ?? untilMin;
      return [entry, partFrom(entry, endMin, placeOf(entry), known?.get(entry))];
    }),
  );
  return { points: [...parts.values()].flatMap(({ points }) => points), steps, air, parts };
}
