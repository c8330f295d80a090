/** What the strip reads of the desk, gathered once for its parts. */
import { useMemo } from 'react';
import { useStore } from 'zustand';
import type { DiverLedger, Entry } from '../../../../core/ledger/ledger-types';
import type { Id } from '../../../../core/document/types';
import {
  selectEntriesByDive,
  selectLedger,
  selectRoomMin,
  selectShownLedger,
  selectRoomLimit,
} from '../../../store/selectors';
import { useDeskLater } from '../../../parts/frame-later';
import { useDesk } from '../../../store/store';
import { diveViews, type DiveView } from './dive-view';
import { selectMarked } from './marked';
import type { Reader } from './strip-words';
import type { Stretch } from './time-scale';

export interface StripData {
  readonly views: readonly DiveView[];
  readonly stretches: readonly DiveStretch[];
  /** The chosen diver, or the whole party. */
  readonly divers: readonly DiverLedger[];
  /** Whose bands are drawn: the chosen diver, else the one of the tightest dive. */
  readonly shown: DiverLedger | null;
  readonly reader: Reader;
}

export interface DiveStretch extends Stretch {
  readonly id: Id;
}

export function useStripData(): StripData {
  const trip = useDesk((state) => state.trip);
  const diverId = useDesk((state) => state.selection.diverId);
  const units = useDesk((state) => state.settings.units);
  const clock = useDesk((state) => state.settings.clock);
  const ledger = useDesk(selectLedger);
  const entriesByDive = useDesk(selectEntriesByDive);
  // The cautions of the whole trip take a fifth of an edit's time to find.
  const marked = useStore(useDeskLater(), selectMarked);
  const shown = useDesk(selectShownLedger);
  const roomMinOf = useDesk(selectRoomMin);
  const roomLimitOf = useDesk(selectRoomLimit);
  const reader = useMemo(() => ({ units, clock }), [units, clock]);
  const views = useMemo(
    () =>
      diveViews({
        trip,
        entriesByDive,
        diverId,
        marked,
        roomMinOf,
        roomLimitOf,
        reader,
      }),
    [trip, entriesByDive, diverId, marked, roomMinOf, roomLimitOf, reader],
  );
  const stretches = useMemo(() => stretchesOf(views, entriesByDive), [views, entriesByDive]);
  const divers = useMemo(
    () => (diverId === null ? ledger.divers : ledger.divers.filter(({ diver }) => diver.id === diverId)),
    [ledger, diverId],
  );
  return { views, stretches, divers, shown, reader };
}

/** Time in the water of anybody: whoever is chosen, the page's time stays the same. */
function stretchesOf(
  views: readonly DiveView[],
  entriesByDive: ReadonlyMap<Id, readonly Entry[]>,
): readonly DiveStretch[] {
  return views.map((view) => {
    let { startMin, surfacesMin: endMin } = view;
    for (const entry of entriesByDive.get(view.id) ?? []) {
      startMin = Math.min(startMin, entry.startMin);
      endMin = Math.max(endMin, entry.surfacesMin);
    }
    // What was planned is drawn behind what was dived, and is as wide.
    for (const { atMin } of view.planned ?? []) {
      startMin = Math.min(startMin, atMin);
      endMin = Math.max(endMin, atMin);
    }
    return { id: view.id, startMin, endMin };
  });
}
