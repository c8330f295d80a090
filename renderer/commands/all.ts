/** Every command of the window, one list: the menu, buttons, the palette, keys and the desktop menu read it. */
import { newTrip, openDemo, openFile, save, saveAs } from '../actions/files';
import { exportAs } from '../actions/exports';
import { addDive, deleteDives, duplicateDay, duplicateDives } from '../actions/dives';
import { copyChosen, hasCopied, pasteDives } from '../actions/clipboard';
import { tell } from '../actions/edit';
import { redoStep, undoStep } from '../actions/history';
import {
  changeSettings,
  chooseDives,
  chooseDiver,
  goTo,
  showOverlay,
  showTable,
  stepDive,
  stepTextScale,
} from '../actions/view';
import { dayToLog, showEvening } from '../actions/evening';
import { nextStart } from '../actions/next-start';
import { clockText, dateText } from '../figures/format';
import { todayText } from '../figures/local-time';
import { PLACES } from './place-names';
import { selectChosenDive, selectChosenDives, selectTight, selectTightest } from '../store/selectors';
import { desk, type Desk } from '../store/store';
import type { Command } from './registry';

const now = (): Desk => desk.getState();
const chosenIds = (): readonly string[] => selectChosenDives(now()).map((dive) => dive.id);
const hasChosen = (state: Desk): boolean => selectChosenDives(state).length > 0;
const hasDives = (state: Desk): boolean => state.trip.dives.length > 0;
const hasSites = (state: Desk): boolean => state.trip.sites.length > 0;
/** Within a sentence; a word such as "EAN50" or "PO2" stays as it is. */
const lowerFirst = (text: string): string =>
  text.replace(/^\p{Lu}(?=\p{Ll})/u, (letter) => letter.toLowerCase());

const trip: readonly Command[] = [
  {
    id: 'trip.lay-out',
    group: 'Trip',
    label: 'Draft a new trip',
    finds: 'lay out plan schedule week generate propose days wizard',
    run: () => showOverlay({ kind: 'starting' }),
  },
  {
    id: 'trip.new',
    group: 'Trip',
    label: 'New trip, empty',
    finds: 'blank create start',
    run: () => void newTrip(),
  },
  {
    id: 'trip.open',
    group: 'Trip',
    label: 'Open a file',
    finds: 'import load read',
    keys: ['Mod+O'],
    inFields: true,
    run: () => void openFile(),
  },
  {
    id: 'trip.library',
    group: 'Trip',
    label: 'My trips',
    finds: 'library recent kept trips open versions earlier saves backup restore delete trash bin',
    keys: ['Mod+Shift+O'],
    inFields: true,
    run: () => showOverlay({ kind: 'library' }),
  },
  {
    id: 'trip.save',
    group: 'Trip',
    label: 'Save now',
    finds: 'store keep write',
    keys: ['Mod+S'],
    inFields: true,
    run: () => void save(),
  },
  {
    id: 'trip.save-as',
    group: 'Trip',
    label: 'Save a copy as a file',
    finds: 'export backup download share duplicate file json',
    keys: ['Mod+Shift+S'],
    inFields: true,
    run: () => void saveAs(),
  },
  {
    id: 'day.log',
    group: 'Trip',
    label: 'Log the day',
    keys: ['Alt+L'],
    enabled: hasDives,
    run: () => {
      goTo('days');
      showEvening({ date: dayToLog(now()), step: 'log' });
    },
  },
  {
    id: 'trip.mend',
    group: 'Trip',
    label: 'Mend the days ahead',
    enabled: hasDives,
    run: () => showOverlay({ kind: 'mend' }),
  },
  {
    id: 'trip.details',
    group: 'Trip',
    label: 'Title, water and flight',
    finds: 'name altitude lake salt fresh departure plane settings of the trip',
    run: () => showOverlay({ kind: 'trip' }),
  },
  {
    id: 'sites.list',
    group: 'Trip',
    label: 'Sites from a list or file',
    finds: 'import paste csv gpx waypoints',
    run: () => showOverlay({ kind: 'site-list' }),
  },
  {
    id: 'save.ledger-csv',
    group: 'Trip',
    label: 'Save the ledger as CSV',
    finds: 'export spreadsheet excel download table figures',
    enabled: hasDives,
    run: () => void exportAs('ledger-csv'),
  },
  {
    id: 'save.calendar',
    group: 'Trip',
    label: 'Save the dives as a calendar',
    finds: 'export ics agenda download',
    enabled: hasDives,
    run: () => void exportAs('calendar'),
  },
  {
    id: 'save.sites-csv',
    group: 'Trip',
    label: 'Save the sites as CSV',
    finds: 'export spreadsheet excel download',
    enabled: hasSites,
    run: () => void exportAs('sites-csv'),
  },
  {
    id: 'save.sites-gpx',
    group: 'Trip',
    label: 'Save the sites as GPX',
    finds: 'export waypoints chart download',
    enabled: hasSites,
    run: () => void exportAs('sites-gpx'),
  },
  {
    id: 'trip.demo',
    group: 'Trip',
    label: 'Open the demo trip',
    finds: 'example sample tutorial',
    run: () => void openDemo(),
  },
  {
    id: 'trip.print',
    group: 'Trip',
    label: 'Print this view',
    finds: 'paper pdf printer',
    keys: ['Mod+P'],
    inFields: true,
    run: () => window.print(),
  },
];

