/**
 * Breathing that is not one mix, as legs that the closed forms take as they are. On a loop
 *
 *     PO2(t) = max(min(s, P(t) - vapour), o2 of the diluent * (P(t) - vapour))     nitrogen inspired = P(t) - vapour - PO2(t)
 *
 * Both run linearly in time between cuts: where the setpoint s switches, where it can no longer be reached, and where
 * the diluent alone has it. So a leg of a loop is, for nitrogen, a leg of pure nitrogen at an ambient pressure of vapour
 * plus what is inspired, and for the oxygen clocks a leg of pure oxygen at PO2. Mixes that change with depth are the same.
 */
import { mixAt, setpointBar, type Breathing, type LoopBreathing, type MixesBreathing } from '../breathing';
import type { Leg } from '../profile';
import { type AffineMap, identity } from './affine-map';
import { inspiredBar, WATER_VAPOUR_BAR } from './compartments';
import { legsMap } from './leg-map';

/** Where the nitrogen fraction of a mix stands, a leg of `nitrogenLegs` has this: it is of pure nitrogen. */
export const PURE_NITROGEN = 1;

function between(from: number, to: number, share: number): number {
  return share === 0 ? from : share === 1 ? to : from + (to - from) * share;
}

function partOf(leg: Leg, from: number, to: number): Leg {
  return {
    kind: leg.kind,
    fromM: between(leg.fromM, leg.toM, from),
    toM: between(leg.fromM, leg.toM, to),
    fromBar: between(leg.fromBar, leg.toBar, from),
    toBar: between(leg.fromBar, leg.toBar, to),
    min: leg.min * (to - from),
  };
}

/** Cuts a leg at shares of its time; those not inside it are passed over. */
function cut(leg: Leg, shares: readonly number[]): readonly Leg[] {
  const inside = shares.filter((share) => share > 0 && share < 1);
  if (inside.length === 0) return [leg];
  const ends = [0, ...inside.toSorted((a, b) => a - b), 1];
  return ends.slice(1).map((to, n) => partOf(leg, ends[n]!, to));
}

/**
 * Cuts a sloping leg where it passes depths.
 * @param depthsM metres; those it does not pass are let be @returns its parts, in order
 * Source: a leg is a straight line in time.
 */
export function cutAtDepths(leg: Leg, depthsM: readonly number[]): readonly Leg[] {
  if (leg.fromM === leg.toM) return [leg];
  return cut(
    leg,
    depthsM.map((depthM) => (depthM - leg.fromM) / (leg.toM - leg.fromM)),
  );
}

/** What a loop holds: its setpoint at the middle of a piece, as at its ends rounding would decide. */
function heldBar(leg: Leg, loop: LoopBreathing, strayBar: number): number {
  return setpointBar(loop, (leg.fromM + leg.toM) / 2) + strayBar;
}

/** Pieces of a leg in which one law holds. */
function loopPieces(leg: Leg, loop: LoopBreathing, strayBar: number): readonly Leg[] {
  if (leg.min === 0) return [];
  if (leg.fromBar === leg.toBar) return [leg];
  return cutAtDepths(leg, [loop.switchM]).flatMap((piece) => {
    const rise = piece.toBar - piece.fromBar;
    const held = heldBar(piece, loop, strayBar);
    const reachedAt = [held, held / loop.diluentO2].map(
      (dryBar) => (dryBar + WATER_VAPOUR_BAR - piece.fromBar) / rise,
    );
    return cut(piece, reachedAt);
  });
}

/** Oxygen pressure at both ends of a piece. */
function oxygenEnds(
  piece: Leg,
  loop: LoopBreathing,
  strayBar: number,
): { readonly fromBar: number; readonly toBar: number } {
  const held = heldBar(piece, loop, strayBar);
  const from = inspiredBar(piece.fromBar);
  const to = inspiredBar(piece.toBar);
  const middle = (from + to) / 2;
  if (middle <= held) return { fromBar: from, toBar: to };
  const { diluentO2 } = loop;
  if (diluentO2 * middle >= held) return { fromBar: diluentO2 * from, toBar: diluentO2 * to };
  return { fromBar: held, toBar: held };
}

/** A part of a leg on one mix. */
interface OnOneMix {
  /** Its place among the mixes. */
  readonly mix: number;
  readonly leg: Leg;
}

/**
 * Legs cut where the mix is changed.
 * @param legs in order, pressures in bar @returns in the same order
 * Source: definition.
 */
