import { addDive, setBottomMin } from '../../../actions/dives';
import { tell } from '../../../actions/edit';
import { asOneStep } from '../../../actions/gesture';
import { wallText } from '../../../../core/words/calendar';
import type { Site, Trip } from '../../../../core/document/types';
import type { System as Units } from '../../../../core/words/quantity';
import { selectEntriesByDive, selectRoomMin } from '../../../store/selectors';
import { desk } from '../../../store/store';
import { depthStepM, snapped, startStepMin } from './drag';

/** A dive begins no longer than this where nothing else is known. */
const FIRST_BOTTOM_MIN = 40;

/** Shallowest site that is deep enough; the deepest where none is. */
export function siteFor(trip: Trip, depthM: number): Site | undefined {
  const byDepth = trip.sites.toSorted((a, b) => a.depthM - b.depthM);
  return byDepth.find((site) => site.depthM >= depthM) ?? byDepth.at(-1);
}

/**
 * A dive where the water was double-clicked: there in time and depth, as long as the room allows but no longer
 * than 40 minutes. One step of undo; where it cannot be, nothing happens and the reason is said.
 */
export function addDiveAt(atMin: number, depthM: number, units: Units): void {
  const { trip } = desk.getState();
  const depth = snapped(depthM, depthStepM(units, false));
  const site = siteFor(trip, depth);
  asOneStep({ label: 'New dive', code: 'dive.add' }, () => {
    const added = addDive({
      startsAt: wallText(snapped(atMin, startStepMin(false))),
      depthM: depth,
      bottomMin: FIRST_BOTTOM_MIN,
      ...(site && { siteId: site.id }),
    });
    tell(added);
    if (added.ok) keepInsideRoom();
  });
}

/** The new dive is selected: its tightest diver says how long it may be. */
function keepInsideRoom(): void {
  const state = desk.getState();
  const [id] = state.selection.diveIds;
  const tightest = id === undefined ? undefined : selectEntriesByDive(state).get(id)?.[0];
  const roomMin = tightest === undefined ? null : selectRoomMin(state)(tightest);
  if (id === undefined || roomMin === null || roomMin >= 0) return;
  // Refused where that is over before the depth is reached: then it stays long, and its caution says so.
  setBottomMin(id, Math.floor(FIRST_BOTTOM_MIN + roomMin));
}
