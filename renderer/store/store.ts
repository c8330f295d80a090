/** The data of the window and nothing else: whatever follows from it is in selectors, whatever changes it in actions. */
import { createContext, useContext } from 'react';
import { useStore } from 'zustand';
import { createStore, type StoreApi } from 'zustand/vanilla';
import { DEFAULT_SETTINGS, type HostTrouble, type Settings, type TripToken } from '../../core/host';
import type { DayDate, Id, Trip } from '../../core/document/types';
import type { WallMin } from '../../core/words/calendar';
import type { FigureId } from '../../core/workings/types';
import { blankTrip } from './blank-trip';
import { EMPTY_HISTORY, type History } from './history';

/** Where the open trip lives and whether what is on screen is there too. */
export interface Keeping {
  /** null: not saved anywhere yet. */
  readonly token: TripToken | null;
  readonly home: 'library' | 'file';
  /** Of the last save that resolved, ISO date-time in UTC. */
  readonly savedAt: string | null;
  /** The trip that save wrote: what is unsaved is what differs from it by identity. */
  readonly saved: Trip | null;
  readonly writing: boolean;
  readonly trouble: HostTrouble | null;
}

export interface Selection {
  readonly diveIds: readonly Id[];
  /** Whose figures are shown; null: on each dive the diver with the least room. */
  readonly diverId: Id | null;
}

/** What lies over the place; at most one. */
export type Overlay =
  | { readonly kind: 'palette' }
  | { readonly kind: 'shortcuts' }
  | { readonly kind: 'library' }
  | { readonly kind: 'versions'; readonly token: TripToken; readonly title: string }
  | { readonly kind: 'workings'; readonly figure: FigureId; readonly diveId: Id; readonly diverId: Id }
  | { readonly kind: 'cautions' }
  /** @param diveId whose cautions alone are to go; null: those of all dives ahead */
  | { readonly kind: 'mend'; readonly diveId: Id | null }
  /** What a class is given on paper. */
  | { readonly kind: 'lesson'; readonly what: 'exercises' | 'workings' }
  /** How sturdy the plan is. */
  | { readonly kind: 'sturdy' }
  | { readonly kind: 'trip' }
  | { readonly kind: 'site-list' }
  /** Profiles out of a file. */
  | { readonly kind: 'recorded' }
  /** A site that dives are to be taken to as it is made. */
  | { readonly kind: 'new-site'; readonly diveIds: readonly Id[] }
  /** Two dives that change places. */
  | { readonly kind: 'swap'; readonly diveId: Id }
  | { readonly kind: 'starting' }
  | { readonly kind: 'settings' }
  | { readonly kind: 'about' }
  | { readonly kind: 'guide' }
  /** Edits of the trip on the desk that were noted down on another save than the one that is stored. */
  | { readonly kind: 'unsaved'; readonly token: TripToken; readonly text: string }
  | { readonly kind: 'changed'; readonly token: TripToken; readonly removed: boolean }
  | { readonly kind: 'troubles'; readonly title: string; readonly lines: readonly NoticeLine[] };

/** The evening of a day, in the place of the card: what is logged of it, then what that changed. */
export interface Evening {
  readonly date: DayDate;
  readonly step: 'log' | 'changed';
  /** Compared with the trip before the last step, and not with this morning's plan. */
  readonly sinceStep?: true;
}

/** What, where, how to mend it. */
export interface NoticeLine {
  readonly what: string;
  readonly where: string;
  readonly mend: string;
}

export interface Notice {
  readonly tone: 'said' | 'refused';
  readonly lines: readonly NoticeLine[];
  /** What it says was done by the last step, and undoing is offered beside it; any other step takes it away. */
  readonly canUndo?: true;
  /** It says that a document was saved, and the host can show where. */
  readonly canShow?: true;
  /** It changed the days ahead, and what that did is offered beside it. */
  readonly canCompare?: true;
}

export interface Desk {
  /** Always a valid document: edits that would make another are refused. */
  readonly trip: Trip;
  readonly history: History;
  readonly selection: Selection;
  readonly settings: Settings;
  readonly keeping: Keeping;
  readonly overlay: Overlay | null;
  readonly evening: Evening | null;
  /** The trip of the proposal that is looked at, worked out from the one on the desk. */
  readonly proposed: Trip | null;
  /** Days shows the trip as rows of a table, in the place of strip and card. */
  readonly isTable: boolean;
  /** The strip shows where most runs of the plan lie. */
  readonly hasSturdyBand: boolean;
  readonly notice: Notice | null;
  /** This machine's wall clock to the minute; null until the window has begun. */
  readonly nowMin: WallMin | null;
  /** False until the host has given settings and the last trip. */
  readonly ready: boolean;
}

export function freshKeeping(): Keeping {
  return { token: null, home: 'library', savedAt: null, saved: null, writing: false, trouble: null };
}

/** The desk as it stands before the host has said anything; tests begin here too. */
export function freshDesk(trip: Trip = blankTrip()): Desk {
  return {
    trip,
    history: EMPTY_HISTORY,
    selection: { diveIds: [], diverId: null },
    settings: DEFAULT_SETTINGS,
    keeping: freshKeeping(),
    overlay: null,
    evening: null,
    proposed: null,
    isTable: false,
    hasSturdyBand: false,
    notice: null,
    nowMin: null,
    ready: false,
  };
}

export const desk = createStore<Desk>()(() => freshDesk());

/** Where the parts below read the desk: as it is, or as it was a frame before (parts/frame-later.tsx). */
export const DeskRead = createContext<StoreApi<Desk>>(desk);

/** What a component shows of the desk; select the narrowest thing. */
export function useDesk<T>(selector: (state: Desk) => T): T {
  return useStore(useContext(DeskRead), selector);
}
