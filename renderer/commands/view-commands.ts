/** Where one is, how it looks, and help. */
import { changeSettings, chooseDiver, goTo, showOverlay, showTable, stepTextScale } from '../actions/view';
import { PLACES } from './place-names';
import { now } from './asked';
import type { Command } from './registry';

export const PLACE_COMMANDS: readonly Command[] = PLACES.map(({ id, label, finds }, i) => ({
  id: `place.${id}`,
  group: 'Places',
  label,
  keys: [`Alt+${i + 1}`],
  finds,
  inFields: true,
  run: () => goTo(id),
}));

export const VIEW_COMMANDS: readonly Command[] = [
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
    id: 'view.exercises',
    group: 'View',
    label: 'Exercise sheet for a class',
    finds: 'lesson teach questions',
    run: () => showOverlay({ kind: 'lesson', what: 'exercises' }),
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
    keys: ['Mod++', 'Mod+=', 'Alt++'],
    inFields: true,
    run: () => stepTextScale(1),
  },
  {
    id: 'view.smaller',
    group: 'View',
    label: 'Smaller text',
    finds: 'zoom font size reduce',
    keys: ['Mod+-', 'Alt+-'],
    inFields: true,
    run: () => stepTextScale(-1),
  },
  {
    id: 'view.usual-text',
    group: 'View',
    label: 'Text at 100 %',
    finds: 'zoom font reset normal actual size',
    keys: ['Mod+0'],
    inFields: true,
    run: () => changeSettings({ textScale: 1 }),
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

export const HELP_COMMANDS: readonly Command[] = [
  {
    id: 'help.palette',
    group: 'Help',
    label: 'Find a command',
    keys: ['Mod+K'],
    inFields: true,
    run: () => showOverlay({ kind: 'palette' }),
  },
  {
    id: 'help.guide',
    group: 'Help',
    label: 'Guide',
    finds: 'manual how to learn help',
    run: () => showOverlay({ kind: 'guide' }),
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
