import {
  dayOf,
  figure,
  listed,
  moment,
  NOTHING,
  range,
  said,
  timeOfDay,
  type Figure,
  type Said,
} from '../words/said';
import { someSaid } from '../words/terms';
import { HOURS_BEFORE_FLIGHT } from '../ledger/flying';
import { SHORTEST_MIN, type DraftDay, type TooSoon } from './starting-days';
import { ROOM_LEFT_MIN, WANTED_MIN, type Held, type Limit } from './starting-dive';
import type { DepthSteps } from './starting-steps';
import type { Dive, Diver, Site } from '../document/types';
import type { WallTime } from '../words/calendar';

/** A dive that was laid out and what holds it, for the reasons. */
export interface LaidDive {
  readonly dive: Dive;
  readonly timeHeld: Held | null;
  /** null at the depth of its site. */
  readonly depthHeld: DepthHeld | null;
}

/** A dive that was not laid out, and why. */
export interface LeftOut {
  readonly startsAt: WallTime;
  readonly reason: Said;
}

const HOURS = HOURS_BEFORE_FLIGHT.severalDivesOrDays;

function depth(depthM: number): Figure {
  return figure('depthSet', depthM);
}

function minutes(min: number): Figure {
  return figure('minutesTyped', min);
}

/** " of Guest 1 and Guest 2"; nobody is named where it is everybody. */
function whom(word: 'of' | 'for' | 'by', divers: readonly Diver[], partySize: number): Said {
  if (divers.length === 0 || divers.length === partySize) return NOTHING;
  const names = someSaid(divers.map(({ name }) => name));
  return word === 'of' ? said` of ${names}` : word === 'for' ? said` for ${names}` : said` by ${names}`;
}

const NAMES: Readonly<Record<Limit, Said>> = {
  'no-stop': said`the no-stop limit`,
  gas: said`the gas`,
  cns: said`the oxygen clock (CNS)`,
  'cns-day': said`the oxygen of 24 hours (CNS)`,
  otu: said`the oxygen of the day (OTU)`,
  esot: said`the oxygen advised a day for the lungs (ESOT)`,
  density: said`the density of the gas`,
  mix: said`the oxygen of the mixes on board`,
  altitude: said`the time since coming up to the altitude`,
  interval: said`the hour at the surface after the dive before`,
  order: said`the depth of the dive before`,
  flight: said`the ${HOURS} h before the flight`,
  'flight-view': said`the wait before the flight by the government table or the model`,
  'next-dive': said`the hour at the surface before the next dive`,
  locked: said`the locked dive after it`,
  way: said`the way down`,
};

function limitOf({ by, divers }: Held, partySize: number): Said {
  return said`${NAMES[by]}${whom(by === 'mix' || by === 'density' ? 'for' : 'of', divers, partySize)}`;
}

/** Why a dive will not do at a depth. @param underMin what is too little there */
function because(held: Held, partySize: number, underMin: number): Said {
  const { by, divers } = held;
  if (by === 'mix') return said`no mix on board may be breathed${whom('by', divers, partySize)}`;
  if (by === 'density') return said`the gas is too dense${whom('for', divers, partySize)}`;
  return said`${limitOf(held, partySize)} leaves less than ${minutes(underMin)}`;
}

/** What keeps a dive above its site's depth. */
export type DepthHeld =
  | { readonly kind: 'limit'; readonly held: Held & { readonly underMin: number } }
  | { readonly kind: 'own limit'; readonly divers: readonly Diver[]; readonly depthM: number }
  /** Each dive of a day is less deep than the one before, and a night dive than a dive by day. */
  | { readonly kind: 'order' | 'night' };

/** Why no dive was found, where something was tried. @param depthM the shallowest that was tried */
export function whyNone(held: Held, depthM: number, wishedM: number, partySize: number): Said {
  if (held.by === 'flight') return said`less than ${HOURS} h would be left before the flight`;
  if (held.by === 'next-dive') {
    return said`${minutes(SHORTEST_MIN)} and an hour at the surface do not fit before the next dive`;
  }
  return said`${depthM < wishedM ? said`even at ${depth(depthM)}` : said`at ${depth(depthM)}`}, ${because(held, partySize, SHORTEST_MIN)}`;
}

/** A time of day that is not used: it follows another too soon. */
export function tooSoonSentence({ time, after }: TooSoon): Said {
  return said`There are no dives at ${timeOfDay(time)}: too soon after ${timeOfDay(after)} for ${minutes(SHORTEST_MIN)} of diving and an hour at the surface.`;
}

/** The site is for nobody of the party. */
export const NOBODY_MAY = said`the site is for nobody of the party`;

/** No mix on board is one that these divers may breathe at all. */
export function noMixFor(divers: readonly Diver[], partySize: number): Said {
  return because({ by: 'mix', divers }, partySize, SHORTEST_MIN);
}

/** What was asked for, as far as the first sentences tell it. */
export interface Asked {
  readonly days: readonly DraftDay[];
  readonly sites: readonly Site[];
  readonly mixes: number;
  readonly flight: WallTime | null;
  readonly longestMin: number;
  readonly rising: boolean;
  readonly steps: DepthSteps;
}

