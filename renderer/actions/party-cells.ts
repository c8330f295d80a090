/** Edits of many cells of the table of divers in one step of undo. */
import { checkTrip } from '../../core/document/check-trip';
import type { Diver, Id, Trip } from '../../core/document/types';
import { said, type Said } from '../../core/words/said';
import { isSameName } from '../figures/names';
import { wordsIn } from '../figures/reader';
import { newDiver } from '../store/blank-trip';
import { desk } from '../store/store';
import { edit } from './edit';
import { freeId } from './ids';

/** A change of one diver, who may be new; `of` tells which change was refused. */
export interface DiverEdit {
  readonly id: Id;
  readonly change: (diver: Diver) => Diver;
}

/** The whole group enters at the time that was typed for one of it. */
function withGroup(party: readonly Diver[], id: Id): readonly Diver[] {
  const group = party.find((diver) => diver.id === id)?.group;
  if (group === undefined) return party;
  return party.map((diver) =>
    diver.group?.name === group.name && diver.group.afterMin !== group.afterMin ? { ...diver, group } : diver,
  );
}

function twin(party: readonly Diver[], id: Id): Said | null {
  const name = party.find((diver) => diver.id === id)?.name ?? '';
  const other = party.find((diver) => diver.id !== id && isSameName(diver.name, name));
  return other === undefined
    ? null
    : said`${other.name} is the name of another diver. Give a name by which the two are told apart.`;
}

/**
 * Adds divers and changes divers, each change by itself: what cannot be is left out.
 * @param added names of new divers, in the order of the party @param edits may be of new ones, by `newIds`
 * @param label of the step @returns of each added and then of each edit why it was refused; null where it was taken
 */
export function putDivers(
  added: readonly { readonly id: Id; readonly name: string }[],
  edits: readonly DiverEdit[],
  label: string,
): { readonly added: readonly (Said | null)[]; readonly edits: readonly (Said | null)[] } {
  const { trip: before, settings } = desk.getState();
  let trip = before;
  const take = (next: Trip, id: Id): Said | null => {
    const double = twin(next.party, id);
    if (double !== null) return double;
    const [trouble] = checkTrip(next, wordsIn({ ...settings, trip: next }));
    if (trouble !== undefined) return said`${trouble.what} ${trouble.mend}`;
    trip = next;
    return null;
  };
  const refusedAdds = added.map(({ id, name }) =>
    take({ ...trip, party: [...trip.party, newDiver(id, name, settings.units)] }, id),
  );
  const refusedEdits = edits.map(({ id, change }): Said | null => {
    const diver = trip.party.find((each) => each.id === id);
    // A new diver who was refused has no cells.
    if (diver === undefined) return null;
    const next = change(diver);
    // A double name that stands in the file already stays readable: only a new name is asked about.
    const party = withGroup(
      trip.party.map((each) => (each === diver ? next : each)),
      id,
    );
    if (next.name === diver.name) {
      const [trouble] = checkTrip({ ...trip, party }, wordsIn({ ...settings, trip }));
      if (trouble !== undefined) return said`${trouble.what} ${trouble.mend}`;
      trip = { ...trip, party };
      return null;
    }
    return take({ ...trip, party }, id);
  });
  edit({ label, code: added.length > 0 ? 'diver.add' : 'diver.cells' }, () => trip);
  return { added: refusedAdds, edits: refusedEdits };
}

/** Ids for so many new divers. */
export function newDiverIds(count: number): readonly Id[] {
  const taken: { readonly id: Id }[] = [...desk.getState().trip.party];
  return Array.from({ length: count }, () => {
    const id = freeId('diver-', taken);
    taken.push({ id });
    return id;
  });
}