const edit: readonly Command[] = [
  {
    id: 'edit.undo',
    group: 'Edit',
    label: 'Undo',
    finds: 'back revert',
    labelNow: ({ history }) => {
      const step = history.past.at(-1);
      return step ? `Undo ${lowerFirst(step.label)}` : 'Undo';
    },
    keys: ['Mod+Z'],
    enabled: ({ history }) => history.past.length > 0,
    run: undoStep,
  },
  {
    id: 'edit.redo',
    group: 'Edit',
    label: 'Redo',
    finds: 'again forward',
    labelNow: ({ history }) => {
      const step = history.future.at(-1);
      return step ? `Redo ${lowerFirst(step.label)}` : 'Redo';
    },
    keys: ['Mod+Shift+Z', 'Mod+Y'],
    enabled: ({ history }) => history.future.length > 0,
    run: redoStep,
  },
];

const dive: readonly Command[] = [
  {
    id: 'dive.add',
    group: 'Dive',
    label: 'New dive',
    finds: 'create insert plan',
    keys: ['Insert', 'Mod+Enter'],
    run: () => void tell(addDive({ startsAt: nextStart(now(), todayText()) })),
  },
  {
    id: 'dive.copy',
    group: 'Dive',
    label: 'Duplicate the dive',
    finds: 'copy clone repeat',
    keys: ['Mod+D'],
    enabled: hasChosen,
    run: () => void tell(duplicateDives(chosenIds())),
  },
  {
    id: 'day.copy',
    group: 'Dive',
    label: 'Duplicate the day',
    finds: 'copy clone repeat',
    keys: ['Mod+Shift+D'],
    enabled: hasChosen,
    run: () => {
      const chosen = selectChosenDive(now());
      if (chosen) tell(duplicateDay(chosen.startsAt.slice(0, 10)));
    },
  },
  {
    id: 'dive.swap',
    group: 'Dive',
    label: 'Swap with another dive',
    finds: 'exchange change places move',
    enabled: (state) => selectChosenDives(state).length === 1 && state.trip.dives.length > 1,
    run: () => {
      const chosen = selectChosenDive(now());
      if (chosen) showOverlay({ kind: 'swap', diveId: chosen.id });
    },
  },
  {
    id: 'edit.copy',
    group: 'Dive',
    label: 'Copy the dive',
    labelNow: (state) => {
      const { length } = selectChosenDives(state);
      return length > 1 ? `Copy ${length} dives` : 'Copy the dive';
    },
    finds: 'clipboard',
    enabled: hasChosen,
    run: copyChosen,
  },
  {
    id: 'edit.paste',
    group: 'Dive',
    label: 'Paste dives',
    finds: 'clipboard insert',
    enabled: hasCopied,
    run: () => void tell(pasteDives()),
  },
  {
    id: 'dive.none',
    group: 'Dive',
    label: 'Choose no dive',
    keys: ['Escape'],
    finds: 'deselect clear',
    enabled: hasChosen,
    run: () => chooseDives([]),
  },
  {
    id: 'dive.delete',
    group: 'Dive',
    label: 'Remove the dive',
    finds: 'delete erase trash cancel',
    labelNow: (state) => {
      const { length } = selectChosenDives(state);
      return length > 1 ? `Remove ${length} dives` : 'Remove the dive';
    },
    keys: ['Delete'],
    enabled: hasChosen,
    run: () => void tell(deleteDives(chosenIds())),
  },
  {
    id: 'dive.next',
    group: 'Dive',
    label: 'Next dive',
    keys: ['Mod+ArrowRight'],
    enabled: hasDives,
    run: () => stepDive(1),
  },
  {
    id: 'dive.previous',
    group: 'Dive',
    label: 'Dive before',
    keys: ['Mod+ArrowLeft'],
    enabled: hasDives,
    run: () => stepDive(-1),
  },
  {
    id: 'dive.tightest',
    group: 'Dive',
    label: 'The tightest dive',
    finds: 'least room worst limit',
    keys: ['Mod+E'],
    enabled: (state) => selectTightest(state) !== null,
    run: () => {
      const state = now();
      const ids = [...new Set(selectTight(state).map((entry) => entry.dive.id))];
      // Pressed again it goes on to the next that is as tight, and from the last to the first.
      const next = ids[(ids.indexOf(state.selection.diveIds[0] ?? '') + 1) % ids.length];
      if (next !== undefined) chooseDives([next]);
    },
  },
  {
    id: 'dive.all',
    group: 'Dive',
    label: 'Select every dive',
    finds: 'choose all',
    keys: ['Mod+A'],
    enabled: hasDives,
    run: () => chooseDives(now().trip.dives.map(({ id }) => id)),
  },
];

