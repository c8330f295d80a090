/** What the schema of a trip is made of: leaves, records and lists that say what is wrong, and how to mend it. */
import * as z from 'zod/mini';
import { listed, said, type Said, type SaidTrouble } from '../words/said';
import { type NumberField, numberTrouble, shown } from './fields';
import { wallDateTrouble, wallTimeTrouble } from './wall-fields';
import { textTrouble, type TextField } from './texts';

// Compiled validators need eval, which the window's content policy refuses.
z.config({ jitless: true });

/** How many a list can hold, what it is called, and what to do about one that is longer. */
export interface ListRule {
  readonly label: Said;
  readonly min: 0 | 1;
  readonly max: number;
  readonly mend: Said;
}

/** A message of the schema carries what and mend, yet to be worded, as JSON: zod passes on text alone. */
function message(trouble: SaidTrouble): string {
  return JSON.stringify(trouble);
}

/** What and mend of a schema message. */
export function messageParts(json: string): SaidTrouble {
  return JSON.parse(json) as SaidTrouble;
}

/** What a leaf is judged by, for who tells other programs of it. */
export type Leaf =
  | { readonly is: 'number'; readonly field: NumberField }
  | { readonly is: 'text'; readonly field: TextField; readonly label: Said | undefined }
  | { readonly is: 'time' | 'date'; readonly label: Said }
  | { readonly is: 'words'; readonly words: readonly (string | number)[] }
  | { readonly is: 'flag' | 'density' | 'samples' };

const LEAVES = new WeakMap<object, Leaf>();

/** What a part of the schema is judged by; null where it is no leaf. */
export function leafOf(schema: object): Leaf | null {
  return LEAVES.get(schema) ?? null;
}

/** A leaf judged by one of our own rules, the same that the fields of the window ask. */
export function judged<T>(leaf: Leaf, trouble: (value: unknown) => SaidTrouble | null) {
  const schema = z.custom<T>((value) => trouble(value) === null, {
    error: (issue) => message(trouble(issue.input)!),
  });
  LEAVES.set(schema, leaf);
  return schema;
}

/** A number held to the rule of its field. */
export function number(field: NumberField) {
  return judged<number>({ is: 'number', field }, (value) => numberTrouble(field, value));
}

/** A text held to the rule of its field. */
export function text(field: TextField, label?: Said) {
  return judged<string>({ is: 'text', field, label }, (value) => textTrouble(field, value, label));
}

/** A moment by the clock of the trip. */
export function time(label: Said) {
  return judged<string>({ is: 'time', label }, (value) => wallTimeTrouble(label, value));
}

/** A calendar date. */
export function date(label: Said) {
  return judged<string>({ is: 'date', label }, (value) => wallDateTrouble(label, value));
}

/** True or false. */
export function flag(label: Said) {
  return judged<boolean>({ is: 'flag' }, (value) =>
    typeof value === 'boolean'
      ? null
      : { what: said`${label} is ${shown(value)}.`, mend: said`Write true or false.` },
  );
}

/** One of these words. */
export function oneOf<T extends string>(label: Said, words: readonly T[]) {
  return judged<T>({ is: 'words', words }, (value) =>
    (words as readonly unknown[]).includes(value)
      ? null
      : {
          what: said`${label} is ${shown(value)}.`,
          mend: said`Write ${listed(
            words.map((word) => `"${word}"`),
            'or',
          )}.`,
        },
  );
}

/** An object whose unknown keys travel along. */
export function record<Shape extends z.core.$ZodLooseShape>(label: Said, shape: Shape) {
  const keys = Object.keys(shape).join(', ');
  return z.looseObject(shape, {
    error: (issue) =>
      message({
        what: said`${label} is ${shown(issue.input)}.`,
        mend: said`Give it as an object { ${keys} }.`,
      }),
  });
}

/** A list held to its rule, and each item of it. */
export function list<Item extends z.core.$ZodType>({ label, min, max, mend }: ListRule, item: Item) {
  return z
    .array(item, {
      error: ({ input }) =>
        message({
          what:
            input === undefined
              ? said`${label}: the list is missing.`
              : said`${label} is ${shown(input)}, not a list.`,
          mend: said`Give a list [ ... ].`,
        }),
    })
    .check(
      z.minLength(min, {
        error: message({ what: said`${label}: the list is empty.`, mend: said`Give at least one.` }),
      }),
      z.maxLength(max, {
        error: ({ input }) =>
          message(tooMany({ label, min, max, mend }, (input as readonly unknown[]).length)),
      }),
    );
}

/** What is read as something else first. */
export function readyFor<Schema extends z.core.$ZodType>(change: (raw: unknown) => unknown, schema: Schema) {
  return z.pipe(z.transform(change), schema);
}

/** What a list is told that has more items than can be. */
export function tooMany({ label, max, mend }: ListRule, count: number): SaidTrouble {
  return { what: said`${label}: ${String(count)} are given; there can be ${String(max)}.`, mend };
}
