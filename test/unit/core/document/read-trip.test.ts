import { describe, expect, it } from 'vitest';
import { LARGEST_FILE, readTrip } from '../../../../core/document/read-trip';
import { fixture, fixtureText, tenDives } from '../../../support/trip-documents';

function read(document: unknown) {
  return readTrip(JSON.stringify(document));
}

function troublesOf(text: string) {
  const result = readTrip(text);
  return result.ok ? [] : result.troubles;
}

describe('readTrip, defaults', () => {
  it('fills in what the format gives defaults for, and nothing else', () => {
    const result = readTrip(fixtureText('v1-minimal'));
    if (!result.ok) throw new Error(JSON.stringify(result.troubles));
    const trip = result.value;
    expect(trip.place).toBe('');
    expect(trip.notes).toBe('');
    expect(trip.water).toEqual({ density: 'gauge', altitudeM: 0 });
    expect(trip.settings).toEqual({
      descentMPerMin: 18,
      ascentMPerMin: 9,
      gasLaw: 'ideal',
      analysisTolerance: 0,
    });
    expect(trip.flight).toBeNull();
    expect(trip.party[0]).toMatchObject({
      maxO2: 0.4,
      po2: { working: 1.4, contingency: 1.6 },
      gradient: { low: 0.5, high: 0.8 },
    });
    expect(trip.sites[0]!.notes).toBe('');
    expect(trip.mixes[0]!.costPerFill).toBe(0);
    expect(Object.keys(trip.dives[0]!)).not.toContain('safetyStop');
  });

  it('fills one half of a pair of limits where the other is given', () => {
    const document = fixture('v1-minimal');
    document.party[0].gradient = { high: 0.7 };
    document.party[0].po2 = { working: 1.3 };
    const result = read(document);
    expect(result.ok && result.value.party[0]).toMatchObject({
      gradient: { low: 0.5, high: 0.7 },
      po2: { working: 1.3, contingency: 1.6 },
    });
  });

  it('takes depth and bottom time from the levels where they are left out', () => {
    const result = readTrip(fixtureText('v1-minimal'));
    expect(result.ok && result.value.dives[0]).toMatchObject({ depthM: 15, bottomMin: 35 });
  });

  it('needs no mix of an earlier dive whose oxygen is given', () => {
    const document = fixture('v1-full');
    delete document.party[0].before[0].mix;
    expect(read(document).ok).toBe(true);
    delete document.party[0].before[0].o2;
    expect(troublesOf(JSON.stringify(document)).map(({ where }) => where)).toEqual([
      'party[0].before[0].mix (diver "guide", earlier dive "b1")',
    ]);
  });

  it('passes over a byte-order mark', () => {
    expect(readTrip(`\uFEFF${fixtureText('v1-minimal')}`).ok).toBe(true);
  });

  it('opens a trip that has no dives yet', () => {
    expect(read({ ...tenDives(), dives: [] }).ok).toBe(true);
  });
});

describe('readTrip, files that are no trips of this version', () => {
  const cases: readonly [string, string, string, RegExp, string][] = [
    ['nothing', '', 'not-json', /is empty/, ''],
    ['blanks', ' \n ', 'not-json', /is empty/, ''],
    ['half a file', '{"format": "carryover/trip",', 'not-json', /ends too early/, 'line 1, column 29'],
    ['a comma too many', '{\n  "a": [1, 2,]\n}', 'not-json', /"\]" does not belong/, 'line 2, column 14'],
    ['NaN', '{"version": NaN}', 'not-json', /"NaN" does not belong/, 'line 1, column 13'],
    ['-Infinity', '{"version": -Infinity}', 'not-json', /"-Infinity" does not/, 'line 1, column 13'],
    ['prose', 'Dear diver', 'not-json', /"Dear" does not belong/, 'line 1, column 1'],
    ['two documents', '{} {}', 'not-json', /"\{" does not belong/, 'line 1, column 4'],
    ['a list', '[1]', 'not-a-trip', /not a trip/, 'format'],
    ['null', 'null', 'not-a-trip', /not a trip/, 'format'],
    ['another format', '{"format": "other"}', 'not-a-trip', /not a trip/, 'format'],
    ['our own ledger', '{"format": "carryover/ledger"}', 'not-a-trip', /is a ledger/, 'format'],
    [
      'a newer version',
      '{"format": "carryover/trip", "version": 4}',
      'newer-version',
      /version 4;/,
      'version',
    ],
    ['no version', '{"format": "carryover/trip"}', 'invalid', /Version is missing/, 'version'],
    [
      'half a version',
      '{"format": "carryover/trip", "version": 1.5}',
      'invalid',
      /Version is 1\.5/,
      'version',
    ],
    ['version 0', '{"format": "carryover/trip", "version": 0}', 'invalid', /Version is 0/, 'version'],
    ['version as text', '{"format": "carryover/trip", "version": "1"}', 'invalid', /the text "1"/, 'version'],
  ];
  it.each(cases)('says of %s what it is', (_, text, kind, what, where) => {
    const troubles = troublesOf(text);
    expect(troubles).toHaveLength(1);
    expect(troubles[0].kind).toBe(kind);
    expect(troubles[0].what).toMatch(what);
    expect(troubles[0].where).toBe(where);
    expect(troubles[0].mend).not.toBe('');
  });

  it('refuses a file by its size before it parses it', () => {
    const [trouble] = troublesOf(' '.repeat(LARGEST_FILE + 1));
    expect(trouble).toMatchObject({ kind: 'too-large', what: 'The file has 5.1 MB; a trip can have 5 MB.' });
  });

  it('refuses a key that stands twice, of which an engine would take the last without a word', () => {
    const text = fixtureText('v1-minimal').replace('"depthM": 15,', '"depthM": 15,\n "depthM": 25,');
    expect(troublesOf(text)).toMatchObject([
      { kind: 'invalid', what: expect.stringContaining('"depthM" stands twice') },
    ]);
  });

  it('refuses nesting that could be read but not written', () => {
    const deep = `${'['.repeat(50_000)}${']'.repeat(50_000)}`;
    const text = fixtureText('v1-minimal').replace('{', `{"extra": ${deep},`);
    expect(troublesOf(text)).toMatchObject([
      { kind: 'invalid', what: 'Brackets are nested deeper than 100.' },
    ]);
  });
});
