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

/**
 * The first place at which a text is no JSON. Engines word this differently or leave it out, and a person
 * needs line and column.
 * Method: one pass with a stack of open brackets instead of recursion, so that no text can overflow it.
 * @param text anything
 * @returns null where the whole text is JSON
 * Source: RFC 8259, The JavaScript Object Notation Data Interchange Format.
 */
export function jsonBreak(text: string): JsonPlace | null {
  const open: ('{' | '[')[] = [];
  let at = 0;
  let due: 'value' | 'value-or-end' | 'key' | 'key-or-end' | 'next' = 'value';
  for (;;) {
    at = behind(SPACE, text, at)!;
    const letter = text[at];
    const inside = open[open.length - 1];
    if (due === 'next' && inside === undefined) return letter === undefined ? null : placeAt(text, at);
    if (letter === undefined) return placeAt(text, at);
    if (due === 'next') {
      if (letter === ',') due = inside === '{' ? 'key' : 'value';
      else if (letter === (inside === '{' ? '}' : ']')) open.pop();
      else return placeAt(text, at);
      at += 1;
    } else if ((due === 'key-or-end' && letter === '}') || (due === 'value-or-end' && letter === ']')) {
      open.pop();
      due = 'next';
      at += 1;
    } else if (due === 'key' || due === 'key-or-end') {
      const end = behind(STRING, text, at);
      if (end === null) return placeAt(text, at);
      at = behind(SPACE, text, end)!;
      if (text[at] !== ':') return placeAt(text, at);
      at += 1;
      due = 'value';
    } else if (letter === '{' || letter === '[') {
      open.push(letter);
      due = letter === '{' ? 'key-or-end' : 'value-or-end';
      at += 1;
    } else {
      const end = behind(STRING, text, at) ?? behind(NUMBER, text, at) ?? behind(WORD, text, at);
      if (end === null) return placeAt(text, at);
      at = end;
      due = 'next';
    }
  }
}

function placeAt(text: string, at: number): JsonPlace {
  const lines = text.slice(0, at).split('\n');
  return {
    line: lines.length,
    column: lines[lines.length - 1]!.length + 1,
    found: /^[\w$.+-]{1,20}/.exec(text.slice(at, at + 20))?.[0] ?? text.slice(at, at + 1),
  };
}

/**
 * How deep brackets are nested, without reading the values: engines read any depth but cannot write it.
 * @param text JSON
 * @returns the largest number of brackets open at once
 * Source: RFC 8259, section 9 (an implementation may limit the depth of nesting).
 */
export function nestingDepth(text: string): number {
  let depth = 0;
  let deepest = 0;
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
  }
  return deepest;
}
