/** Where a text stops being JSON. */
export interface JsonPlace {
  /** Counted from 1. */
  readonly line: number;
  readonly column: number;
  /** What stands there; empty at the end of the text. */
  readonly found: string;
}

const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
/** Letters from the space upwards but quotation mark and backslash, and the escapes. */
const STRING = /"(?:[ !#-[\]-\uffff]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"/y;
const WORD = /(?:true|false|null)(?![\w$])/y;
const SPACE = /[ \t\n\r]*/y;

/** Reads one token at a place. @returns the place behind it, or null where it does not fit */
function behind(pattern: RegExp, text: string, at: number): number | null {
  pattern.lastIndex = at;
  return pattern.test(text) ? pattern.lastIndex : null;
}

/** What one pass over a text finds. */
interface Scan {
  /** Where it stops being JSON; null where all of it is. */
  readonly breaksAt: number | null;
  /** The first key that its object has already, and where it stands again. */
  readonly doubled: { readonly key: string; readonly at: number } | null;
}

/** Text of a key, whatever way it is escaped. */
function keyOf(quoted: string): string {
  return quoted.includes('\\') ? (JSON.parse(quoted) as string) : quoted.slice(1, -1);
}

/** Reads the tokens with a stack of open brackets instead of recursion, so that no text can overflow it. */
function scan(text: string): Scan {
  const open: ('{' | '[')[] = [];
  const keys: Set<string>[] = [];
  let doubled: Scan['doubled'] = null;
  let at = 0;
  let due: 'value' | 'value-or-end' | 'key' | 'key-or-end' | 'next' = 'value';
  for (;;) {
    at = behind(SPACE, text, at)!;
    const letter = text[at];
    const inside = open[open.length - 1];
    if (due === 'next' && inside === undefined)
      return { breaksAt: letter === undefined ? null : at, doubled };
    if (letter === undefined) return { breaksAt: at, doubled };
    const closing = inside === '{' ? '}' : ']';
    const mayEnd = due === 'next' || due === 'key-or-end' || due === 'value-or-end';
    if (mayEnd && letter === closing) {
      if (open.pop() === '{') keys.pop();
      due = 'next';
      at += 1;
    } else if (due === 'next') {
      if (letter !== ',') return { breaksAt: at, doubled };
      due = inside === '{' ? 'key' : 'value';
      at += 1;
    } else if (due === 'key' || due === 'key-or-end') {
      const end = behind(STRING, text, at);
      if (end === null) return { breaksAt: at, doubled };
      const key = keyOf(text.slice(at, end));
      const known = keys[keys.length - 1]!;
      if (known.has(key)) doubled ??= { key, at };
      known.add(key);
      at = behind(SPACE, text, end)!;
      if (text[at] !== ':') return { breaksAt: at, doubled };
      at += 1;
      due = 'value';
    } else if (letter === '{' || letter === '[') {
      open.push(letter);
      if (letter === '{') keys.push(new Set());
      due = letter === '{' ? 'key-or-end' : 'value-or-end';
      at += 1;
    } else {
      const end = behind(STRING, text, at) ?? behind(NUMBER, text, at) ?? behind(WORD, text, at);
      if (end === null) return { breaksAt: at, doubled };
      at = end;
      due = 'next';
    }
  }
}

/**
 * The first place at which a text is no JSON. Engines word this differently or leave it out, and a person
 * needs line and column.
 * @param text anything
 * @returns null where the whole text is JSON
 * Source: RFC 8259, The JavaScript Object Notation Data Interchange Format.
 */
export function jsonBreak(text: string): JsonPlace | null {
  const { breaksAt } = scan(text);
  return breaksAt === null ? null : placeAt(text, breaksAt);
}

/**
 * The first key that stands twice in one object. Engines take the last of the two without a word, so a line
 * copied by hand would change a figure in silence.
 * @param text JSON
 * @returns the key and where it stands the second time; null where all are unique
 * Source: RFC 8259, section 4 (names should be unique; what happens otherwise is unpredictable).
 */
export function doubledKey(text: string): { readonly key: string; readonly place: JsonPlace } | null {
  const { doubled } = scan(text);
  return doubled === null ? null : { key: doubled.key, place: placeAt(text, doubled.at) };
}

function placeAt(text: string, at: number): JsonPlace {
  const lines = text.slice(0, at).split('\n');
  return {
    line: lines.length,
    column: lines[lines.length - 1]!.length + 1,
    found: /^[\w$.+-]{1,20}/.exec(text.slice(at, at + 20))?.[0] ?? text.slice(at, at + 1),
  };
}

/** What a text of JSON is built of, without its values. */
export interface JsonBuild {
  /** The largest number of brackets open at once: engines read any depth but cannot write it. */
  readonly deepest: number;
  /** How many keys its objects are given, those given twice counted twice. */
  readonly keys: number;
}

/**
 * Counts brackets and keys in one pass.
 * @param text JSON
 * Source: RFC 8259, section 9 (an implementation may limit the depth of nesting).
 */
export function jsonBuild(text: string): JsonBuild {
  let depth = 0;
  let deepest = 0;
  let keys = 0;
  let isInText = false;
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (code === 0x22) isInText = !isInText;
    else if (code === 0x5c) at += isInText ? 1 : 0;
    else if (isInText) continue;
    else if (code === 0x7b || code === 0x5b) {
      depth += 1;
      if (depth > deepest) deepest = depth;
    } else if (code === 0x7d || code === 0x5d) depth -= 1;
    else if (code === 0x3a) keys += 1;
  }
  return { deepest, keys };
}

/** The keys of all objects of a value. */
export interface Keys {
  /** Fewer than its text gives where one stands twice. */
  readonly count: number;
  /** Of the object that has the most. */
  readonly most: readonly string[];
}

/**
 * Counts the keys of a value.
 * @param value as `JSON.parse` made it, nested no deeper than the stack holds
 */
export function keysOf(value: unknown): Keys {
  let count = 0;
  let most: readonly string[] = [];
  const visit = (each: unknown): void => {
    if (typeof each !== 'object' || each === null) return;
    if (Array.isArray(each)) {
      for (const item of each as readonly unknown[]) visit(item);
      return;
    }
    const keys = Object.keys(each);
    count += keys.length;
    if (keys.length > most.length) most = keys;
    for (const key of keys) visit((each as Record<string, unknown>)[key]);
  };
  visit(value);
  return { count, most };
}
