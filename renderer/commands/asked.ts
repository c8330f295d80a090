/** What commands ask of the desk before they are offered or run. */
import { selectChosenDives } from '../store/selectors';
import { desk, type Desk } from '../store/store';

export const now = (): Desk => desk.getState();
export const chosenIds = (): readonly string[] => selectChosenDives(now()).map((dive) => dive.id);
export const hasChosen = (state: Desk): boolean => selectChosenDives(state).length > 0;
export const hasDives = (state: Desk): boolean => state.trip.dives.length > 0;
export const hasSites = (state: Desk): boolean => state.trip.sites.length > 0;
