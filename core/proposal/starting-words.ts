import { figure, fileWords, said, type Figure, type Piece, type Said } from '../words/said';
import { HOURS_BEFORE_FLIGHT } from '../ledger/flying';
import { SHORTEST_MIN, ROOM_LEFT_MIN, type Held, type Limit } from './starting-dive';
import type { DepthSteps } from './starting-steps';
import type { Dive, Diver, Site, WallTime } from '../document/types';

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

const HOURS = String(HOURS_BEFORE_FLIGHT.severalDivesOrDays);

/** More divers, sites or moments are counted rather than named. */
const NAMED = 3;

function depth(depthM: number): Figure {
  return figure('depth', depthM, 'near');
}

/** Several things in a row, the last joined by a word. */
function row(things: readonly Said[]): Said {
  return things.flatMap((thing, at) => [
    ...(at === 0 ? [] : [at === things.length - 1 ? ' and ' : ', ']),
    ...thing,
  ]);
}

/** "a", "a and b", "a, b and 4 more". */
function some(things: readonly Said[]): Said {
  const rest = things.length - NAMED;
  return rest <= 1 ? row(things) : row([...things.slice(0, NAMED), [`${rest} more`]]);
}

/** " of Guest 1 and Guest 2"; nobody is named where it is everybody. */
function whom(word: 'of' | 'for' | 'by', divers: readonly Diver[], partySize: number): string {
  if (divers.length === 0 || divers.length === partySize) return '';
  return ` ${word} ${fileWords(some(divers.map(({ name }) => [name])))}`;
}

const NAMES: Readonly<Record<Limit, string>> = {
  'no-stop': 'the no-stop limit',
  gas: 'the gas',
  cns: 'the oxygen clock (CNS)',
  'cns-day': 'the oxygen of 24 hours (CNS)',
  otu: 'the oxygen of the day (OTU)',
  esot: 'the oxygen advised a day for the lungs (ESOT)',
  density: 'the density of the gas',
  mix: 'the oxygen of the mixes on board',
  altitude: 'the time since coming up to the altitude',
  interval: 'the hour at the surface after the dive before',
  order: 'the depth of the dive before',
  flight: `the ${HOURS} h before the flight`,
  'next-dive': 'the hour at the surface before the next dive',
};

function limitOf({ by, divers }: Held, partySize: number): string {
  return `${NAMES[by]}${whom(by === 'mix' || by === 'density' ? 'for' : 'of', divers, partySize)}`;
}

/** Why a dive will not do at a depth. */
function because(held: Held, partySize: number): Said {
  const { by, divers } = held;
  if (by === 'mix') return said`no mix on board may be breathed${whom('by', divers, partySize)}`;
  if (by === 'density') return said`the gas is too dense${whom('for', divers, partySize)}`;
  return said`${limitOf(held, partySize)} leaves less than ${figure('minutes', SHORTEST_MIN)}`;
}

/** What keeps a dive above its site's depth. */
export type DepthHeld =
  | { readonly kind: 'limit'; readonly held: Held }
  | { readonly kind: 'own limit'; readonly divers: readonly Diver[]; readonly depthM: number }
  /** Each dive of a day is less deep than the one before. */
  | { readonly kind: 'order' };

/** Why no dive was found, where something was tried. @param depthM the shallowest that was tried */
export function whyNone(held: Held, depthM: number, wishedM: number, partySize: number): Said {
  if (held.by === 'flight') return said`less than ${HOURS} h would be left before the flight`;
  if (held.by === 'next-dive') {
    return said`${figure('minutes', SHORTEST_MIN)} and an hour at the surface do not fit before the next dive`;
  }
  return said`${depthM < wishedM ? 'even ' : ''}at ${depth(depthM)}, ${because(held, partySize)}`;
}

/** Why a time of day is not used: it follows another too soon. */
export function tooSoonAfter(time: string): Said {
  return said`too soon after ${{ timeOfDay: time }} for ${figure('minutes', SHORTEST_MIN)} of diving and an hour at the surface`;
}

/** No mix on board is one that these divers may breathe at all. */
export function noMixFor(divers: readonly Diver[], partySize: number): Said {
  return because({ by: 'mix', divers }, partySize);
}

/** What was asked for, as far as the first sentences tell it. */
export interface Asked {
  readonly dates: readonly string[];
  readonly nights: number;
  readonly times: number;
  readonly sites: number;
  readonly mixes: number;
  readonly flight: WallTime | null;
  readonly longestMin: number;
  readonly steps: DepthSteps;
}

/** Which days there are to dive on. */
export function daysSentence({ dates, nights }: Pick<Asked, 'dates' | 'nights'>): Said {
  const first: Piece = { day: dates[0]! };
  const last: Piece = { day: dates[dates.length - 1]! };
  const free = nights >= 2 ? '; the days of arrival and departure are left free' : '';
  return dates.length === 1
    ? said`There is one day for diving, ${first}${free}.`
    : said`There are ${String(dates.length)} days for diving, ${first} to ${last}${free}.`;
}

