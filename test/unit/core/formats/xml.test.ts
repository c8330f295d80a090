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
    ['', 1, 'no element'],
    ['text', 1, 'outside'],
    ['<a>\n<b>\n</a>', 3, '</a> closes nothing'],
    ['<a>\n', 2, '<a> is not closed'],
    ['<a/>\n<b/>', 2, 'second element'],
    ['<a/>\n<b></b>', 2, 'second element'],
    ['<a/>tail', 1, 'outside'],
    ['<a/><![CDATA[x]]>', 1, 'outside'],
    ['</a>', 1, 'closes nothing'],
    ['<a x></a>', 1, 'no value'],
    ['<a x=1></a>', 1, 'quotation marks'],
    ['<a x="1></a>', 1, 'not closed'],
    ['<a', 1, 'not closed'],
    ['<a></a', 1, 'not closed'],
    ['< a/>', 1, 'does not begin an element'],
    ['<a><!-- x</a>', 1, 'comment'],
    ['<?xml <a/>', 1, 'processing instruction'],
    ['<a><![CDATA[x</a>', 1, 'plain text'],
    ['<!DOCTYPE a><a/>', 1, 'Document types'],
    ['<a>&nbsp;</a>', 1, '&nbsp;'],
    ['<a>\n\n</a>&', 3, 'outside'],
    ['<a>1 & 2</a>', 1, '&amp;'],
    ['<a>&#0;</a>', 1, '&#0;'],
    ['<a>&#x110000;</a>', 1, '&#x110000;'],
    ['<a>&toString;</a>', 1, '&toString;'],
  ])('names the fault and the line of %j', (text, line, words) => {
    const read = readXml(text);
    expect(read).toMatchObject({ ok: false, line });
    if (!read.ok) expect(read.what).toContain(words);
  });

  it('quotes no more of a name than a message can hold', () => {
    const read = readXml(`<${'a'.repeat(5000)}>`);
    expect(read.ok ? '' : read.what).toHaveLength(163);
  });

  it('refuses elements nested beyond any use, and does not overflow on them', () => {
    expect(readXml('<a>'.repeat(100) + '</a>'.repeat(100)).ok).toBe(true);
    expect(readXml('<a>'.repeat(101) + '</a>'.repeat(101))).toMatchObject({ ok: false });
    expect(readXml('<a>'.repeat(200_000))).toMatchObject({ ok: false });
  });
});

describe('xmlText', () => {
  it('comes back from an element and an attribute as it went in, but for what XML cannot hold', () => {
    const text = 'a<b>&"c"\r\n\'d\' ü 🐟';
    expect(root(`<a>${xmlText(text)}</a>`).text).toBe(text);
    expect(root(`<a x="${xmlText(text)}"/>`).attributes['x']).toBe(text);
    expect(xmlText('a\u0000\u001Bb\uD800')).toBe('ab');
  });
});
