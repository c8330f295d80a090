import { describe, expect, it } from 'vitest';
import { readXml, xmlText } from '../../../../core/formats/xml';

function root(text: string) {
  const read = readXml(text);
  if (!read.ok) throw new Error(read.what);
  return read.root;
}

describe('readXml', () => {
  it('reads elements, attributes and text', () => {
    const element = root(
      '\uFEFF<?xml version="1.0"?><!-- a --><a x="1" y = \'2&gt;3\'><b/>t<c >u</c> v </a >\n',
    );
    expect(element.name).toBe('a');
    expect({ ...element.attributes }).toEqual({ x: '1', y: '2>3' });
    expect(element.text).toBe('t v');
    expect(element.children.map((child) => [child.name, child.text])).toEqual([
      ['b', ''],
      ['c', 'u'],
    ]);
  });

  it('reads entities by name and number, and plain sections as they stand', () => {
    expect(root('<a>&lt;&amp;&#65;&#x1F41F;<![CDATA[<b>&amp;]]></a>').text).toBe('<&A🐟<b>&amp;');
  });

  it('keeps an attribute called __proto__ to itself', () => {
    expect(root('<a __proto__="x"/>').attributes['__proto__']).toBe('x');
    expect(({} as Record<string, unknown>)['x']).toBeUndefined();
  });

  it.each([
    ['', 1, 'root element'],
    ['text', 1, 'outside of root'],
    ['<a>\n<b>\n</a>', 3, 'close tag'],
    ['<a>\n', 2, 'unclosed tag: a'],
    ['<a/>\n<b/>', 2, 'only one root'],
    ['<a/>\n<b></b>', 2, 'only one root'],
    ['<a/>tail', 1, 'outside of root'],
    ['<a/><![CDATA[x]]>', 1, 'outside of root'],
    ['</a>', 1, 'closing tag'],
    ['<a x></a>', 1, 'without value'],
    ['<a x=1></a>', 1, 'unquoted'],
    ['<a x="1></a>', 1, 'disallowed character'],
    ['<a x="1" x="2"/>', 1, 'duplicate attribute: x'],
    ['<a x="1"y="2"/>', 1, 'no whitespace between attributes'],
    ['<a x="<"/>', 1, 'disallowed character'],
    ['<a', 1, 'root element'],
    ['<a></a', 1, 'unclosed tag: a'],
    ['<a></a\u0001b>', 1, 'disallowed character'],
    ['< a/>', 1, 'disallowed character in tag name'],
    ['<1a/>', 1, 'disallowed character in tag name'],
    ['<a><!-- x</a>', 1, 'unclosed tag'],
    ['<a><!-- x -- y --></a>', 1, 'malformed comment'],
    ['<?xml <a/>', 1, 'XML'],
    ['<a/><?xml version="1.0"?>', 1, 'XML declaration must be at the start'],
    ['<a><![CDATA[x</a>', 1, 'unclosed tag'],
    ['<a>x ]]> y</a>', 1, ']]>'],
    ['<a>&nbsp;</a>', 1, 'undefined entity'],
    ['<a>\n\n</a>&', 3, 'outside of root'],
    ['<a>1 & 2</a>', 1, 'Is there an "&" that should be &amp;?'],
    ['<a>1 & 2;</a>', 1, 'entity'],
    ['<a>&#0;</a>', 1, 'malformed character entity'],
    ['<a>&#x110000;</a>', 1, 'malformed character entity'],
    ['<a>&toString;</a>', 1, 'undefined entity'],
    ['<a>\u0007</a>', 1, 'disallowed character'],
    ['<a>\n\udc00</a>', 2, 'disallowed character'],
    ['<!DOCTYPE a [<!ENTITY b "c">]><a>&b;</a>', 1, 'Document types'],
  ])('names the fault and the line of %j', (text, line, words) => {
    const read = readXml(text);
    expect(read).toMatchObject({ ok: false, line });
    if (!read.ok) expect(read.what).toContain(words);
  });

  it('passes over a document type that defines nothing', () => {
    expect(root('<!DOCTYPE a SYSTEM "nowhere.dtd"><a>b</a>').text).toBe('b');
  });

  it('quotes no more of a name than a message can hold', () => {
    const read = readXml(`<${'a'.repeat(190)}>`);
    expect(read.ok ? '' : read.what.length).toBeLessThan(160);
  });

  it.each([
    ['elements nested deeper than 32', (n: number) => '<a>'.repeat(n) + '</a>'.repeat(n), 32],
    [
      'more than 60 attributes',
      (n: number) => `<a${Array.from({ length: n }, (_, i) => ` x${i}=""`).join('')}/>`,
      60,
    ],
    ['a name of more than 200 letters', (n: number) => `<${'a'.repeat(n)}/>`, 200],
    ['an attribute with such a name', (n: number) => `<a ${'a'.repeat(n)}=""/>`, 200],
  ])('refuses %s', (_what, textOf, most) => {
    expect(readXml(textOf(most)).ok).toBe(true);
    expect(readXml(textOf(most + 1)).ok).toBe(false);
    expect(readXml(textOf(100_000)).ok).toBe(false);
  });
});

describe('xmlText', () => {
  it('comes back from an element and an attribute as it went in, but for what XML cannot hold', () => {
    const text = 'a<b>&"c"\r\n\'d\' ü 🐟';
    expect(root(`<a>${xmlText(text)}</a>`).text).toBe(text);
    expect(root(`<a x="${xmlText(text)}"/>`).attributes['x']).toBe(text.replaceAll('\n', ' '));
    expect(xmlText('a\u0000\u001Bb\uD800')).toBe('ab');
  });
});
