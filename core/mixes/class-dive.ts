import type { LoopBreathing } from '../breathing';
import { loopOn } from '../document/loops';
import type { Diver, Id, LoopGear, Mix, Setpoints, Trip } from '../document/types';
import { eadM, isAbovePo2, po2Bar } from '../gas';
import { setpointsSaid } from '../ledger/loop-said';
import { newDivePlan } from '../ledger/dive-plan';
import { loopAround, loopBreathing } from '../ledger/loop-around';
import { mixO2 } from '../ledger/mix-choice';
import { surroundingsOf, type Surroundings } from '../profile';
import { loopPo2Bar, nitrogenInspiredBar, PURE_NITROGEN } from '../tissues/breathed-legs';
import { AIR_N2, restTensions, WATER_VAPOUR_BAR } from '../tissues/compartments';
import { ambientBar, depthAtM, type WaterColumn } from '../water';
import { bare, figure, said, type Said } from '../words/said';
import { mixSaid } from '../words/terms';
import { nitrogenCurve, type NitrogenCurve } from './nitrogen-curve';
import { usableModM } from './richest';
import { isSameShare, mixOfShare } from './shares';

/** Who dives in class: a first dive, by the settings a new diver has. Source: common practice. */
export const CLASS_DIVER: Diver = {
  id: 'class',
  name: 'A diver',
  surfaceRateLpm: 20,
  cylinder: { waterL: 12, fillBar: 200, reserveBar: 50 },
  maxDepthM: 40,
  maxO2: 0.4,
  po2: { working: 1.4, contingency: 1.6 },
  gradient: { low: 0.5, high: 0.8 },
};

/** Depths that a class can look at, metres. Source: choice of this project; recreational diving ends at 40 m. */
export const CLASS_DEPTHS_M = [3, 42] as const;

/** How long the dive is whose oxygen and gas are worked out in class, minutes. Source: choice of this project. */
export const CLASS_MIN = 25;

/** A breathing loop as a class looks at it. */
export interface ClassLoop extends Setpoints {
  /** Whole percent of oxygen of the diluent. */
  readonly diluentPercent: number;
}

/** What a class looks at. */
export interface ClassLook {
  readonly depthM: number;
  /** Mixes of open circuit, whole percents of oxygen, rising. */
  readonly percents: readonly number[];
  /** Beside them; null: no loop. */
  readonly loop: ClassLoop | null;
}

/** Whose dive on the loop is. */
const LOOP_ID: Id = 'loop';

function mixesOf(percents: readonly number[]): readonly Mix[] {
  return percents.map((percent) => mixOfShare(percent, []));
}

/** Cylinders, scrubber and bail-out are asked for by a trip; a class tells nothing of them. */
function gearOf({ diluentPercent, ...setpoints }: ClassLoop): LoopGear {
  const { cylinder } = CLASS_DIVER;
  const diluent = mixOfShare(diluentPercent, []).id;
  return {
    setpoints,
    diluent,
    oxygenCylinder: cylinder,
    diluentCylinder: cylinder,
    scrubberMin: 180,
    bailOut: [{ mix: diluent, cylinder }],
  };
}

/**
 * A trip of one dive for each of some mixes and one on a loop, each by a diver of its own: what the workings of a class
 * are made of.
 * @returns in gauge water at sea level; nothing of it is anybody's trip
 * Source: core/gas.ts and the settings a new trip has.
 */
export function classTrip({ depthM, percents, loop }: ClassLook): Trip {
  const open = mixesOf(percents);
  const dive = {
    siteId: 'class',
    startsAt: '2027-03-06T09:00',
    depthM,
    bottomMin: CLASS_MIN,
  };
  const isOnBoard = (percent: number): boolean => open.some(({ o2 }) => isSameShare(o2, percent / 100));
  return {
    format: 'carryover/trip',
    version: 3,
    title: 'In class',
    place: '',
    notes: '',
    water: { density: 'gauge', altitudeM: 0 },
    settings: { descentMPerMin: 18, ascentMPerMin: 9, gasLaw: 'ideal', analysisTolerance: 0 },
    party: [
      ...open.map(({ id }): Diver => ({ ...CLASS_DIVER, id })),
      ...(loop === null ? [] : [{ ...CLASS_DIVER, id: LOOP_ID, loop: gearOf(loop) }]),
    ],
    sites: [{ id: 'class', name: 'In class', depthM: Math.max(depthM, CLASS_DEPTHS_M[1]), notes: '' }],
    mixes:
      loop === null || isOnBoard(loop.diluentPercent) ? open : [...open, ...mixesOf([loop.diluentPercent])],
    dives: [
      ...open.map(({ id }) => ({ ...dive, id, mix: id, divers: [id] })),
      ...(loop === null
        ? []
        : [{ ...dive, id: LOOP_ID, mix: 'auto' as const, divers: [LOOP_ID], loops: [{ by: LOOP_ID }] }]),
    ],
    flight: null,
  };
}

/** What is breathed on a dive of a class. */
export interface ClassGas {
  readonly id: Id;
  /** Of a loop: its diluent. */
  readonly mix: Mix;
  /** null: open circuit. */
  readonly loop: LoopBreathing | null;
  /** Where the mix, or the diluent alone, reaches the PO2 limit. */
  readonly modM: number;
  /** The water, and the loop in it. */
  readonly around: Surroundings;
  /** As the maps of dives in these surroundings take it. */
  readonly n2: number;
}

