/** An element of a document: names as written, prefixes kept. */
export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly XmlElement[];
  /** All text directly inside it, trimmed. */
  readonly text: string;
}

/** Either the root element, or what is wrong with the text and on which line. */
export type XmlReading =
  | { readonly ok: true; readonly root: XmlElement }
  | { readonly ok: false; readonly what: string; readonly line: number };

interface OpenElement {
  readonly name: string;
  readonly attributes: Record<string, string>;
  readonly children: XmlElement[];
  text: string;
}

/** Deeper than any real document; keeps who walks the tree from running out of stack. */
const MAX_DEPTH = 100;

const ENTITIES: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" };

const NAME = /[A-Za-z_][\w.:-]*/y;
const SPACE = /\s*/y;

/** What stands between two places that are known to be there. */
class Fault extends Error {
  constructor(
    readonly what: string,
    readonly at: number,
  ) {
    super(what);
  }
}

function matchAt(pattern: RegExp, text: string, at: number): string {
  pattern.lastIndex = at;
  return pattern.exec(text)?.[0] ?? '';
}

/**
 * Reads a well-formed XML document into elements: as much of XML as data files use.
 * A document type is refused, so that no entity can be defined: nothing is fetched and nothing grows.
 * @param text the document
 * @returns the root element, or the first fault with its line
 * Source: W3C, Extensible Markup Language (XML) 1.0, 5th ed. (2008); document types left out on purpose.
 */
export function readXml(text: string): XmlReading {
  try {
    return { ok: true, root: rootOf(text) };
  } catch (fault) {
    if (!(fault instanceof Fault)) throw fault;
    // Names in it are the file's own and may be of any length.
    const what = fault.what.length > 160 ? `${fault.what.slice(0, 160)}...` : fault.what;
    return { ok: false, what, line: text.slice(0, fault.at).split('\n').length };
  }
}

function rootOf(text: string): XmlElement {
  const open: OpenElement[] = [];
  let root: XmlElement | null = null;
  let at = text.startsWith('\uFEFF') ? 1 : 0;
  while (at < text.length) {
    const parent = open[open.length - 1];
    if (text[at] !== '<') {
      const end = endOf(text, '<', at);
      const between = text.slice(at, end);
      if (parent) parent.text += withEntities(between, at);
      else if (between.trim() !== '') throw new Fault('Text stands outside of every element.', at);
      at = end;
    } else if (text.startsWith('<!--', at)) {
      at = behind(text, '-->', at, 'A comment is not closed.');
    } else if (text.startsWith('<?', at)) {
      at = behind(text, '?>', at, 'A processing instruction is not closed.');
    } else if (text.startsWith('<![CDATA[', at)) {
      const end = behind(text, ']]>', at, 'A section of plain text is not closed.');
      if (!parent) throw new Fault('Text stands outside of every element.', at);
      parent.text += text.slice(at + '<![CDATA['.length, end - ']]>'.length);
      at = end;
    } else if (text.startsWith('<!', at)) {
      throw new Fault('Document types are not read, as they could define anything.', at);
    } else if (text.startsWith('</', at)) {
      const name = matchAt(NAME, text, at + 2);
      if (!parent || parent.name !== name) throw new Fault(`</${name}> closes nothing that is open.`, at);
      at = behind(text, '>', at, `</${name}> is not closed.`);
      open.pop();
      root = closed(parent, open, root, at);
    } else {
      const tag = openTag(text, at);
      if (open.length >= MAX_DEPTH) throw new Fault('The elements are nested too deeply.', at);
      if (!parent && root) throw new Fault('A second element stands outside of the first.', at);
      const element: OpenElement = { name: tag.name, attributes: tag.attributes, children: [], text: '' };
      at = tag.end;
      if (tag.isEmpty) root = closed(element, open, root, at);
      else open.push(element);
    }
  }
  const unclosed = open[open.length - 1];
  if (unclosed) throw new Fault(`<${unclosed.name}> is not closed.`, text.length);
  if (!root) throw new Fault('There is no element in it.', text.length);
  return root;
}

/** Hands a finished element to its parent, or makes it the root. */
function closed(
  element: OpenElement,
  open: readonly OpenElement[],
  root: XmlElement | null,
  at: number,
): XmlElement | null {
  const done: XmlElement = { ...element, text: element.text.trim() };
  const parent = open[open.length - 1];
  if (parent) {
    parent.children.push(done);
    return root;
  }
  if (root) throw new Fault('A second element stands outside of the first.', at);
  return done;
}

interface OpenTag {
  readonly name: string;
  readonly attributes: Record<string, string>;
  readonly isEmpty: boolean;
  readonly end: number;
}

function openTag(text: string, from: number): OpenTag {
  const name = matchAt(NAME, text, from + 1);
  if (name === '') throw new Fault('A "<" does not begin an element; write it as &lt;.', from);
  // Names come from the file: a plain object would take "__proto__" for its own.
  const attributes = Object.create(null) as Record<string, string>;
  let at = from + 1 + name.length;
  for (;;) {
    at += matchAt(SPACE, text, at).length;
    if (text.startsWith('/>', at)) return { name, attributes, isEmpty: true, end: at + 2 };
    if (text[at] === '>') return { name, attributes, isEmpty: false, end: at + 1 };
    const key = matchAt(NAME, text, at);
    if (key === '') throw new Fault(`<${name}> is not closed, or its attributes cannot be read.`, at);
    at += key.length;
    at += matchAt(SPACE, text, at).length;
    if (text[at] !== '=') throw new Fault(`The attribute ${key} of <${name}> has no value.`, at);
    at += 1;
    at += matchAt(SPACE, text, at).length;
    const quote = text[at];
    if (quote !== '"' && quote !== "'") throw new Fault(`The value of ${key} is not in quotation marks.`, at);
    const end = text.indexOf(quote, at + 1);
    if (end === -1) throw new Fault(`The value of ${key} is not closed.`, at);
    attributes[key] = withEntities(text.slice(at + 1, end), at);
    at = end + 1;
  }
}

function endOf(text: string, mark: string, from: number): number {
  const end = text.indexOf(mark, from);
  return end === -1 ? text.length : end;
}

function behind(text: string, mark: string, from: number, what: string): number {
  const end = text.indexOf(mark, from);
  if (end === -1) throw new Fault(what, from);
  return end + mark.length;
}

function withEntities(text: string, at: number): string {
  return text.replaceAll(/&([^;\s&]{0,10});?/g, (whole, name: string) => {
    const letter = whole.endsWith(';') ? letterOf(name) : undefined;
    if (letter === undefined) throw new Fault(`"${whole}" stands for no letter; write "&" as &amp;.`, at);
    return letter;
  });
}

function letterOf(name: string): string | undefined {
  const [, hex, decimal] = /^#(?:x([0-9a-f]+)|(\d+))$/i.exec(name) ?? [];
  if (hex === undefined && decimal === undefined)
    return Object.hasOwn(ENTITIES, name) ? ENTITIES[name] : undefined;
  const code = hex === undefined ? Number(decimal) : Number.parseInt(hex, 16);
  return code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : undefined;
}

/**
 * Text as it may stand in an element or an attribute.
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