/** Which days there are to dive on, and which are for rest. */
export function daysSentence(asked: {
  readonly dates: readonly string[];
  readonly rests: readonly string[];
  readonly nights: number;
}): Said {
  const { dates, rests, nights } = asked;
  const [first, last] = [dayOf(dates[0]!), dayOf(dates.at(-1)!)];
  const free = nights >= 2 ? said`; the days of arrival and departure are left free` : NOTHING;
  const rested = rests.length === 0 ? NOTHING : said`, ${listed(rests.map((date) => dayOf(date)))} for rest`;
  return dates.length === 1
    ? said`There is one day for diving, ${first}${free}.`
    : said`There are ${dates.length} days for diving, ${first} to ${last}${rested}${free}.`;
}

function orderSentences({ days, sites, steps }: Asked): readonly Said[] {
  const most = Math.max(...days.map(({ slots }) => slots.length));
  const sentences: Said[] = [];
  if (most > 1) {
    sentences.push(
      said`Each day begins with its deepest dive; each one after it is at least ${depth(steps.lessM)} less deep, or no deeper than ${depth(steps.endsM)}.`,
    );
  }
  if (days.some(({ isEasy }) => isEasy)) {
    sentences.push(said`The first and the last day have one dive less and leave out the deepest sites.`);
  }
  if (sites.length > most && days.length > 1) {
    sentences.push(said`Sites of like depth take turns from day to day.`);
  }
  if (days.some(({ slots }) => slots.some(({ isNight }) => isNight))) {
    sentences.push(
      said`A night dive goes to a site dived that day where one is shallow enough, and no deeper than ${depth(steps.nightM)}.`,
    );
  }
  return sentences;
}

function timeSentences({ sites, rising, longestMin }: Asked): readonly Said[] {
  const wantedMin = Math.min(WANTED_MIN, longestMin);
  const sentences = [
    wantedMin < longestMin
      ? said`Dives last ${range('minutes', wantedMin, longestMin)} where they can, and end at least ${minutes(ROOM_LEFT_MIN)} before anybody meets a limit of no-stop time, gas or oxygen.`
      : said`Dives last ${minutes(longestMin)} where they can, and end at least ${minutes(ROOM_LEFT_MIN)} before anybody meets a limit of no-stop time, gas or oxygen.`,
    said`A dive that would be much shorter goes less deep instead; none is shorter than ${minutes(Math.min(SHORTEST_MIN, longestMin))}.`,
  ];
  const isLevelled = sites.some(({ levels }) => levels !== undefined && levels.length > 0);
  if (isLevelled) sentences.push(said`Sites with levels are dived by them.`);
  if (sites.some(({ levels }) => levels === undefined || levels.length === 0)) {
    const where = isLevelled ? said`The others` : said`Sites without levels`;
    sentences.push(
      rising
        ? said`${where} are taken to rise: a third of the time at the depth, a third at two thirds of it, a third at one third.`
        : said`${where} are dived at one depth.`,
    );
  }
  return sentences;
}

/** The rules that the dives were drafted by. */
export function ruleSentences(asked: Asked): readonly Said[] {
  const sentences = [
    ...orderSentences(asked),
    ...timeSentences(asked),
    asked.mixes === 1
      ? said`Everybody breathes the one mix on board.`
      : said`Each diver breathes the richest mix on board that can be used at the depth.`,
  ];
  if (asked.flight === null) return sentences;
  return [
    ...sentences,
    said`Every dive ends at least ${HOURS} h before the flight on ${moment(asked.flight)}.`,
  ];
}

function counted(count: number, total: number): Said {
  if (count < total) return said`${count} of ${total} dives`;
  return total === 1 ? said`The dive` : total === 2 ? said`Both dives` : said`All ${total} dives`;
}

function be(count: number): Said {
  return count === 1 ? said`is` : said`are`;
}

/** How many dives are as long as asked, and what limits the others. */
export function lengthSentence(laid: readonly LaidDive[], partySize: number): readonly Said[] {
  if (laid.length === 0) return [];
  const counts = new Map<string, { readonly limit: Said; count: number }>();
  let full = 0;
  for (const { timeHeld } of laid) {
    if (timeHeld === null) full += 1;
    else {
      const limit = limitOf(timeHeld, partySize);
      const key = JSON.stringify(limit);
      const held = counts.get(key) ?? { limit, count: 0 };
      held.count += 1;
      counts.set(key, held);
    }
  }
  const total = laid.length;
  const parts: Said[] = full === 0 ? [] : [said`${counted(full, total)} ${be(full)} as long as asked`];
  [...counts.values()]
    .toSorted((a, b) => b.count - a.count)
    .forEach(({ limit, count }, at) => {
      const dives = full === 0 && at === 0 ? counted(count, total) : count;
      parts.push(at === 0 ? said`${dives} ${be(count)} limited by ${limit}` : said`${dives} by ${limit}`);
    });
  const byGas = laid.filter(({ timeHeld }) => timeHeld?.by === 'gas').length;
  const most = byGas * 2 > total ? [said`Gas limits most of them: check cylinder, fill and RMV.`] : [];
  return [said`${listed(parts)}.`, ...most];
}

