/**
 * The rooms inside core and inside renderer, in the order in which they stand on one another: what stands on a step
 * may import what stands on the steps below it, types included, and nothing of its own step or above.
 */

/** Each step in turn, the lowest first. A room is a folder, or a file beside the folders. */
const CORE: readonly (readonly string[])[] = [
  ['bytes', 'cited-hosts', 'decode-text', 'grouped', 'host', 'line-breaks', 'numeric', 'result', 'same'],
  ['settings-schema', 'water'],
  ['units', 'breathing', 'gas'],
  ['profile'],
  ['tissues'],
  ['ascent'],
  ['oxygen'],
  ['compressibility'],
  ['supply'],
  ['tables'],
  ['words'],
  ['document'],
  ['imported', 'library', 'ledger'],
  ['cautions', 'sturdiness'],
  ['mixes'],
  ['proposal'],
  ['slate'],
  ['workings'],
  ['lesson'],
  ['formats'],
];

const RENDERER: readonly (readonly string[])[] = [
  ['figures'],
  ['store'],
  ['actions'],
  ['commands'],
  ['parts'],
  ['places/days', 'places/mixes', 'places/party', 'places/sites', 'places/slates'],
  ['places/starting', 'places/mending', 'places/lesson', 'places/sturdiness'],
  ['frame'],
  ['host', 'look', 'start'],
  ['main'],
];

/** By the folder whose rooms they are. */
export const ROOMS = { core: CORE, renderer: RENDERER } as const;

type Ordered = keyof typeof ROOMS;

function isOrdered(folder: string): folder is Ordered {
  return folder in ROOMS;
}

/** The room of a file within its folder, and the step it stands on; -1 where the table has no such room. */
function placeOf(folder: Ordered, path: string): { readonly room: string; readonly step: number } {
  const inside = path.slice(folder.length + 1).replace(/\.tsx?$/, '');
  const names = ROOMS[folder].flat();
  const room = names.find((name) => inside === name || inside.startsWith(`${name}/`));
  if (room === undefined) return { room: inside.split('/', 1)[0] ?? inside, step: -1 };
  return { room, step: ROOMS[folder].findIndex((rooms) => rooms.includes(room)) };
}

interface Breach {
  readonly what: string;
  readonly mend: string;
}

/** What is wrong with where a file lies, from the root of the repository; null where nothing is. */
export function placeBreach(path: string): Breach | null {
  const [folder = ''] = path.split('/');
  if (!isOrdered(folder)) return null;
  const { room, step } = placeOf(folder, path);
  if (step !== -1) return null;
  return {
    what: `${folder}/${room} has no place in the order of ${folder}`,
    mend: 'Give it one in build/checks/rooms.ts, and in the table of DEVELOPERS.md.',
  };
}

/** What is wrong with an import from one file to another, both from the root of the repository; null where nothing is. */
export function orderBreach(from: string, target: string): Breach | null {
  const [folder = ''] = from.split('/');
  if (!isOrdered(folder) || !target.startsWith(`${folder}/`)) return null;
  const own = placeOf(folder, from);
  const other = placeOf(folder, target);
  if (own.room === other.room || (other.step !== -1 && other.step < own.step)) return null;
  return {
    what: `${folder}/${own.room} imports ${folder}/${other.room}, which does not stand below it`,
    mend: `Move what both need down to ${folder}/${own.room} or below; build/checks/rooms.ts has the order.`,
  };
}
