/** What the rules that look across a trip file are made of. */
import { MOST_TROUBLES } from '../result';
import { either, named, said, type Named, type Said, type SaidTrouble, typed } from '../words/said';
import { bag, type Bag, type TripPath } from './place-in-trip';
import { excerpt, TEXT_RULES } from './texts';

/** A trouble and the path to it. */
export interface Found extends SaidTrouble {
  readonly path: TripPath;
}

/** Whether enough was found to stop looking. */
export function isEnough(found: readonly Found[]): boolean {
  return found.length > MOST_TROUBLES;
}

/** The items of a list; null where it is no list at all, which the schema has said already. */
export function items(value: unknown): readonly Bag[] | null {
  return Array.isArray(value) ? value.map(bag) : null;
}

/** Ids stand bare in a list of them: they are for who edits a file. */
function known(ids: ReadonlySet<string>): Said {
  if (ids.size === 0) return said`There is none yet: add it.`;
  const some: string[] = [];
  for (const id of ids) {
    some.push(some.length === 8 ? '...' : excerpt(id));
    if (some.length > 8) break;
  }
  return said`${either(said`Use one of ${some.join(', ')}, or add it.`, said`Choose another, or add it.`)}`;
}

/** A diver by the id, of which no more is told than an id can have. */
export function diverCalled(id: string): Named {
  return named('diver', id.length > TEXT_RULES.id.max ? excerpt(id) : id);
}

/** What an id stands for. */
const KINDS: Readonly<Record<Named['of'], Said>> = {
  dive: said`dive`,
  'earlier dive': said`earlier dive`,
  diver: said`diver`,
  site: said`site`,
  mix: said`mix`,
};

/** Says where an id stands for nothing. */
export function unknownId(
  kind: Named['of'],
  value: unknown,
  ids: ReadonlySet<string> | null,
  path: TripPath,
  found: Found[],
): void {
  if (isEnough(found) || ids === null || typeof value !== 'string' || ids.has(value)) return;
  // An empty one was told by the schema.
  if (excerpt(value).trim() === '') return;
  found.push({ path, what: said`There is no ${KINDS[kind]} "${excerpt(value)}".`, mend: known(ids) });
}

/** Whether two numbers stand in order; what is no number was told by the schema. */
export function inOrder(low: unknown, high: unknown): boolean {
  return typeof low !== 'number' || typeof high !== 'number' || low <= high;
}

/** A reserve that leaves nothing of a fill. */
export function reserveTroubles(cylinder: unknown, path: TripPath, found: Found[]): void {
  const { fillBar, reserveBar } = bag(cylinder);
  if (typeof fillBar !== 'number' || typeof reserveBar !== 'number' || reserveBar < fillBar) return;
  found.push({
    path: [...path, 'reserveBar'],
    what: said`The reserve of ${typed('pressure', reserveBar, 'near')} leaves nothing of a fill of ${typed('pressure', fillBar, 'near')}.`,
    mend: said`Give a reserve below the fill pressure.`,
  });
}
