/** Writing the dives of one diver as UDDF, the Universal Dive Data Format. */
import { setpointBar, type LoopBreathing } from '../../breathing';
import { assert } from '../../result';
import { effectiveDive, makesDive, missedDive } from '../../document/as-dived';
import { loopOn } from '../../document/loops';
import type { Diver, Dive, Id, Site, Trip } from '../../document/types';
import { bailOutSaid } from '../../ledger/loop-said';
import { divePlan } from '../../ledger/dive-plan';
import type { Entry, Ledger } from '../../ledger/ledger-types';
import { surroundingsAt, waterOf } from '../../document/waters';
import type { Leg } from '../../profile';
import { cutAtDepths } from '../../tissues/breathed-legs';
import { DENSITIES_KG_M3 } from '../../water';
import { wallDate, wallMin, wallText } from '../../words/calendar';
import { fileWords } from '../../words/reader';
import { mixSaid } from '../../words/terms';
import { decimalText } from '../delimited';
import { xmlText } from '../xml';

const NAMESPACE = 'http://www.streit.cc/uddf/3.2/';
const PASCAL_PER_BAR = 100_000;
const SECONDS = 60;
const M3_PER_L = 0.001;

const STAMP = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:\.\d+)?Z$/;

/** Which dives go into the file. */
export type UddfDives = 'all' | 'dived';

export interface UddfWriting {
  readonly text: string;
  /** What could not go into the file, or has to be known of it, as sentences. */
  readonly remarks: readonly string[];
}

/**
 * An id as XML can have it, lasting as long as the trip's own: letters, digits and "-" as they are, anything else by its
 * code. Two different ids stay different.
 * @param prefix the kind of thing, so that ids of several kinds do not meet
 */
export function xmlId(prefix: string, id: Id): string {
  const safe = id.replaceAll(/[^A-Za-z0-9-]/gu, (letter) => `_${letter.codePointAt(0)!.toString(16)}_`);
  return `${prefix}-${safe}`;
}

type Lines = string[];

function element(name: string, text: string): string {
  return `<${name}>${xmlText(text)}</${name}>`;
}

/** A figure without the dust of binary fractions. */
function plain(value: number, decimals = 6): string {
  return decimalText(Number(value.toFixed(decimals)));
}

function personal({ name }: Diver): string {
  return `<personal>${element('firstname', name)}<lastname/></personal>`;
}

function para(texts: readonly string[]): readonly string[] {
  const said = texts.filter((text) => text.trim() !== '');
  return said.length === 0 ? [] : [`<notes>${said.map((text) => element('para', text)).join('')}</notes>`];
}

function siteLines(site: Site, trip: Trip): Lines {
  const place = site.position
    ? `${element('latitude', plain(site.position.lat))}${element('longitude', plain(site.position.lon))}`
    : '';
  const { density, altitudeM } = waterOf(site, trip.water);
  const altitude = altitudeM > 0 ? element('altitude', plain(altitudeM)) : '';
  const location = trip.place === '' ? trip.title : trip.place;
  return [
    `    <site id="${xmlId('site', site.id)}">`,
    `      ${element('name', site.name)}`,
    `      <geography>${element('location', location)}${place}${altitude}</geography>`,
    `      <sitedata>${element('density', plain(typeof density === 'number' ? density : DENSITIES_KG_M3[density]))}${element('maximumdepth', plain(site.depthM))}</sitedata>`,
    ...para([site.notes, site.briefing ?? '']).map((notes) => `      ${notes}`),
    '    </site>',
  ];
}

/** A mix is known by what is breathed: label and analysis may differ from dive to dive. */
function mixId(o2: number): string {
  return xmlId('mix', plain(100 * o2));
}

function mixLines(o2: number, diver: Diver): Lines {
  return [
    `    <mix id="${mixId(o2)}">`,
    `      ${element('name', fileWords(mixSaid(o2)))}`,
    `      ${element('o2', plain(o2))}${element('n2', plain(1 - o2))}`,
    `      ${element('maximumpo2', plain(diver.po2.working * PASCAL_PER_BAR, 0))}`,
    '    </mix>',
  ];
}

/** What is breathed along a profile: a mix, or a loop at its setpoints on a diluent. */
interface Breathed {
  readonly o2: number;
  readonly loop: LoopBreathing | null;
}

function breathedOf({ loop, o2 }: Entry): Breathed {
  return loop === null ? { o2: o2!, loop: null } : { o2: loop.breathing.diluentO2, loop: loop.breathing };
}

/** The setpoint from a waypoint on: the user sets it, by the depth of the middle of the leg that follows. */
function setpoint(loop: LoopBreathing | null, next: Leg | undefined): string {
  if (loop === null || next === undefined) return '';
  const bar = setpointBar(loop, (next.fromM + next.toM) / 2);
  return `<setpo2 setby="user">${plain(bar * PASCAL_PER_BAR, 0)}</setpo2>`;
}

