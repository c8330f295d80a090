/** The sheets that are opened now and then: together one load, at the first of them, and none at the start. */
export { About } from './about';
export { Cautions, TroublesSheet } from './lists-to-read';
export { Changed, UnsavedEdits } from './changed-sheets';
export { Library, Versions } from './library';
export { SettingsSheet } from './settings';
export { Shortcuts } from './shortcuts';
export { TripDetails } from './trip-details';