const places: readonly Command[] = PLACES.map(({ id, label, finds }, i) => ({
  id: `place.${id}`,
  group: 'Places',
  label,
  keys: [`Alt+${i + 1}`],
  finds,
  inFields: true,
  run: () => goTo(id),
}));

const view: readonly Command[] = [
  {
    id: 'view.cautions',
    group: 'View',
    label: 'All cautions',
    finds: 'warnings alerts problems limits notes errors',
    keys: ['Mod+Shift+C'],
    inFields: true,
    run: () => showOverlay({ kind: 'cautions' }),
  },
  {
    id: 'view.table',
    group: 'View',
    label: 'The dives as a table',
    labelNow: ({ isTable }) => (isTable ? 'The dives on the strip' : 'The dives as a table'),
    keys: ['Mod+Shift+T'],
    finds: 'spreadsheet rows excel list edit all grid',
    enabled: ({ settings }) => settings.place === 'days',
    run: () => showTable(!now().isTable),
  },
  {
    id: 'view.units',
    group: 'View',
    label: 'Feet, psi and cubic feet',
    finds: 'imperial metric psi bar feet metres units',
    labelNow: ({ settings }) =>
      settings.units === 'metric' ? 'Feet, psi and cubic feet' : 'Metres, bar and litres',
    run: () => changeSettings({ units: now().settings.units === 'metric' ? 'imperial' : 'metric' }),
  },
  {
    id: 'view.clock',
    group: 'View',
    label: '12-hour clock',
    finds: 'am pm time format hours',
    labelNow: ({ settings }) => (settings.clock === '24h' ? '12-hour clock' : '24-hour clock'),
    run: () => changeSettings({ clock: now().settings.clock === '24h' ? '12h' : '24h' }),
  },
  {
    id: 'view.light',
    group: 'View',
    label: 'Light paper',
    finds: 'day bright theme white appearance',
    run: () => changeSettings({ look: 'light' }),
  },
  {
    id: 'view.cabin',
    group: 'View',
    label: 'Cabin at night',
    finds: 'dark night theme black red appearance',
    run: () => changeSettings({ look: 'cabin' }),
  },
  {
    id: 'view.system',
    group: 'View',
    label: 'Look as the system has it',
    finds: 'theme automatic appearance',
    run: () => changeSettings({ look: 'system' }),
  },
  {
    id: 'view.larger',
    group: 'View',
    label: 'Larger text',
    finds: 'zoom font bigger size magnify',
    keys: ['Alt++'],
    run: () => stepTextScale(1),
  },
  {
    id: 'view.smaller',
    group: 'View',
    label: 'Smaller text',
    finds: 'zoom font size reduce',
    keys: ['Alt+-'],
    run: () => stepTextScale(-1),
  },
  {
    id: 'view.tightest-diver',
    group: 'View',
    label: 'On each dive, the diver with the least room',
    finds: 'everybody all divers party',
    enabled: ({ selection }) => selection.diverId !== null,
    run: () => chooseDiver(null),
  },
];

const help: readonly Command[] = [
  {
    id: 'help.palette',
    group: 'Help',
    label: 'Find a command',
    keys: ['Mod+K'],
    inFields: true,
    run: () => showOverlay({ kind: 'palette' }),
  },
  {
    id: 'help.keys',
    group: 'Help',
    label: 'Keys',
    finds: 'shortcuts keyboard hotkeys help',
    keys: ['F1', 'Mod+/'],
    inFields: true,
    run: () => showOverlay({ kind: 'shortcuts' }),
  },
  {
    id: 'help.settings',
    group: 'Help',
    label: 'Settings',
    finds: 'preferences options configure units',
    keys: ['Mod+,'],
    inFields: true,
    run: () => showOverlay({ kind: 'settings' }),
  },
  {
    id: 'help.about',
    group: 'Help',
    label: 'About and cautions',
    finds: 'version licence safety disclaimer help',
    run: () => showOverlay({ kind: 'about' }),
  },
];

export const COMMANDS: readonly Command[] = [...trip, ...edit, ...dive, ...places, ...view, ...help];

/** What the trip itself offers beside them: a diver to look at, a dive to go to. For the palette. */
export function commandsOfTrip({ trip: open, settings }: Desk): readonly Command[] {
  const divers = open.party.map(({ id, name }): Command => ({
    id: `look-at.${id}`,
    group: 'View',
    label: `Figures of ${name}`,
    run: () => chooseDiver(id),
  }));
  const sites = new Map(open.sites.map(({ id, name }) => [id, name]));
  const dives = open.dives.map(({ id, siteId, startsAt }, i): Command => ({
    id: `go-to.${id}`,
    group: 'Dive',
    label: `Dive ${i + 1}, ${sites.get(siteId) ?? siteId}, ${dateText(startsAt)}, ${clockText(startsAt, settings.clock)}`,
    run: () => {
      goTo('days');
      chooseDives([id]);
    },
  }));
  return [...divers, ...dives];
}

export function commandById(id: string): Command {
  const found = COMMANDS.find((command) => command.id === id);
  if (!found) throw new Error(`Carryover has a fault: there is no command "${id}"`);
  return found;
}
