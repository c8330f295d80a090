/** What stands in a person's way, in three parts that every door prints alike: what, where, how to mend it. */
export interface Trouble<Kind extends string = string> {
  readonly kind: Kind;
  /** What is wrong, as a sentence without the place. */
  readonly what: string;
  /** The place as a path a person can follow, e.g. `dives[8].depthM (dive "d9")`; empty for the whole file. */
  readonly where: string;
  /** What to do about it, as a sentence. */
  readonly mend: string;
}

/** So many troubles of one document are told, and little more are looked for. */
export const MOST_TROUBLES = 100;

/** Either a value or every trouble found on the way to it; never half of each. */
export type Result<T, Kind extends string = string> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly troubles: readonly [Trouble<Kind>, ...Trouble<Kind>[]] };

export function success<T>(value: T): { readonly ok: true; readonly value: T } {
  return { ok: true, value };
}

export interface Failure<Kind extends string> {
  readonly ok: false;
  readonly troubles: readonly [Trouble<Kind>, ...Trouble<Kind>[]];
}

export function failure<Kind extends string>(trouble: Trouble<Kind>): Failure<Kind> {
  return { ok: false, troubles: [trouble] };
}

/** As `failure`, of one trouble or more. */
export function failures<Kind extends string>(troubles: readonly Trouble<Kind>[]): Failure<Kind> {
  const [first, ...rest] = troubles;
  assert(first !== undefined, 'a failure without a trouble');
  return { ok: false, troubles: [first, ...rest] };
}

/** The three lines of a trouble, for the command, a dialog and the log alike. */
export function troubleText(trouble: Trouble): string {
  const place = trouble.where === '' ? '' : `${trouble.where}: `;
  return `${place}${trouble.what}\n  ${trouble.mend}`;
}

/** Stops on a mistake of ours; the world's faults are Troubles instead. */
export function assert(condition: boolean, message: string): asserts condition {
  if (!condition) throw new Error(`Carryover has a fault: ${message}`);
}

/** The default of a `switch` over a closed union: adding a member makes this a compile error. */
export function unreachable(value: never): never {
  throw new Error(`Carryover has a fault: ${JSON.stringify(value)} was not expected here`);
}
