import { checkTrip } from '../../core/document/check-trip';
import { readTrip } from '../../core/document/read-trip';
import type { Trip } from '../../core/document/types';
import { writeTrip } from '../../core/document/write-trip';
import { bigTrip } from './big-trip';
import { medianMs, type BenchLine } from './report';

/** What an edit may cost before anything is computed, milliseconds. */
const EDIT_BUDGET_MS = 1;

/** The trip file of 60 dives and 12 divers: reading beside bare JSON, judging an edit beside its budget. */
export async function benchTripFile(): Promise<readonly BenchLine[]> {
  const trip = bigTrip(60, 12);
  const text = writeTrip(trip);
  let edited: Trip = trip;
  let turn = 0;
  const edit = (): void => {
    turn += 1;
    const at = turn % edited.dives.length;
    // Down on one round and up on the next, so that a fast machine does not sink a dive out of range.
    const byM = Math.floor(turn / edited.dives.length) % 2 === 0 ? 0.5 : -0.5;
    const dives = edited.dives.map((dive, index) =>
      index === at ? { ...dive, depthM: dive.depthM + byM } : dive,
    );
    edited = { ...edited, dives };
    if (checkTrip(edited).length > 0) throw new Error('the edit was to be accepted');
  };
  return [
    {
      what: 'reading a file of 60 dives and 12 divers, every rule',
      ms: await medianMs(() => readTrip(text)),
      floor: 'its JSON alone',
      floorMs: await medianMs(() => JSON.parse(text)),
    },
    {
      what: 'judging an edit of one of 60 dives for 12 divers',
      ms: await medianMs(edit),
      floor: 'the budget of an edit',
      floorMs: EDIT_BUDGET_MS,
      atMost: 1,
    },
  ];
}
