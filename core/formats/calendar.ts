import { greatest, least } from '../numeric';
import { assert } from '../result';
import { FILE_READER, fileWords, wordsOf, type Reader } from '../words/reader';
import { SAFETY_LINE } from '../words/safety-line';
import { asPrinted, LEVELS_MEANING, levelWords, noStopFigure, pastLevelsText } from '../slate/levels';
import {
  joined,
  mixName,
  percentUp,
  po2Text,
  pressuresUp,
  depths,
  diveDepths,
  diveTime,
  words,
} from '../slate/figures';
import { momentAt, wallMin, wallText, type WallMin } from '../words/calendar';
import { moment, said } from '../words/said';
import type { Entry, Ledger } from '../ledger/ledger-types';
import { siteOf } from '../document/site-of';
import type { Dive, Site, Trip } from '../document/types';

/** A line may have so many octets, the line break apart. Source: RFC 5545, section 3.1. */
const LINE_OCTETS = 75;

/** Files are counted from here, in minutes: SEQUENCE is a whole number that grows. Source: RFC 5545, section 3.8.7.4. */
const COUNTED_FROM_MIN = wallMin('2020-01-01T00:00');

const STAMP = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:\.\d+)?Z$/;

/**
 * The dives of a trip as a calendar, and the moment from which flying is clear.
 * Times are the wall-clock times of the trip's place without a zone, as the plan has them: a calendar shows
 * them unchanged wherever it is opened. Identifiers hang on the id of the trip, so that a calendar that has it
 * already is brought up to date, whatever the trip is called by then; of a trip without one they hang on its title
 * and place. A file that is made later counts as the newer: its SEQUENCE is the minutes since 2020.
 * @param ledger of the whole party: a dive ends when its last diver surfaces
 * @param stampedAtUtc when the file is made, "2027-03-01T18:00:00Z"; core has no clock
 * @param reader whose units and clock the texts are in
 * @returns an iCalendar object, CRLF line ends, lines folded at 75 octets
 * Source: RFC 5545, Internet Calendaring and Scheduling (2009).
 */
export function writeCalendar(ledger: Ledger, stampedAtUtc: string, reader: Reader = FILE_READER): string {
  assert(STAMP.test(stampedAtUtc), 'a calendar is stamped in UTC, "2027-03-01T18:00:00Z"');
  const { trip } = ledger;
  const stamp = `${stampedAtUtc.slice(0, 19).replaceAll(/[-:]/g, '')}Z`;
  const key = hashText(trip.id === undefined ? `${trip.title}\n${trip.place}` : `trip ${trip.id}`);
  const sequence = wallMin(stampedAtUtc.slice(0, 16)) - COUNTED_FROM_MIN;
  assert(sequence >= 0, 'a calendar is stamped before calendars are counted');
  const event = (id: string, lines: readonly string[]): readonly string[] => [
    'BEGIN:VEVENT',
    `UID:${hashText(id)}-${key}@carryover.invalid`,
    `DTSTAMP:${stamp}`,
    `LAST-MODIFIED:${stamp}`,
    `SEQUENCE:${sequence}`,
    ...lines,
    'END:VEVENT',
  ];
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Carryover//Trip//EN',
    'CALSCALE:GREGORIAN',
    ...trip.dives.flatMap((dive, index) => {
      const entries = entriesOf(ledger, dive);
      return entries.length === 0
        ? []
        : event(`dive ${dive.id}`, diveLines(trip, dive, index + 1, entries, reader));
    }),
    ...flyingLines(ledger, reader).flatMap((flying) => event('flying', flying)),
    ...flightLines(trip, reader).flatMap((flight) => event('flight', flight)),
    'END:VCALENDAR',
  ];
  return lines.map((line) => `${folded(line)}\r\n`).join('');
}

/** Entries of a dive that are made, one for each diver on it. */
function entriesOf(ledger: Ledger, dive: Dive): readonly Entry[] {
  return ledger.divers.flatMap((diver) =>
    diver.entries.filter((entry) => entry.dive.id === dive.id && entry.isMade),
  );
}

function diveLines(
  trip: Trip,
  dive: Dive,
  number: number,
  entries: readonly Entry[],
  reader: Reader,
): readonly string[] {
  const site = siteOf(trip, dive);
  const startMin = least(entries.map((entry) => entry.startMin));
  const endMin = greatest(entries.map((entry) => entry.surfacesMin));
  const deepest = entries.reduce((held, entry) => (entry.depthM > held.depthM ? entry : held));
  return [
    `DTSTART:${dateTime(startMin)}`,
    `DTEND:${dateTime(endMin)}`,
    `SUMMARY:${escaped(`Dive ${number}: ${site?.name ?? 'no site'}, ${joined(diveDepths(deepest, reader.units))}`)}`,
    ...(site
      ? [`LOCATION:${escaped([site.name, trip.place].filter((text) => text !== '').join(', '))}`]
      : []),
    ...positionLines(site),
    `DESCRIPTION:${escaped([...entries.map((entry) => diverText(trip, entry, reader)), '', fileWords(SAFETY_LINE)].join('\n'))}`,
  ];
}

