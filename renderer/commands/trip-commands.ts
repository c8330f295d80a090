/** What is done with the trip as a whole: drafting, opening, saving, the evening, exports. */
import type { ExportFormat } from '../../core/formats/all';
import { newTrip, openDemo, openFile, save, saveAs } from '../actions/files';
import { exportAs, exportUddf } from '../actions/exports';
import { goTo, showMending, showOverlay } from '../actions/view';
import { dayToLog, showEvening } from '../actions/evening';
import { hasDives, hasSites, now } from './asked';
import type { Command } from './registry';

/** What is saved for other programs: its format, what of the trip it is, other words it is looked for by. */
const SAVED: readonly (readonly [ExportFormat['id'], string, string, Command['enabled']?])[] = [
  ['ledger-csv', 'ledger as CSV', 'spreadsheet excel table figures'],
  ['dives-csv', 'dives as CSV', 'spreadsheet excel'],
  ['party-csv', 'party as CSV', 'spreadsheet excel', () => true],
  ['stock-csv', 'fills by diver as CSV', 'spreadsheet excel stock mixes'],
  ['fills-csv', 'fills by day as CSV', 'spreadsheet excel blending'],
  ['calendar', 'dives as a calendar', 'ics agenda'],
  ['sites-csv', 'sites as CSV', 'spreadsheet excel', hasSites],
  ['sites-gpx', 'sites as GPX', 'waypoints chart', hasSites],
];

export const TRIP_COMMANDS: readonly Command[] = [
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
    keys: ['Mod+N'],
    inFields: true,
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
    run: () => showMending(null),
  },
  {
    id: 'trip.sturdy',
    group: 'Trip',
    label: 'How sturdy is this plan?',
    finds: 'scatter runs risk margin',
    enabled: hasDives,
    run: () => showOverlay({ kind: 'sturdy' }),
  },
  {
    id: 'trip.details',
    group: 'Trip',
    label: 'Title, water, heights and flight',
    finds:
      'name altitude lake pass road mountain event salt fresh departure plane settings of the trip loop rebreather tolerance',
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
    id: 'trip.recorded',
    group: 'Trip',
    label: 'Read recorded profiles from a file',
    finds: 'import uddf dive computer log samples csv download',
    enabled: hasDives,
    run: () => showOverlay({ kind: 'recorded' }),
  },
  {
    id: 'save.uddf',
    group: 'Trip',
    label: 'Save the dives as UDDF',
    finds: 'export dive log universal dive data format',
    enabled: hasDives,
    run: () => void exportUddf(),
  },
  ...SAVED.map(([id, what, finds, enabled = hasDives]): Command => ({
    id: `save.${id}`,
    group: 'Trip',
    label: `Save the ${what}`,
    finds: `export download ${finds}`,
    enabled,
    run: () => void exportAs(id),
  })),
  {
    id: 'trip.demo',
    group: 'Trip',
    label: 'Open the demo trip',
    finds: 'example sample tutorial',
    run: () => void openDemo(),
  },
  {
    id: 'trip.demo-high',
    group: 'Trip',
    label: 'Open the demo trip over a pass',
    finds: 'example altitude lake height',
    run: () => void openDemo(true),
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