/** Legs with a corner where the setpoint switches. */
function cornered(legs: readonly Leg[], loop: LoopBreathing | null): readonly Leg[] {
  return loop === null ? legs : legs.flatMap((leg) => cutAtDepths(leg, [loop.switchM]));
}

/** Whole seconds, and each later than the one before: a corner that is passed in less is the next one's. */
function waypoints(made: readonly Leg[], { o2, loop }: Breathed): Lines {
  const legs = cornered(made, loop);
  const mode = loop === null ? 'opencircuit' : 'closedcircuit';
  const first = `${setpoint(loop, legs[0])}<switchmix ref="${mixId(o2)}"/><divemode type="${mode}"/>`;
  const lines: Lines = [waypoint(legs[0]!.fromM, 0, first, stopMark(legs[0]))];
  let min = 0;
  let last = 0;
  legs.forEach((leg, at) => {
    min += leg.min;
    const second = Math.round(min * SECONDS);
    const isEnd = at === legs.length - 1;
    if (second <= last && !isEnd) return;
    last = Math.max(second, last + 1);
    const next = setpoint(loop, legs[at + 1]);
    lines.push(waypoint(leg.toM, last, next === setpoint(loop, leg) ? '' : next, stopMark(legs[at + 1])));
  });
  return lines;
}

function stopMark(next: Leg | undefined): string {
  if (next?.kind !== 'stop') return '';
  return `<decostop kind="safety" decodepth="${plain(next.toM)}" duration="${Math.round(next.min * SECONDS)}"/>`;
}

function waypoint(depthM: number, second: number, after: string, before: string): string {
  return `<waypoint>${before}${element('depth', plain(depthM))}${element('divetime', String(second))}${after}</waypoint>`;
}

function indented(by: string, lines: readonly string[]): Lines {
  return lines.map((line) => by + line);
}

/** What is said of how far the dive is, in words: UDDF has no other place for it. */
function stateOf({ isAsDived, isAsPlanned }: Entry, isRecorded: boolean): string {
  if (!isAsDived) return 'planned, not dived yet';
  if (isRecorded) return 'dived, with its recorded profile';
  if (isAsPlanned) return 'dived as planned; the profile is the planned one, none was recorded';
  return 'dived; the profile is taken as square at the deepest point, none was recorded';
}

/** What UDDF has no place for. */
function loopNote({ loop }: Entry): string {
  return loop === null ? '' : `Bail-out, by the plan: ${fileWords(bailOutSaid(loop))}.`;
}

function diveLines(trip: Trip, entry: Entry, number: number): Lines {
  const { dive, diver } = entry;
  const around = surroundingsAt(trip, dive);
  const effective = effectiveDive(dive, diver);
  const breathed = breathedOf(entry);
  const planned = divePlan(dive, around).legs;
  const buddies = trip.party.filter(({ id }) => id !== diver.id && makesDive(dive, id));
  const interval =
    entry.intervalMin === null
      ? '<infinity/>'
      : element('passedtime', String(Math.max(0, Math.floor(entry.intervalMin * SECONDS))));
  const gear = loopOn(dive, diver)?.gear;
  const { waterL, fillBar } = gear?.diluentCylinder ?? diver.cylinder;
  const end = entry.gas.isEndRead
    ? element('tankpressureend', plain(entry.gas.endBar! * PASCAL_PER_BAR, 0))
    : '';
  const profile = entry.isAsDived
    ? ['        <samples>', ...indented('          ', waypoints(entry.legs, breathed)), '        </samples>']
    : [];
  const lengthMin = entry.surfacesMin - entry.startMin;
  const isRecorded = effective.shape.samples !== undefined;
  return [
    `      <dive id="${xmlId('dive', dive.id)}">`,
    '        <informationbeforedive>',
    `          <link ref="${xmlId('site', dive.siteId)}"/>`,
    ...buddies.map(({ id }) => `          <link ref="${xmlId('diver', id)}"/>`),
    `          ${element('divenumber', String(number))}`,
    `          ${element('datetime', `${startText(entry.startMin)}:00`)}`,
    `          <surfaceintervalbeforedive>${interval}</surfaceintervalbeforedive>`,
    '          <plannedprofile>',
    ...indented('            ', waypoints(planned, breathed)),
    '          </plannedprofile>',
    '        </informationbeforedive>',
    '        <tankdata>',
    `          <link ref="${mixId(breathed.o2)}"/>`,
    `          ${element('tankvolume', plain(waterL * M3_PER_L))}${element('tankpressurebegin', plain(fillBar * PASCAL_PER_BAR, 0))}${end}`,
    '        </tankdata>',
    ...profile,
    '        <informationafterdive>',
    ...para([stateOf(entry, isRecorded), loopNote(entry), dive.notes ?? '']).map(
      (notes) => `          ${notes}`,
    ),
    `          ${element('greatestdepth', plain(entry.depthM))}${element('diveduration', String(Math.ceil(lengthMin * SECONDS - 1e-6)))}`,
    '        </informationafterdive>',
    '      </dive>',
  ];
}