/** The rules that the dives were laid out by. */
export function ruleSentences(asked: Asked): readonly Said[] {
  const { dates, times, sites, mixes, flight, longestMin, steps } = asked;
  const sentences: Said[] = [];
  if (times > 1) {
    sentences.push(
      said`Each day begins with its deepest dive; each one after it is at least ${depth(steps.lessM)} less deep, or no deeper than ${depth(steps.endsM)}.`,
    );
  }
  if (sites > times && dates.length > 1)
    sentences.push(said`Sites of like depth take turns from day to day.`);
  sentences.push(
    said`Bottom times are at most ${figure('minutes', longestMin)} and end at least ${figure('minutes', ROOM_LEFT_MIN)} before anybody meets a limit of no-stop time, gas or oxygen.`,
    said`A dive that would be shorter than ${figure('minutes', SHORTEST_MIN)} goes less deep instead.`,
    mixes === 1
      ? said`Everybody breathes the one mix on board.`
      : said`Each diver breathes the richest mix on board that may go to the depth.`,
  );
  if (flight !== null) {
    sentences.push(said`Every dive ends at least ${HOURS} h before the flight on ${{ moment: flight }}.`);
  }
  return sentences;
}

function counted(count: number, total: number): string {
  if (count === total) return total === 1 ? 'The dive' : total === 2 ? 'Both dives' : `All ${total} dives`;
  return `${count} of ${total} dives`;
}

function be(count: number): string {
  return count === 1 ? 'is' : 'are';
}

/** How many dives are as long as asked, and what limits the others. */
export function lengthSentence(laid: readonly LaidDive[], partySize: number): readonly Said[] {
  if (laid.length === 0) return [];
  const counts = new Map<string, number>();
  let full = 0;
  for (const { timeHeld } of laid) {
    if (timeHeld === null) full += 1;
    else {
      const limit = limitOf(timeHeld, partySize);
      counts.set(limit, (counts.get(limit) ?? 0) + 1);
    }
  }
  const total = laid.length;
  const parts: Said[] = full === 0 ? [] : [[`${counted(full, total)} ${be(full)} as long as asked`]];
  [...counts]
    .toSorted(([, a], [, b]) => b - a)
    .forEach(([limit, count], at) => {
      const dives = full === 0 && at === 0 ? counted(count, total) : String(count);
      parts.push([at === 0 ? `${dives} ${be(count)} limited by ${limit}` : `${dives} by ${limit}`]);
    });
  return [said`${row(parts)}.`];
}

/** null: each dive of a day is less deep than the one before. */
function reasonOf(depthHeld: DepthHeld, partySize: number): Said | null {
  switch (depthHeld.kind) {
    case 'limit':
      return said`deeper, ${because(depthHeld.held, partySize)}`;
    case 'own limit':
      return said`the depth limit${whom('of', depthHeld.divers, partySize)} is ${figure('depth', depthHeld.depthM, 'down')}`;
    case 'order':
      return null;
  }
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
    const is = group.parts.length === 0 ? ' is dived' : '';
    group.parts.push(
      said`${site.name}${is} to ${depth(deepest.dive.depthM)} rather than ${depth(site.depthM)}`,
    );
  }
  return [...groups.values()].map(({ reason, parts }) => {
    const order = parts.length === 1 ? 'it comes later in its day' : 'each comes later in its day';
    return said`${row(parts)}: ${reason ?? order}.`;
  });
}

/** Which sites are not dived; where it is for want of dives, that. */
export function unusedSentence(unused: readonly Site[], isForWantOfDives: boolean): readonly Said[] {
  if (unused.length === 0) return [];
  const why = isForWantOfDives ? ': there are more sites than dives' : '';
  return [said`${some(unused.map(({ name }) => [name]))} ${be(unused.length)} not dived${why}.`];
}

/** Which of the dives that were asked for are left out. @param asked moments of all of them, in order */
function whichOf(group: readonly LeftOut[], asked: readonly WallTime[], dates: readonly string[]): Said {
  const [first] = group;
  const count = group.length;
  if (count === 1) return said`The dive of ${{ moment: first!.startsAt }} is left out`;
  const times = [...new Set(group.map(({ startsAt }) => startsAt.slice(11)))];
  if (dates.length > 1 && count === times.length * dates.length) {
    return said`The ${String(count)} dives at ${row(times.map((time): Said => [{ timeOfDay: time }]))} are left out`;
  }
  if (asked.indexOf(first!.startsAt) === asked.length - count) {
    return said`The last ${String(count)} dives, from ${{ moment: first!.startsAt }} on, are left out`;
  }
  return said`${String(count)} dives are left out, the first of them ${{ moment: first!.startsAt }}`;
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
      ? said`No dive can be laid out: ${reason}.`
      : said`${whichOf(group, asked, dates)}: ${reason}.`;
  });
}
