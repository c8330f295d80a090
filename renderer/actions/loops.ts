/** Edits of breathing loops: what a diver has, and who takes theirs on a dive. */
import { withLoopsOf } from '../../core/document/loops';
import type { Diver, Id, LoopGear, OnLoop, Trip } from '../../core/document/types';
import { desk } from '../store/store';
import { edit, type EditResult } from './edit';

/** A small cylinder of a loop, full. Source: common practice. */
const SMALL = { waterL: 3, fillBar: 200, reserveBar: 30 };

/**
 * A loop to edit from: the leanest mix aboard as diluent and, in a cylinder like the diver's, as bail-out. Source of
 * setpoints, switch depth and scrubber: common practice; each is the diver's to set by their own unit.
 */
function newLoop({ mixes }: Trip, { cylinder }: Diver): LoopGear {
  const [leanest] = mixes.toSorted((a, b) => a.o2 - b.o2);
  return {
    setpoints: { lowBar: 0.7, highBar: 1.2, switchM: 6 },
    diluent: leanest?.id ?? '',
    oxygenCylinder: SMALL,
    diluentCylinder: SMALL,
    scrubberMin: 180,
    bailOut: [{ mix: leanest?.id ?? '', cylinder }],
  };
}

function editLoop(id: Id, change: (loop: LoopGear, trip: Trip) => LoopGear): EditResult {
  const name = desk.getState().trip.party.find((diver) => diver.id === id)?.name ?? id;
  return edit({ label: `Loop of ${name}`, code: 'diver.loop' }, (trip) => ({
    ...trip,
    party: trip.party.map((diver) =>
      diver.id === id ? { ...diver, loop: change(diver.loop ?? newLoop(trip, diver), trip) } : diver,
    ),
  }));
}

/** Gives a diver a loop to edit from. */
export function addLoop(id: Id): EditResult {
  return editLoop(id, (loop) => loop);
}

export function setLoop(id: Id, patch: Partial<LoopGear>): EditResult {
  return editLoop(id, (loop) => ({ ...loop, ...patch }));
}

/** Takes a diver's loop away, on every dive too. */
export function removeLoop(id: Id): EditResult {
  const name = desk.getState().trip.party.find((diver) => diver.id === id)?.name ?? id;
  return edit({ label: `Removal of the loop of ${name}`, code: 'diver.loop' }, (trip) => ({
    ...trip,
    party: trip.party.map((diver) => {
      const { loop: _, ...rest } = diver;
      return diver.id === id ? rest : diver;
    }),
    dives: trip.dives.map((dive) => withLoopsOf(dive, (each) => each !== id)),
  }));
}

/** Puts a diver on their loop for a dive, or back on open circuit with null; else changes how they dive it. */
export function setOnLoop(diveId: Id, by: Id, patch: Partial<Omit<OnLoop, 'by'>> | null): EditResult {
  return edit({ label: 'Loop of a dive', code: 'dive.loops' }, (trip) => ({
    ...trip,
    dives: trip.dives.map((dive) => {
      if (dive.id !== diveId) return dive;
      if (patch === null) return withLoopsOf(dive, (each) => each !== by);
      const loops = dive.loops ?? [];
      const own = { ...loops.find((each) => each.by === by), by, ...patch };
      return { ...dive, loops: [...loops.filter((each) => each.by !== by), own] };
    }),
  }));
}