/** null: each dive of a day is less deep than the one before. */
function reasonOf(depthHeld: DepthHeld, partySize: number): Said | null {
  switch (depthHeld.kind) {
    case 'limit':
      return said`deeper, ${because(depthHeld.held, partySize, depthHeld.held.underMin)}`;
    case 'own limit':
      return said`the depth limit${whom('of', depthHeld.divers, partySize)} is ${figure('depthSet', depthHeld.depthM)}`;
    case 'night':
      return said`a night dive goes no deeper`;
    case 'order':
      return null;
  }
}

/** What holds one dive to its time and its depth; null where it is as long and as deep as was asked. */
export function heldSentence({ timeHeld, depthHeld }: LaidDive, partySize: number): Said | null {
  const parts: Said[] = [];
  if (timeHeld !== null) parts.push(said`limited by ${limitOf(timeHeld, partySize)}`);
  if (depthHeld !== null) parts.push(reasonOf(depthHeld, partySize) ?? said`less deep than the dive before`);
  return parts.length === 0
    ? null
    : reasonSentence(parts.length === 1 ? parts[0]! : said`${parts[0]!}; ${parts[1]!}`);
}

/** A reason by itself. */
export function reasonSentence(reason: Said): Said {
  return said`${reason}.`;
}

/** Locked dives that could not stay as they were. */
export function lostSentence(lost: readonly WallTime[]): readonly Said[] {
  if (lost.length === 0) return [];
  const moments = listed(lost.map((startsAt) => moment(startsAt)));
  return [
    lost.length === 1
      ? said`The locked dive of ${moments} would pass a limit now, and is drafted again.`
      : said`The locked dives of ${moments} would pass a limit now, and are drafted again.`,
  ];
}

/** Says why sites are not dived to their depth, those with one reason together. */
export function depthSentences(
  sites: readonly Site[],
  laid: readonly LaidDive[],
  partySize: number,
): readonly Said[] {
  const groups = new Map<string, { readonly reason: Said | null; readonly parts: Said[] }>();
  for (const site of sites) {
    const here = laid.filter(({ dive }) => dive.siteId === site.id);
    const deepest = here.toSorted((a, b) => b.dive.depthM - a.dive.depthM)[0];
    if (!deepest?.depthHeld) continue;
    const reason = reasonOf(deepest.depthHeld, partySize);
    const key = JSON.stringify(reason);
    const group = groups.get(key) ?? { reason, parts: [] };
    groups.set(key, group);
    const [to, from] = [depth(deepest.dive.depthM), depth(site.depthM)];
    group.parts.push(
      group.parts.length === 0
        ? said`${site.name} is dived to ${to} rather than ${from}`
        : said`${site.name} to ${to} rather than ${from}`,
    );
  }
  return [...groups.values()].map(({ reason, parts }) => {
    const order = parts.length === 1 ? said`it comes later in its day` : said`each comes later in its day`;
    return said`${listed(parts)}: ${reason ?? order}.`;
  });
}

/** Which sites are not dived; where it is for want of dives, that. */
export function unusedSentence(unused: readonly Site[], isForWantOfDives: boolean): readonly Said[] {
  if (unused.length === 0) return [];
  const why = isForWantOfDives ? said`: there are more sites than dives` : NOTHING;
  return [said`${someSaid(unused.map(({ name }) => name))} ${be(unused.length)} not dived${why}.`];
}

/** Which of the dives that were asked for are left out. @param asked moments of all of them, in order */
function whichOf(group: readonly LeftOut[], asked: readonly WallTime[], dates: readonly string[]): Said {
  const [first] = group;
  const count = group.length;
  if (count === 1) return said`The dive of ${moment(first!.startsAt)} is left out`;
  const times = [...new Set(group.map(({ startsAt }) => startsAt.slice(11)))];
  if (dates.length > 1 && count === times.length * dates.length) {
    return said`The ${count} dives at ${listed(times.map(timeOfDay))} are left out`;
  }
  if (asked.indexOf(first!.startsAt) === asked.length - count) {
    return said`The last ${count} dives, from ${moment(first!.startsAt)} on, are left out`;
  }
  return said`${count} dives are left out, the first of them ${moment(first!.startsAt)}`;
}

/** Dives that were left out, those with one reason together. */
export function leftOutSentences(
  leftOut: readonly LeftOut[],
  asked: readonly WallTime[],
  dates: readonly string[],
): readonly Said[] {
  const groups = new Map<string, LeftOut[]>();
  for (const each of leftOut) {
    const key = JSON.stringify(each.reason);
    groups.set(key, [...(groups.get(key) ?? []), each]);
  }
  return [...groups.values()].map((group) => {
    const { reason } = group[0]!;
    return group.length === asked.length
      ? said`No dive can be drafted: ${reason}.`
      : said`${whichOf(group, asked, dates)}: ${reason}.`;
  });
}
