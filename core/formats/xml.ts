import { SaxesParser } from 'saxes';

/** An element of a document: names as written, prefixes kept. */
export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly XmlElement[];
  /** All text directly inside it, trimmed. */
  readonly text: string;
  /** Where its first tag ends, counted from 1. */
  readonly line: number;
}

/**
 * Looks at an element as it closes, its parents' names outermost first. What it keeps for itself is not kept as a child,
 * so that a document of many small elements takes the memory of what was made of them.
 * @returns whether the element is dealt with
 */
export type XmlTaker = (element: XmlElement, parents: readonly string[]) => boolean;

/** Either the root element, or what is wrong with the text and on which line. */
export type XmlReading =
  | { readonly ok: true; readonly root: XmlElement }
  | { readonly ok: false; readonly what: string; readonly line: number };

interface OpenElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: XmlElement[];
  readonly line: number;
  text: string;
}

/** More than any data file has; without a bound a text of a few megabytes takes memory by the hundred. */
const BOUNDS = { depth: 32, attributes: 60, nameLength: 200 } as const;

/** An "&" that begins no reference. */
const BARE = /&(?!#?\w{1,10};)/;

/** Stops the reader where it stands. */
class Fault extends Error {}

function refuse(what: string): never {
  throw new Fault(what);
}

function bounded(name: string): void {
  if (name.length > BOUNDS.nameLength) refuse(`A name has more than ${BOUNDS.nameLength} letters.`);
}

/** What the reader says without the place, which is told beside it, and short enough for a message. */
function plainly(message: string): string {
  const what = message.replace(/^\d+:\d+: /, '').replace(/\.$/, '');
  const short = what.length > 120 ? `${what.slice(0, 120)}...` : what;
  return `The XML is not well formed: ${short}.`;
}

/**
 * Reads a well-formed XML document into elements.
 * A document type that defines anything is refused: no entity grows, and nothing is ever fetched.
 * @param text the document; a byte order mark is passed over
 * @param take what is dealt with as it comes, and not kept
 * @returns the root element, or the first fault with its line; elements nested deeper than 32, with more than
 *   60 attributes or names of more than 200 letters are such a fault
 * Source: W3C, Extensible Markup Language (XML) 1.0, 5th ed. (2008); the bounds are this project's own.
 */
export function readXml(text: string, take?: XmlTaker): XmlReading {
  const parser = new SaxesParser();
  const open: OpenElement[] = [];
  const names: string[] = [];
  let root: XmlElement | null = null;
  let attributes = 0;
  const add = (piece: string): void => {
    const element = open[open.length - 1];
    if (element) element.text += piece;
  };
  parser.on('error', ({ message }) => refuse(plainly(message)));
  parser.on('doctype', (type) => {
    if (type.includes('[')) refuse('Document types that define anything are not read.');
  });
  parser.on('opentagstart', ({ name }) => {
    if (open.length >= BOUNDS.depth) refuse(`The elements are nested deeper than ${BOUNDS.depth}.`);
    bounded(name);
    attributes = 0;
  });
  parser.on('attribute', ({ name }) => {
    attributes += 1;
    if (attributes > BOUNDS.attributes) refuse(`An element has more than ${BOUNDS.attributes} attributes.`);
    bounded(name);
  });
  parser.on('opentag', (tag) => {
    const { name, attributes: own } = tag;
    open.push({ name, attributes: own, children: [], line: parser.line, text: '' });
    names.push(name);
  });
  parser.on('text', add);
  parser.on('cdata', add);
  parser.on('closetag', () => {
    const done = open.pop()!;
    done.text = done.text.trim();
    names.pop();
    const parent = open[open.length - 1];
    if (!parent) root = done;
    else if (!take?.(done, names)) parent.children.push(done);
  });
  let isAtEnd = false;
  try {
    parser.write(text);
    isAtEnd = true;
    parser.close();
  } catch (fault) {
    if (!(fault instanceof Fault)) throw fault;
    // The reader looks for the end of a reference to the end of the text, and then misses what stands there.
    const hint = isAtEnd && BARE.test(text) ? ' Is there an "&" that should be &amp;?' : '';
    return { ok: false, what: fault.message + hint, line: parser.line };
  }
  // A document without an element is not well formed, and was told above.
  return { ok: true, root: root! };
}

/**
 * Text as it may stand in an element or an attribute; in an attribute a line break becomes a blank.
 * @param text anything; control characters that XML has no way to write are left out
 * Source: W3C, XML 1.0, sections 2.2 and 2.4.
 */
export function xmlText(text: string): string {
  return text
    .replaceAll(/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, '')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll('\r', '&#13;');
}
