import type { Dive, Diver, Id, LoopGear, LoopSettings, Setpoints, TripSettings } from './types';

/**
 * What holds for every loop where the trip does not say.
 * Source: common practice; for the volume of counterlungs, hoses and lungs no standard was found.
 */
export const USUAL_LOOPS: LoopSettings = { toleranceBar: 0.05, oxygenLpm: 1, volumeL: 6 };

/** What holds for the loops of a trip. Source: as `USUAL_LOOPS`. */
export function loopSettingsOf({ loops }: Pick<TripSettings, 'loops'>): LoopSettings {
  return { ...USUAL_LOOPS, ...loops };
}

/** A loop as a diver has it on one dive. */
export interface LoopOnDive {
  readonly gear: LoopGear;
  readonly setpoints: Setpoints;
  readonly diluent: Id;
  /** Whether its scrubber is packed afresh before the dive. */
  readonly isFresh: boolean;
}

/**
 * The loop on which a diver makes a dive.
 * @returns null on open circuit
 * Source: the trip file of this project.
 */
export function loopOn(
  { loops }: Pick<Dive, 'loops'>,
  { id, loop: gear }: Pick<Diver, 'id' | 'loop'>,
): LoopOnDive | null {
  const own = loops?.find(({ by }) => by === id);
  if (own === undefined || gear === undefined) return null;
  return {
    gear,
    setpoints: own.setpoints ?? gear.setpoints,
    diluent: own.diluent ?? gear.diluent,
    isFresh: own.freshScrubber ?? false,
  };
}

/** Whether a diver makes a dive of the trip on a loop. */
export function isDivedOnLoop({ loops }: Pick<Dive, 'loops'>, by: Id): boolean {
  return loops?.some((loop) => loop.by === by) ?? false;
}

/** A dive on which only some divers are left to be on a loop. @param stays whether a diver is */
export function withLoopsOf(dive: Dive, stays: (id: Id) => boolean): Dive {
  const { loops, ...rest } = dive;
  if (loops === undefined || loops.every(({ by }) => stays(by))) return dive;
  const left = loops.filter(({ by }) => stays(by));
  return left.length === 0 ? rest : { ...rest, loops: left };
}
