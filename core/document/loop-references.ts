/** What the schema cannot see of breathing loops: ids that stand for nothing, and numbers that contradict each other. */
import { either, said, typed } from '../words/said';
import { bag, type Bag, type TripPath } from './place-in-trip';
import { diverCalled, inOrder, items, reserveTroubles, unknownId, type Found } from './reference-parts';

type Ids = ReadonlySet<string> | null;

function setpointTroubles(value: unknown, path: TripPath, found: Found[]): void {
  const { lowBar, highBar } = bag(value);
  if (inOrder(lowBar, highBar)) return;
  found.push({
    path,
    what: said`The low setpoint is above the high one.`,
    mend: said`Give a low one that is at most the high one, e.g. ${typed('po2', 0.7)} and ${typed('po2', 1.2)}.`,
  });
}

/** Of the loop that a diver has. */
export function loopTroubles(value: unknown, mixes: Ids, path: TripPath, found: Found[]): void {
  const loop = bag(value);
  setpointTroubles(loop['setpoints'], [...path, 'setpoints'], found);
  unknownId('mix', loop['diluent'], mixes, [...path, 'diluent'], found);
  reserveTroubles(loop['oxygenCylinder'], [...path, 'oxygenCylinder'], found);
  reserveTroubles(loop['diluentCylinder'], [...path, 'diluentCylinder'], found);
  items(loop['bailOut'])?.forEach(({ mix, cylinder }, index) => {
    unknownId('mix', mix, mixes, [...path, 'bailOut', index, 'mix'], found);
    reserveTroubles(cylinder, [...path, 'bailOut', index, 'cylinder'], found);
  });
}

/** Of who makes a dive on a loop. */
export function loopsOfDiveTroubles(
  dive: Bag,
  party: readonly Bag[],
  divers: Ids,
  mixes: Ids,
  path: TripPath,
  found: Found[],
): void {
  const onDive = Array.isArray(dive['divers']) ? new Set<unknown>(dive['divers']) : divers;
  const seen = new Set<string>();
  items(dive['loops'])?.forEach(({ by, setpoints, diluent }, index) => {
    const at = [...path, 'loops', index];
    setpointTroubles(setpoints, [...at, 'setpoints'], found);
    unknownId('mix', diluent, mixes, [...at, 'diluent'], found);
    if (typeof by !== 'string') return;
    const diver = party.find(({ id }) => id === by);
    if (diver === undefined) {
      unknownId('diver', by, divers, [...at, 'by'], found);
      return;
    }
    if (seen.has(by)) {
      found.push({
        path: [...at, 'by'],
        what: said`${diverCalled(by)} is on a loop twice.`,
        mend: said`Name each diver once.`,
      });
    } else if (onDive !== null && !onDive.has(by)) {
      found.push({
        path: [...at, 'by'],
        what: said`${diverCalled(by)} is not on this dive, but on a loop.`,
        mend: said`${either(
          said`Add the diver to "divers", or remove the line.`,
          said`Put the diver on the dive first.`,
        )}`,
      });
    } else if (diver['loop'] === undefined) {
      found.push({
        path: [...at, 'by'],
        what: said`${diverCalled(by)} makes this dive on a loop, but has none.`,
        mend: said`${either(
          said`Give the diver a "loop", or remove the line.`,
          said`Give the diver a loop in Party first.`,
        )}`,
      });
    }
    seen.add(by);
  });
  recordTroubles(dive, seen, path, found);
}

/** What a record of one diver may say on open circuit alone: of a loop it would be passed over in silence. */
const OF_OPEN_CIRCUIT = [
  ['endBar', said`the pressure left in a cylinder`],
  ['o2', said`the oxygen of an analysed cylinder`],
] as const;

function recordTroubles(dive: Bag, onLoop: ReadonlySet<string>, path: TripPath, found: Found[]): void {
  items(dive['asDived'])?.forEach((record, index) => {
    const { by } = record;
    if (typeof by !== 'string' || !onLoop.has(by)) return;
    for (const [key, of] of OF_OPEN_CIRCUIT) {
      if (record[key] === undefined) continue;
      found.push({
        path: [...path, 'asDived', index, key],
        what: said`${diverCalled(by)} makes this dive on a loop, of which ${of} is not kept.`,
        mend: said`${either(
          said`Remove "${key}", or the diver’s line in "loops".`,
          said`Leave it empty, or take the diver off the loop on this dive first.`,
        )}`,
      });
    }
  });
}
