/** A party of both kinds: one on a loop, the others on open circuit. */
import { demoTrip } from '../../core/document/demo-trip';
import type { LoopGear, OnLoop, Trip } from '../../core/document/types';

const SMALL = { waterL: 3, fillBar: 200, reserveBar: 30 };

/** A loop with bail-out that is enough for the demo week. */
export const A_LOOP: LoopGear = {
  setpoints: { lowBar: 0.7, highBar: 1.2, switchM: 6 },
  diluent: 'air',
  oxygenCylinder: SMALL,
  diluentCylinder: SMALL,
  scrubberMin: 180,
  bailOut: [{ mix: 'air', cylinder: { waterL: 11.1, fillBar: 200, reserveBar: 20 } }],
};

/** The demo week with its first diver on a loop. @param change what is otherwise about the loop of every dive */
export function loopTrip(gear: Partial<LoopGear> = {}, change: Partial<OnLoop> = {}): Trip {
  const trip = demoTrip();
  const [first, ...others] = trip.party;
  const air = trip.mixes.find(({ o2 }) => o2 === 0.21)!.id;
  const loop: LoopGear = { ...A_LOOP, diluent: air, bailOut: [{ ...A_LOOP.bailOut[0]!, mix: air }], ...gear };
  return {
    ...trip,
    party: [{ ...first!, loop }, ...others],
    dives: trip.dives.map((dive) => ({ ...dive, loops: [{ by: first!.id, ...change }] })),
  };
}
