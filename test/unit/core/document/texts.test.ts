import { describe, expect, it } from 'vitest';
import { readTrip } from '../../../../core/document/read-trip';
import { TEXT_RULES, textTrouble, type TextField } from '../../../../core/document/texts';
import { fileWords, worded } from '../../../../core/words/reader';
import { tenDives, type Loose } from '../../../support/trip-documents';

function what(field: TextField, value: unknown): string | null {
  const trouble = textTrouble(field, value);
  return trouble === null ? null : worded(trouble, fileWords).what;
}

const FIELDS = Object.keys(TEXT_RULES) as TextField[];
const ONE_LINE = FIELDS.filter((field) => !TEXT_RULES[field].hasLines);

describe('textTrouble', () => {
  it('counts letters and asks for one where it must', () => {
    expect(what('name', 'Guest')).toBeNull();
    expect(what('notes', '')).toBeNull();
    expect(what('name', '')).toBe('Name is empty.');
    expect(what('name', ' \u00a0')).toBe('Name is empty.');
    expect(what('name', 'x'.repeat(80))).toBeNull();
    expect(what('name', 'x'.repeat(81))).toBe('Name has 81 characters; it can have 80.');
    expect(what('name', 7)).toBe('Name is 7, not text.');
    expect(what('name', undefined)).toBe('Name is missing.');
  });

  it.each(['\u001b[2J', 'a\u0000', 'a\u007f', 'a\u009b31m', 'a\u202eb', 'a\ud800', '\udc00b'])(
    'refuses %j in every text, notes too',
    (text) => {
      for (const field of FIELDS) expect(what(field, text)).toMatch(/sign in it that cannot be shown \(U\+/);
    },
  );

  it('takes line breaks and tabs in notes, and nowhere else', () => {
    for (const text of ['a\nb', 'a\r\nb', 'a\u2028b', 'a\tb']) {
      for (const field of ONE_LINE) expect(what(field, text)).not.toBeNull();
    }
    expect(what('name', 'a\nb')).toBe('Name has a line break in it.');
    expect(what('notes', 'a\nb\r\n\tc')).toBeNull();
    expect(what('siteNotes', 'a\nb\r\n\tc')).toBeNull();
  });

  it('takes no name of which nothing can be seen', () => {
    for (const text of ['\u200b', '\u2060\ufeff', '\u200d \u200c', '\u3164', '\u115f', '\u2800', '\u0301']) {
      expect(what('name', text)).toBe('Name has nothing in it that can be seen.');
      expect(what('place', text)).toBeNull();
    }
  });

  it('takes the letters of every script, and joined signs', () => {
    for (const text of ['Łódź', 'e\u0301', 'نور', 'मूँगा', '珊瑚', '👩‍🚒', 'Ö 2 – “Nord”', 'א\u200f1'])
      expect(what('name', text)).toBeNull();
  });
});

describe('readTrip', () => {
  it.each<[string, (trip: Loose) => void]>([
    ['title', (trip) => (trip.title = 'A\u001b[2J')],
    ['party[0].name', (trip) => (trip.party[0].name = '\u009b2J')],
    ['sites[0].name', (trip) => (trip.sites[0].name = '\u200b')],
    ['mixes[0].id', (trip) => (trip.mixes[0].id = 'm\u0007')],
    ['dives[0].id', (trip) => (trip.dives[0].id = 'd\ud800')],
    ['dives[0].siteId', (trip) => (trip.dives[0].siteId = '\u001bc')],
    ['dives[0].mix', (trip) => (trip.dives[0].mix = '\u001bc')],
    ['currency', (trip) => (trip.currency = '€\n')],
    ['currency', (trip) => (trip.currency = 'Ducats of gold')],
    ['place', (trip) => (trip.place = 'Bay\n')],
    ['notes', (trip) => (trip.notes = 'Bay\u0000')],
  ])('refuses signs that cannot be shown in %s', (where, spoil) => {
    const trip = tenDives();
    spoil(trip);
    const read = readTrip(JSON.stringify(trip));
    expect(read.ok ? [] : read.troubles.map((trouble) => trouble.where.split(' ')[0])).toContain(where);
  });
});