/** A start in whole minutes is no later than it is: what is read back is the same minute. */
function startText(min: number): string {
  return wallText(Math.floor(min + 1e-9));
}

function several(count: number, one: string, many: string): string {
  return count === 1 ? one : `${count} ${many}`;
}

function remarksOf(
  ledger: Ledger,
  diver: Diver,
  entries: readonly Entry[],
  dives: UddfDives,
): readonly string[] {
  const mine = ledger.divers.find((each) => each.diver.id === diver.id)!;
  const unknown = mine.entries.filter(({ isMade }) => !isMade).length;
  const missed = ledger.trip.dives.filter((dive) => missedDive(dive, diver.id) !== null).length;
  const ahead = entries.filter(({ isAsDived }) => !isAsDived).length;
  return [
    ...(unknown === 0
      ? []
      : [
          `Without a mix that can be used there, and so not in the file: ${several(unknown, '1 dive', 'dives')}.`,
        ]),
    ...(missed === 0 || dives === 'dived'
      ? []
      : [`Not dived, and so not in the file: ${several(missed, '1 dive', 'dives')}.`]),
    ...(ahead === 0
      ? []
      : [
          `${several(ahead, '1 dive is', 'dives are')} planned, not dived: programs that do not read planned profiles may take ${ahead === 1 ? 'it' : 'them'} for dived.`,
        ]),
  ];
}

/**
 * The dives of one diver as a UDDF file: the diver as owner and the others as buddies, sites, mixes as they were
 * breathed, and one repetition group for the trip. Every dive has its planned profile; one that was dived has samples
 * too, as the ledger reckons them.
 * @param ledger of the whole party @param diverId whose dives
 * @param stampedAtUtc when the file is made, "2027-03-01T18:00:00Z"; core has no clock
 * @param dives all of the trip's, or only those dived
 * @returns UTF-8 text, valid by the published schema 3.2.2 and by uddf-subset.xsd beside this file; times are those of
 *   the trip's place, without a zone
 * Source: UDDF 3.2, documentation and schema 3.2.2 at streit.cc.
 */
export function writeUddf(
  ledger: Ledger,
  diverId: Id,
  stampedAtUtc: string,
  dives: UddfDives = 'all',
): UddfWriting {
  assert(STAMP.test(stampedAtUtc), 'a UDDF file is stamped in UTC, "2027-03-01T18:00:00Z"');
  const { trip } = ledger;
  const mine = ledger.divers.find(({ diver }) => diver.id === diverId);
  assert(mine !== undefined, `there is no diver "${diverId}"`);
  const { diver } = mine;
  const made = mine.entries.filter((entry) => entry.isMade && (dives === 'all' || entry.isAsDived));
  const mixes = [...new Set(made.map((entry) => plain(breathedOf(entry).o2)))].map(Number);
  const usedSites = new Set(made.map(({ dive }) => dive.siteId));
  const sites = trip.sites.filter(({ id }) => usedSites.has(id));
  const numberOf = (dive: Dive): number => trip.dives.findIndex(({ id }) => id === dive.id) + 1;
  const lines = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<uddf xmlns="${NAMESPACE}" version="3.2.2">`,
    '  <generator>',
    `    ${element('name', 'Carryover')}${element('datetime', stampedAtUtc)}`,
    '  </generator>',
    '  <diver>',
    `    <owner id="${xmlId('diver', diver.id)}">${personal(diver)}</owner>`,
    ...trip.party
      .filter(({ id }) => id !== diver.id)
      .map((buddy) => `    <buddy id="${xmlId('diver', buddy.id)}">${personal(buddy)}</buddy>`),
    '  </diver>',
    ...(sites.length === 0
      ? []
      : ['  <divesite>', ...sites.flatMap((site) => siteLines(site, trip)), '  </divesite>']),
    ...(mixes.length === 0
      ? []
      : ['  <gasdefinitions>', ...mixes.flatMap((o2) => mixLines(o2, diver)), '  </gasdefinitions>']),
    ...(made.length === 0
      ? []
      : [
          '  <profiledata>',
          `    <repetitiongroup id="${groupId(trip, made[0]!)}">`,
          ...made.flatMap((entry) => diveLines(trip, entry, numberOf(entry.dive))),
          '    </repetitiongroup>',
          '  </profiledata>',
        ]),
    '</uddf>',
    '',
  ];
  return { text: lines.join('\n'), remarks: remarksOf(ledger, diver, made, dives) };
}

/** A trip has no id of its own: its dives belong together by the day of the first. */
function groupId(trip: Trip, first: Entry): string {
  const [dive = first.dive] = trip.dives;
  return xmlId('trip', wallDate(wallMin(dive.startsAt)));
}