export function legsByMix(legs: readonly Leg[], breathing: MixesBreathing): readonly OnOneMix[] {
  const changesM = breathing.mixes.slice(0, -1).map(({ downToM }) => downToM);
  return legs.flatMap((whole) =>
    cutAtDepths(whole, changesM).map((leg) => ({ leg, mix: mixAt(breathing, (leg.fromM + leg.toM) / 2) })),
  );
}

function onPureNitrogen({ leg, mix }: OnOneMix, { mixes }: MixesBreathing): Leg {
  const n2 = 1 - mixes[mix]!.o2;
  const pureBar = (bar: number) => WATER_VAPOUR_BAR + n2 * inspiredBar(bar);
  return { ...leg, fromBar: pureBar(leg.fromBar), toBar: pureBar(leg.toBar) };
}

/**
 * Legs as legs of pure nitrogen, at the ambient pressure at which pure nitrogen is inspired as what is breathed has it;
 * a loop's with its setpoint less the tolerance.
 * @param legs in order, pressures in bar @returns legs to give to `legsMap`, with the fraction `PURE_NITROGEN`
 * Source: CONVENTIONS, "Constant PO2".
 */
export function nitrogenLegs(legs: readonly Leg[], breathing: Breathing): readonly Leg[] {
  if (breathing.is === 'mixes') {
    return legsByMix(legs, breathing).map((each) => onPureNitrogen(each, breathing));
  }
  const strayBar = -breathing.toleranceBar;
  return legs.flatMap((leg) =>
    loopPieces(leg, breathing, strayBar).map((piece) => {
      const oxygen = oxygenEnds(piece, breathing, strayBar);
      return { ...piece, fromBar: piece.fromBar - oxygen.fromBar, toBar: piece.toBar - oxygen.toBar };
    }),
  );
}

/**
 * Legs of a loop as the oxygen clocks see them: pure oxygen at what is inspired, the setpoint being more by the tolerance.
 * @param legs in order, pressures in bar @returns legs to give to the clocks, with an oxygen fraction of 1
 * Source: CONVENTIONS, "Constant PO2".
 */
export function oxygenLegs(legs: readonly Leg[], loop: LoopBreathing): readonly Leg[] {
  return legs.flatMap((leg) =>
    loopPieces(leg, loop, loop.toleranceBar).map((piece) => ({
      ...piece,
      ...oxygenEnds(piece, loop, loop.toleranceBar),
    })),
  );
}

/** A moment at a depth, as a leg: what is breathed there does not hang on how long. */
function momentAt(depthM: number, ambientBar: number): Leg {
  return { kind: 'level', fromM: depthM, toM: depthM, fromBar: ambientBar, toBar: ambientBar, min: 1 };
}

/**
 * Oxygen pressure that a loop is planned to have at a depth, as a cell reads it: the setpoint without its tolerance.
 * @param depthM metres @param ambientBar bar absolute, at that depth @returns bar
 * Source: as `oxygenLegs`.
 */
export function loopPo2Bar(depthM: number, ambientBar: number, loop: LoopBreathing): number {
  return oxygenEnds(momentAt(depthM, ambientBar), loop, 0).fromBar;
}

/**
 * Nitrogen inspired at a depth.
 * @param n2Fraction of the mix; `PURE_NITROGEN` beside a breathing @param ambientBar bar absolute
 * @param breathing left out: one mix @returns bar
 * Source: as `nitrogenLegs`; CONVENTIONS, "Tissues" for a mix.
 */
export function nitrogenInspiredBar(
  depthM: number,
  ambientBar: number,
  n2Fraction: number,
  breathing?: Breathing,
): number {
  if (breathing === undefined) return n2Fraction * inspiredBar(ambientBar);
  return inspiredBar(nitrogenLegs([momentAt(depthM, ambientBar)], breathing)[0]!.fromBar);
}

/**
 * The map of legs in a row, whatever is breathed on them: what `legsMap` makes of one mix.
 * @param legs in order @param breathing left out: one mix, whose nitrogen fraction is put in when the map is applied;
 *   else the map is applied with `PURE_NITROGEN`
 * @param before the map they carry on from, the identity where it is left out
 * Source: as `legsMap` and `nitrogenLegs`.
 */
export function breathedMap(
  legs: readonly Leg[],
  breathing: Breathing | undefined,
  before: AffineMap = identity,
): AffineMap {
  return legsMap(breathing === undefined ? legs : nitrogenLegs(legs, breathing), before);
}