/** What it is called: "EAN32", "Loop 1.2" by its high setpoint. */
export function classGasSaid({ mix, loop }: Pick<ClassGas, 'mix' | 'loop'>): Said {
  return loop === null ? mixSaid(mix.o2) : said`Loop ${bare('po2Limit', loop.highBar)}`;
}

/** The same where there is room for what the loop is: "Loop: setpoint 0.7, from 6 m 1.2, diluent Air". */
export function classColumnSaid(gas: Pick<ClassGas, 'mix' | 'loop'>): Said {
  const { loop, mix } = gas;
  if (loop === null) return classGasSaid(gas);
  return said`Loop: ${setpointsSaid({ breathing: loop })}, diluent ${mixSaid(mix.o2)}`;
}

/** How the figures of a loop are to be read beside those of mixes. Source: CONVENTIONS, "Constant PO2". */
export function loopReadSaid({ toleranceBar }: LoopBreathing): Said {
  const tolerance = figure('po2Limit', toleranceBar);
  return said`PO2 as its cells read it, in moist gas; nitrogen by ${tolerance} less, the clocks by ${tolerance} more`;
}

/**
 * What is breathed in a class.
 * @param trip from `classTrip` @returns the mixes in their order, then the loop
 * Source: core/gas.ts; CONVENTIONS, "Constant PO2".
 */
export function classGases(trip: Trip): readonly ClassGas[] {
  const water = surroundingsOf(trip);
  return trip.dives.map((dive): ClassGas => {
    const onLoop = loopOn(
      dive,
      trip.party.find(({ id }) => id === dive.id)!,
    );
    const mix = trip.mixes.find(({ id }) => id === (onLoop?.diluent ?? dive.mix))!;
    const loop = onLoop && loopBreathing(trip, onLoop, mixO2(mix));
    return {
      id: dive.id,
      mix,
      loop,
      modM: usableModM(mix, CLASS_DIVER, trip, water),
      around: loop === null ? water : loopAround(water, loop),
      n2: loop === null ? 1 - mixO2(mix) : PURE_NITROGEN,
    };
  });
}

/**
 * Depth at which air has the nitrogen that is inspired from a loop, its setpoint less the tolerance.
 * @param depthM metres @returns metres; negative where it is less than air has at the surface
 * Source: CONVENTIONS, "Constant PO2".
 */
export function loopAirDepthM(depthM: number, loop: LoopBreathing, column: WaterColumn): number {
  const inspiredN2Bar = nitrogenInspiredBar(depthM, ambientBar(depthM, column), PURE_NITROGEN, loop);
  return depthAtM(inspiredN2Bar / AIR_N2 + WATER_VAPOUR_BAR, column);
}

/** What is breathed at the depth of the class, with its figures there. */
export interface ClassAtDepth extends ClassGas {
  /** Of a loop as its cells read it, the tolerance left out. */
  readonly po2Bar: number;
  /** Oxygen of what is breathed, by pressure. */
  readonly o2: number;
  /** null: less nitrogen than air has at the surface. */
  readonly eadM: number | null;
  /** What keeps it from the depth: the mix or the diluent is past its MOD, or what the loop holds past the limit. */
  readonly past: 'mod' | 'po2' | null;
  /** Were the depth left after so many minutes of a first dive; meets the limit at the no-stop time. */
  readonly curve: NitrogenCurve;
}

function pastOf({ modM }: ClassGas, depthM: number, po2: number): ClassAtDepth['past'] {
  if (depthM > modM + 1e-9) return 'mod';
  return isAbovePo2(po2, CLASS_DIVER.po2.working) ? 'po2' : null;
}

/**
 * What is breathed in a class, at one depth.
 * @param gases from `classGases` @param depthM metres @param untilMin of the curves @param stepMin of them
 * @returns in the order of the gases
 * Source: core/gas.ts; CONVENTIONS, "Constant PO2"; core/ascent/no-stop-limit.ts from rest.
 */
export function classAtDepth(
  gases: readonly ClassGas[],
  depthM: number,
  untilMin: number,
  stepMin: number,
): readonly ClassAtDepth[] {
  return gases.map((gas): ClassAtDepth => {
    const { around, loop, mix, n2 } = gas;
    const { column } = around;
    // The last level goes on past whatever is planned: here not at all.
    const plan = newDivePlan({ depthM, bottomMin: depthM / around.descentMPerMin }, around);
    const before = restTensions(column.surfaceBar);
    const bar = ambientBar(depthM, column);
    const po2 = loop === null ? po2Bar(mix.o2, bar) : loopPo2Bar(depthM, bar, loop);
    const airM = loop === null ? eadM(mix.o2, depthM, column) : loopAirDepthM(depthM, loop, column);
    return {
      ...gas,
      po2Bar: po2,
      o2: loop === null ? mix.o2 : po2 / bar,
      eadM: airM < 0 ? null : airM,
      past: pastOf(gas, depthM, po2),
      curve: nitrogenCurve({ plan, before, n2, gradientHigh: CLASS_DIVER.gradient.high }, untilMin, stepMin),
    };
  });
}