function positionLines(site: Site | undefined): readonly string[] {
  if (!site?.position) return [];
  return [`GEO:${site.position.lat.toFixed(6)};${site.position.lon.toFixed(6)}`];
}

/** One diver's plan on a line: what is briefed, no more. */
function diverText(trip: Trip, entry: Entry, { units }: Reader): string {
  const breathed = entry.loop === null ? entry.o2 && mixName(entry.o2) : 'on a loop';
  const mix = breathed === null ? [] : [`${breathed}, PO2 ${po2Text(entry.po2Bar)}`];
  const parts = [
    `${words(diveTime(entry))} bottom time`,
    ...mix,
    `MOD ${joined(depths(entry.modM, 'limit', units))}`,
    ...noStopTexts(trip, entry, units),
    `CNS ${percentUp(entry.cns.after)}`,
    ...(entry.gas.turnBar === null ? [] : [`turn at ${joined(pressuresUp(entry.gas.turnBar, units))}`]),
  ];
  return `${entry.diver.name}: ${parts.join(', ')}`;
}

/** The no-stop time, or the levels with theirs. */
function noStopTexts(trip: Trip, entry: Entry, units: Reader['units']): readonly string[] {
  const printed = asPrinted(trip, entry, units);
  const levels = levelWords(entry, printed, units);
  const past = pastLevelsText(entry, units);
  return [
    ...(levels === null
      ? [printed.unlimited ? 'no-stop time without limit' : `no-stop ${words(noStopFigure(printed))}`]
      : [`levels (${fileWords(LEVELS_MEANING)}) ${levels.join(', ')}`]),
    ...(past === null ? [] : [`past the no-stop limit at the end of the level at ${past}`]),
  ];
}

/** An event without length where the last diver is clear to fly. */
function flyingLines(ledger: Ledger, reader: Reader): readonly (readonly string[])[] {
  const moments = ledger.divers.flatMap((diver) => (diver.flyAfterMin === null ? [] : [diver.flyAfterMin]));
  if (moments.length === 0) return [];
  const clearMin = greatest(moments);
  const note =
    'By the hours of the published guideline, counted from the last dive of the plan. They are a floor: ' +
    'bubbles were found in flight even after 24 h, and a longer wait is safer.';
  return [
    [
      `DTSTART:${dateTime(clearMin)}`,
      `SUMMARY:${escaped(wordsOf(reader)(said`No flying before ${momentAt(clearMin)}`))}`,
      `DESCRIPTION:${escaped(`${note}\n\n${fileWords(SAFETY_LINE)}`)}`,
      'TRANSP:TRANSPARENT',
    ],
  ];
}

/** The flight home; how long it takes is not the trip's to say. */
function flightLines({ flight }: Trip, reader: Reader): readonly (readonly string[])[] {
  if (flight === null) return [];
  const says = said`The flight leaves ${moment(flight.at)}`;
  return [
    [
      `DTSTART:${dateTime(wallMin(flight.at))}`,
      `SUMMARY:${escaped(wordsOf(reader)(says))}`,
      'TRANSP:TRANSPARENT',
    ],
  ];
}

/** Local time without a zone, whole minutes: form 1 of section 3.3.5. */
function dateTime(min: WallMin): string {
  return `${wallText(min).replaceAll(/[-:]/g, '')}00`;
}

function escaped(text: string): string {
  return text
    .replaceAll(/[\\;,]/g, (mark) => `\\${mark}`)
    .replaceAll(/\r\n|\r|\n/g, '\\n')
    .replaceAll(/(?!\t)\p{Cc}/gu, '');
}

/** A long line on several, each but the first begun by a space; a letter is never cut in two. */
function folded(line: string): string {
  let octets = 0;
  let text = '';
  for (const letter of line) {
    const size = octetsOf(letter);
    if (octets + size > LINE_OCTETS) {
      text += '\r\n ';
      octets = 1;
    }
    text += letter;
    octets += size;
  }
  return text;
}

/** Octets of a letter in UTF-8. */
function octetsOf(letter: string): number {
  const code = letter.codePointAt(0)!;
  return code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
}

/**
 * A short name for a text, the same for the same text: ids and titles hold letters that an identifier of a
 * calendar had better not. Two hashes of 32 bit, so that trips by chance alike are not to be feared.
 * Source: G. Fowler, L. C. Noll, K.-P. Vo, the FNV-1a hash, with two starting values.
 */
function hashText(text: string): string {
  return [0x811c9dc5, 0x01234567]
    .map((start) => {
      let hash = start;
      for (let index = 0; index < text.length; index += 1) {
        hash = Math.imul(hash ^ text.charCodeAt(index), 0x01000193);
      }
      return (hash >>> 0).toString(16).padStart(8, '0');
    })
    .join('');
}
