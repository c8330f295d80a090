/** Who sits before the window: their units, decimal sign and clock, and names on screen in the place of ids. */
import type { Settings } from '../../core/host';
import type { Dive, Id, Trip } from '../../core/document/types';
import { THIN_SPACE } from '../../core/words/quantity';
import { MINUS, wordsOf, type Reader, type Words } from '../../core/words/reader';
import { said, type Named, type Said } from '../../core/words/said';
import { mixSaid } from '../../core/words/terms';
import { decimalSign } from './decimal-sign';

/** What of a trip numbers and names depend on: an edit of a figure leaves it. */
export interface NamedTrip extends Pick<Trip, 'party' | 'sites' | 'mixes'> {
  readonly dives: readonly Pick<Dive, 'id'>[];
}

/** What the window knows of whoever reads. */
export interface Viewer extends Pick<Settings, 'units' | 'clock'> {
  /** The trip on screen, whose numbers and names stand for ids. */
  readonly trip?: NamedTrip;
  /** An edit that may be refused: what it would bring has no number on screen. */
  readonly changed?: { readonly trip: Trip; readonly newDive: Said };
  /** Of the cylinder that is spoken of: feet and psi call it by the gas it holds when full. */
  readonly fillBar?: number | undefined;
}

/** Numbers and names are those on screen; what is not there yet is named as the edit would have it. */
function nameIn({ trip, changed }: Viewer): (name: Named) => Said {
  return ({ of, id }) => {
    const quoted = said`“${id}”`;
    const byId = (each: { readonly id: Id }): boolean => each.id === id;
    switch (of) {
      case 'dive': {
        const at = trip?.dives.findIndex(byId) ?? -1;
        if (at >= 0) return said`dive ${at + 1}`;
        return changed?.trip.dives.some(byId) ? changed.newDive : quoted;
      }
      case 'earlier dive':
        return said`the dive before the trip`;
      case 'diver':
      case 'site': {
        const list = of === 'diver' ? ('party' as const) : ('sites' as const);
        const known = trip?.[list].find(byId) ?? changed?.trip[list].find(byId);
        return known ? said`${known.name}` : quoted;
      }
      case 'mix': {
        const mix = trip?.mixes.find(byId) ?? changed?.trip.mixes.find(byId);
        return mix ? mixSaid(mix.o2) : quoted;
      }
    }
  };
}

/** The reader before the window. */
export function windowReader(viewer: Viewer): Reader {
  return {
    units: viewer.units,
    clock: viewer.clock,
    signs: { decimal: decimalSign(), minus: MINUS, thousands: THIN_SPACE },
    dates: 'day',
    nameOf: nameIn(viewer),
    fillBar: viewer.fillBar,
  };
}

/** The words of the window. */
export function wordsIn(viewer: Viewer): Words {
  return wordsOf(windowReader(viewer));
}
