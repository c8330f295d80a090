/** Edits of the breathing loop that a diver has. */
import { withLoopsOf } from '../../core/document/loops';
import type { Cylinder, Diver, Id, LoopGear, Trip } from '../../core/document/types';
import { BAR_PER_PSI, L_PER_CUBIC_FOOT, M_PER_FOOT } from '../../core/units';
import type { System } from '../../core/words/quantity';
import { desk } from '../store/store';
import { edit, type EditResult } from './edit';

/** A small cylinder of a loop, full, and the depth of the switch, in round figures of who reads them. Source: common practice. */
const USUAL: Readonly<Record<System, { readonly small: Cylinder; readonly switchM: number }>> = {
  metric: { small: { waterL: 3, fillBar: 200, reserveBar: 30 }, switchM: 6 },
  imperial: {
    small: {
      waterL: (20 * L_PER_CUBIC_FOOT) / (3000 * BAR_PER_PSI),
      fillBar: 3000 * BAR_PER_PSI,
      reserveBar: 500 * BAR_PER_PSI,
    },
    switchM: 20 * M_PER_FOOT,
  },
};

/**
 * A loop to edit from: the leanest mix aboard as diluent and, in a cylinder like the diver's, as bail-out. Source of
 * setpoints, switch depth and scrubber: common practice; each is the diver's to set by their own unit.
 */
function newLoop({ mixes }: Trip, { cylinder }: Diver): LoopGear {
  const { small, switchM } = USUAL[desk.getState().settings.units];
  const [leanest] = mixes.toSorted((a, b) => a.o2 - b.o2);
  return {
    setpoints: { lowBar: 0.7, highBar: 1.2, switchM },
    diluent: leanest?.id ?? '',
    oxygenCylinder: small,
    diluentCylinder: small,
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
