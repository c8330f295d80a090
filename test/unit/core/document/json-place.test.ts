import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { doubledKey, jsonBreak, jsonBuild, keysOf } from '../../../../core/document/json-place';

function parses(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

describe('jsonBreak', () => {
  it.each([
    ['{"a": 1,}', 1, 9, '}'],
    ['{\n"a" 1}', 2, 5, '1'],
    ['[1 2]', 1, 4, '2'],
    ['{"a": "unended}', 1, 7, '"'],
    ['["tab\there"]', 1, 2, '"'],
    ['{a: 1}', 1, 2, 'a'],
    ["{'a': 1}", 1, 2, "'"],
    ['[01]', 1, 3, '1'],
    ['[.5]', 1, 2, '.5'],
    ['[+5]', 1, 2, '+5'],
    ['[undefined]', 1, 2, 'undefined'],
    ['[nullx]', 1, 2, 'nullx'],
    ['// a note\n{}', 1, 1, '/'],
    ['{"a": [1, {"b": 2]}', 1, 18, ']'],
  ])('finds where %s breaks', (text, line, column, found) => {
    expect(jsonBreak(text)).toEqual({ line, column, found });
  });

  it('agrees with the engine on every text', () => {
    // Made of the pieces of JSON, so that many texts are nearly right and some wholly.
    const pieces = fc.constantFrom(
      '{',
      '}',
      '[',
      ']',
      ',',
      ':',
      '"a"',
      '1',
      '-0.5e3',
      'true',
      'null',
      ' ',
      '\n',
      '"\\u00e9"',
      '"\\x"',
      '-',
      'NaN',
    );
    const texts = fc.oneof(
      fc.array(pieces, { maxLength: 9 }).map((parts) => parts.join('')),
      fc.json(),
      fc
        .tuple(fc.json(), fc.nat(), pieces)
        .map(
          ([text, at, piece]) =>
            text.slice(0, at % (text.length + 1)) + piece + text.slice(at % (text.length + 1)),
        ),
    );
    fc.assert(
      fc.property(texts, (text) => {
        expect(jsonBreak(text) === null).toBe(parses(text));
      }),
      { numRuns: 3000 },
    );
  });

  it('does not overflow on the deepest nesting', () => {
    expect(jsonBreak('['.repeat(1_000_000))).toMatchObject({ line: 1, column: 1_000_001, found: '' });
  });
});

describe('doubledKey', () => {
  it('finds a key that its object has already, however it is written', () => {
    expect(doubledKey('{"a": 1,\n "a": 2}')).toEqual({ key: 'a', place: { line: 2, column: 2, found: '"' } });
    expect(doubledKey('[{"x": {"b": [{"c": 1}], "c": 2, "\\u0062": 3}}]')?.key).toBe('b');
  });

  it('lets objects inside and beside each other have the same keys', () => {
    expect(doubledKey('{"a": {"a": [{"a": 1}, {"a": 2}]}, "b": {"a": "a"}}')).toBeNull();
  });
});

describe('jsonBuild', () => {
  it('counts open brackets outside of text', () => {
    expect(jsonBuild('1').deepest).toBe(0);
    expect(jsonBuild('{"a": [[1], {"b": "[[[[{"}]}').deepest).toBe(3);
    expect(jsonBuild('["\\"[[[", 1]').deepest).toBe(1);
    expect(jsonBuild('["\\\\", [1]]').deepest).toBe(2);
  });

  it('counts the keys that a text gives, of which objects have fewer where one stands twice', () => {
    const texts = ['{}', '{"a:": ":"}', '{"a": {"b": [{"c": 1}, {"c": 2}]}, "__proto__": {"d": "\\":"}}'];
    for (const text of texts) expect(keysOf(JSON.parse(text)).count).toBe(jsonBuild(text).keys);
    fc.assert(
      fc.property(fc.json(), (text) => {
        expect(keysOf(JSON.parse(text)).count === jsonBuild(text).keys).toBe(doubledKey(text) === null);
      }),
    );
    for (const text of ['{"a": 1, "a": 1}', '[{"a": {"b": 1, "\\u0062": 2}}]']) {
      expect(keysOf(JSON.parse(text)).count).toBeLessThan(jsonBuild(text).keys);
    }
  });
});
