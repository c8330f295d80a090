/** Edits of the mixes on board, and of what a search found. */
import { fillPrice, isSameShare } from '../../core/mixes/shares';
import { openTrip, stockedTrip } from '../../core/mixes/stocked-trip';
import { failure } from '../../core/result';
import type { Dive, DiveShape, Id, Mix, Trip } from '../../core/document/types';
import { mixText } from '../figures/format';
import { desk } from '../store/store';
import { edit, type EditResult } from './edit';
import { freeId } from './ids';

function editMix(id: Id, what: string, code: string, change: (mix: Mix) => Mix): EditResult {
  const mix = desk.getState().trip.mixes.find((each) => each.id === id);
  const name = mix ? mixText(mix.o2) : id;
  return edit({ label: `${what} of ${name}`, code }, (trip) => {
    const mixes = trip.mixes.map((each) => (each.id === id ? change(each) : each));
    return { ...trip, mixes };
  });
}

/** Two mixes of one share are one to every dive: refused here, while a file that has them is still read. */
function twinTrouble(o2: number, ownId: Id | null): EditResult | null {
  const { mixes } = desk.getState().trip;
  const at = mixes.findIndex((mix) => mix.id !== ownId && isSameShare(mix.o2, o2));
  const twin = mixes[at];
  if (!twin || mixes.some((mix) => mix.id === ownId && mix.o2 === o2)) return null;
  return failure({
    kind: 'in-use',
    what: `${mixText(o2)} is on board already.`,
    where: `mixes[${at}] (mix "${twin.id}")`,
    mend: 'Give another share; what was analysed is said beside the mix.',
  });
}

/** One more mix on board, priced as its neighbours suggest. @param o2 oxygen fraction */
export function addMix(o2: number): EditResult {
  const twin = twinTrouble(o2, null);
  if (twin) return twin;
  return edit({ label: `${mixText(o2)} on board`, code: 'mix.add' }, (trip) => {
    const named = `ean${Math.round(o2 * 100)}`;
    const id = trip.mixes.some((mix) => mix.id === named) ? freeId('mix-', trip.mixes) : named;
    const mix: Mix = { id, o2, costPerFill: fillPrice(o2, trip.mixes) };
    return { ...trip, mixes: [...trip.mixes, mix] };
  });
}

export function setMixShare(id: Id, o2: number): EditResult {
  return twinTrouble(o2, id) ?? editMix(id, 'Oxygen', 'mix.o2', (mix) => ({ ...mix, o2 }));
}

/** As analysed from the bank; null: not analysed. */
export function setMixAnalysis(id: Id, analysedO2: number | null): EditResult {
  return editMix(id, 'Analysis', 'mix.analysis', (mix) => {
    const { analysedO2: _, ...rest } = mix;
    return analysedO2 === null ? rest : { ...rest, analysedO2 };
  });
}

export function setMixPrice(id: Id, costPerFill: number): EditResult {
  return editMix(id, 'Price', 'mix.price', (mix) => ({ ...mix, costPerFill }));
}

/** A shape that no longer names a mix: what named it chooses for itself again. */
function without<Shape extends DiveShape>(shape: Shape, id: Id): Shape {
  const freed = shape.mix === id ? { ...shape, mix: 'auto' as const } : shape;
  if (!freed.onBoard?.includes(id)) return freed;
  const onBoard = freed.onBoard.filter((each) => each !== id);
  const { onBoard: _, ...rest } = freed;
  // Without any left, the dive chooses among all of the trip's again.
  return (onBoard.length === 0 ? rest : { ...rest, onBoard }) as Shape;
}

/**
 * Takes a mix off the boat; dives that named it take the richest that can be used there instead. Refused for the last,
 * without which there is nothing to breathe.
 */
export function removeMix(id: Id): EditResult {
  const { mixes: held } = desk.getState().trip;
  const mix = held.find((each) => each.id === id);
  if (mix && held.length === 1) {
    return failure({
      kind: 'in-use',
      what: `${mixText(mix.o2)} is all there is on board.`,
      where: `mixes[0] (mix "${id}")`,
      mend: 'Put another mix on board first, or give this one another share.',
    });
  }
  return edit({ label: `Without ${mix ? mixText(mix.o2) : id}`, code: 'mix.remove' }, (trip): Trip => {
    const dives = trip.dives.map((dive): Dive => without(dive, id));
    const party = trip.party.map((diver) =>
      diver.before?.some((dive) => dive.mix === id || dive.onBoard?.includes(id))
        ? { ...diver, before: diver.before.map((dive) => without(dive, id)) }
        : diver,
    );
    return { ...trip, mixes: trip.mixes.filter((each) => each.id !== id), dives, party };
  });
}

/**
 * Puts a list of the search on board: one step. Open dives take the richest that can be used there; dives before
 * the date, and what was dived, keep the mixes they had.
 */
export function putOnBoard(percents: readonly number[], fromDate: string | null): EditResult {
  const names = percents.map((percent) => mixText(percent / 100)).join(', ');
  return edit({ label: `On board: ${names}`, code: 'mix.stock' }, (trip) =>
    stockedTrip(openTrip(trip, { fromDate }), percents),
  );
}

/** What prices are in; empty: not said. */
export function setCurrency(currency: string): EditResult {
  return edit({ label: 'Currency', code: 'trip.currency' }, (trip): Trip => {
    const { currency: _, ...rest } = trip;
    return currency === '' ? rest : { ...rest, currency };
  });
}
