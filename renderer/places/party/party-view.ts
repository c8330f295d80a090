/** What is looked at on the Party place: kept while the window is open, never part of the trip. */
import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { Id } from '../../../core/document/types';

export interface PartyView {
  /** Whose card is open; null: of the diver with the least room. */
  readonly diverId: Id | null;
  /** The card has just been opened for a diver who was added: the name is to be typed. */
  readonly isNew: boolean;
  /** The day whose dives are shown; null: the whole trip. */
  readonly date: string | null;
  /** What stands where a diver and a dive meet: the room left, or whether they make it. */
  readonly cells: 'room' | 'dives';
}

export const partyView = createStore<PartyView>()(() => ({
  diverId: null,
  isNew: false,
  date: null,
  cells: 'room',
}));

export function usePartyView<T>(selector: (view: PartyView) => T): T {
  return useStore(partyView, selector);
}

export function choosePartyView(patch: Partial<PartyView>): void {
  partyView.setState(patch);
}
