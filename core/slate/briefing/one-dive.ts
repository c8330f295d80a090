/** What a briefing says of one dive of the party. */
import { ownWaterSaid } from '../../ledger/water-said';
import { NO_BREAK } from '../../line-breaks';
import { siteOf } from '../../document/site-of';
import { effectiveDive } from '../../document/as-dived';
import type { Id, Trip } from '../../document/types';
import type { Entry } from '../../ledger/ledger-types';
import { isRecorded, staysOf } from '../../ledger/level-limits';
import { roomMinutes } from '../../ledger/room';
import { isRoomUnknown, tightestOf } from '../../ledger/tightest';
import { safetyStopOf, type Leg } from '../../profile';
import { timeAt, wallText } from '../../words/calendar';
import { rounded } from '../../words/quantity';
import type { Reader, Words } from '../../words/reader';
import {
  bare,
  figure,
  inRow,
  listed,
  NOTHING,
  said,
  sentences,
  timeOfDay,
  type Figure,
  type Said,
} from '../../words/said';
import { breathedSaid } from '../../ledger/breathed-said';
import { loopModM } from '../../ledger/loop-said';
import { pastSaid, SHORT_LIMITS } from '../../words/terms';
import { numberOf } from '../card/content';
import { slanted, stressed, unmarked } from '../markup';

/** One dive of the party. */
export interface BriefDive {
  readonly id: Id;
  readonly number: string;
  /** "07:45", and "all up 08:25" below it. */
  readonly in: string;
  readonly up: string;
  readonly inMin: number;
  readonly upMin: number;
  readonly site: string;
  readonly notes: readonly string[];
  /** Depth to run time, as a line under a head that names the units, and by itself. */
  readonly plan: readonly string[];
  readonly planAlone: readonly string[];
  /** "leave 08:20, stop 5 m 3 min" */
  readonly leave: string;
  /** Each mix that is breathed, with its MOD; with several where divers have other limits of PO2. */
  readonly mixes: readonly (readonly [mix: string, mods: readonly string[]])[];
  /** Who has the least room, and how much; empty where no limit is in reach. */
  readonly room: readonly [who: string, room: string] | null;
  readonly isTightest: boolean;
  /** What has to be seen first: stops that are required, who may not dive. */
  readonly warnings: readonly string[];
  /** Of one of its divers, for the picture. */
  readonly legs: readonly Leg[];
  readonly legsFromMin: number;
  /** Whether its divers breathe several mixes. */
  readonly hasMixes: boolean;
}
const ROOM_TO = { ...SHORT_LIMITS, 'diver-depth': said`own depth` } as const;

export interface Context {
  readonly trip: Trip;
  readonly reader: Reader;
  /** Sentences have one system of units; what stands as a figure by itself has as many as were asked for. */
  readonly words: Words;
  readonly figures: Words;
}

/** The entries of one dive, in the order of the party. */
export interface Together {
  readonly id: Id;
  readonly entries: readonly Entry[];
}

function minutes({ isAsDived }: Entry, min: number): Figure {
  return bare(isAsDived ? 'minutesDived' : 'minutesSet', min);
}

function depthOf({ isAsDived }: Entry, depthM: number): Figure {
  return figure(isAsDived ? 'depthMet' : 'depthSet', depthM);
}

/** What differs among divers is told once each. */
function distinct(texts: readonly string[]): readonly string[] {
  return [...new Set(texts)];
}

/** "34 to 9, 18 to 25": each level until which run time; alone, with units. */
function planSaid(entry: Entry, isAlone: boolean): Said {
  let run = 0;
  const stays = staysOf(entry);
  const levels = stays.map(({ depthM, min }) => {
    run += min;
    const depth = depthOf(entry, depthM);
    return isAlone
      ? said`${slanted(depth)} to ${stressed(minutes(entry, run))}`
      : said`${slanted(stressed({ ...depth, isBare: true }))} to ${stressed(minutes(entry, run))}`;
  });
  // What was recorded after the deepest stay is no stay at a depth.
  const all = isRecorded(entry) ? said`, ${minutes(entry, entry.bottomMin)} in all` : NOTHING;
  return isAlone ? said`${inRow(levels)}${all} min` : said`${inRow(levels)}${all}`;
}

/** Room as it is looked for: how much, and to what. */
export function roomSaid(trip: Trip, entry: Entry): Said {
  const { min, minLimit } = roomMinutes(trip, entry);
  if (minLimit === null) return said`no limit`;
  if (min !== null) return said`${stressed(figure('minutesLeft', min))} to ${ROOM_TO[minLimit]}`;
  return isRoomUnknown(entry, minLimit) ? said`not known: PO2` : said`${stressed(pastSaid(minLimit))}`;
}

/** Names, or that it is everybody. */
function whoSaid(names: readonly string[], of: number): Said {
  return names.length > 1 && names.length === of ? said`everybody alike` : said`${listed(names)}`;
}

export function nameOf({ diver }: Entry): string {
  return unmarked(diver.name);
}

/** Entries that say the same, told once with the names of their divers. */
export function together(
  { words }: Context,
  entries: readonly Entry[],
  of: (entry: Entry) => Said | null,
): readonly (readonly [names: readonly string[], says: string])[] {
  const bySaid = new Map<string, string[]>();
  for (const entry of entries) {
    const sentence = of(entry);
    if (sentence === null) continue;
    const text = words(sentence);
    const names = bySaid.get(text);
    if (names === undefined) bySaid.set(text, [nameOf(entry)]);
    else names.push(nameOf(entry));
  }
  return [...bySaid].map(([text, names]) => [names, text]);
}

function stopsSaid({ stops }: Entry): Said | null {
  if (stops === null) return said`no way up on this gas was found.`;
  if (stops.length === 0) return null;
  const each = stops.map(
    ({ depthM, min }) => said`${slanted(figure('depthMet', depthM))} ${figure('minutesMet', min)}`,
  );
  return said`required stops ${inRow(each)}.`;
}

function warningsOf(context: Context, { entries }: Together): readonly string[] {
  const made = entries.filter(({ isMade }) => isMade);
  const warn = (rows: ReturnType<typeof together>): readonly string[] =>
    rows.map(([names, text]) => context.words(said`${listed(names)}: ${text}`));
  return [
    ...warn(
      together(context, entries, ({ isMade }) =>
        isMade ? null : said`no mix on board may be breathed there, not to be dived.`,
      ),
    ),
    ...warn(together(context, made, stopsSaid)),
  ];
}

/** When the bottom is left, where that is one moment for all; and the stop, where it is one. */
function leaveSaid(made: readonly Entry[]): Said {
  const leaves = new Set(made.map(({ startMin, bottomMin }) => rounded(startMin + bottomMin, 0, 'down')));
  const stops = made.map((entry) => safetyStopOf(effectiveDive(entry.dive, entry.diver).shape));
  const isSame = new Set(stops.map((stop) => JSON.stringify(stop))).size === 1;
  const isFree = made.every((entry) => entry.stops?.length === 0 && !isRecorded(entry));
  const stop = isSame && isFree ? stops[0]! : null;
  const [first] = leaves;
  return said`${inRow([
    leaves.size === 1 ? said`leave ${timeOfDay(wallText(first!).slice(11))}` : NOTHING,
    stop === null
      ? NOTHING
      : said`stop ${slanted(figure('depthMet', stop.depthM))} ${figure('minutesMet', stop.min)}`,
  ])}`;
}

function upSaid(made: readonly Entry[]): Said {
  if (made.length === 0) return NOTHING;
  const last = Math.max(...made.map(({ surfacesMin }) => surfacesMin));
  return made.length === 1 ? said`up${NO_BREAK}${timeAt(last)}` : said`all up${NO_BREAK}${timeAt(last)}`;
}

/** The lines of a note that say something. */
function paragraphsOf(note: string): readonly string[] {
  return unmarked(note)
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');
}

/** What is to be said of a site, a paragraph each, and behind the last where to go instead. */
function notesOf({ trip, words }: Context, site: Trip['sites'][number] | undefined): readonly string[] {
  const note = (site?.briefing ?? '') === '' ? (site?.notes ?? '') : site!.briefing!;
  const planB = paragraphsOf(site?.planB ?? '').join(' ');
  const water = site === undefined ? null : ownWaterSaid(trip, site.id);
  const paragraphs = [
    ...(water === null ? [] : [words(said`${stressed(said`Not as the other sites`)}: ${water}.`)]),
    ...paragraphsOf(note),
  ];
  if (planB === '') return paragraphs;
  const instead = said`${stressed(said`Plan B`)}: ${planB}`;
  const last = paragraphs.at(-1);
  return last === undefined
    ? [words(instead)]
    : [...paragraphs.slice(0, -1), words(sentences([last, instead]))];
}

/** When the first of each group is in; several times only where one of them was made at another than planned. */
function startsSaid(entries: readonly Entry[]): Said {
  const starts = entries.map(({ startMin, diver }) => startMin - (diver.group?.afterMin ?? 0));
  const times = new Set(starts.toSorted((a, b) => a - b));
  return said`${listed(
    (times.size === 1 ? [Math.min(...entries.map(({ startMin }) => startMin))] : [...times]).map((min) =>
      timeAt(min),
    ),
    'or',
  )}`;
}

/** More divers alike than these are not named. */
const MOST_NAMED = 3;

/** The mixes of a dive, each with its MOD: told with the names where it is not one for all. */
function mixesOf({ words, figures }: Context, made: readonly Entry[]): BriefDive['mixes'] {
  const mixes = [...new Set(made.map((entry) => words(breathedSaid(entry))))];
  return mixes.map((mix) => {
    const breathing = made.filter((entry) => words(breathedSaid(entry)) === mix);
    const byMod = new Map<string, string[]>();
    for (const entry of breathing) {
      const { loop } = entry;
      const mod = figures(
        loop === null
          ? said`MOD ${slanted(figure('depthLimit', entry.modM))}`
          : said`bail-out MOD ${slanted(figure('depthLimit', loopModM(loop)))}`,
      );
      byMod.set(mod, [...(byMod.get(mod) ?? []), nameOf(entry)]);
    }
    if (byMod.size === 1) return [mix, [...byMod.keys()]] as const;
    const groups = [...byMod].toSorted(([, a], [, b]) => a.length - b.length);
    const [, most] = groups[groups.length - 1]!;
    // Of a large party those are named who differ from the rest; all of them stand in the table below.
    const isLong = most.length > MOST_NAMED;
    const told = isLong ? groups : [...byMod];
    return [
      mix,
      told.map(([mod, names]) =>
        words(isLong && names === most ? said`${mod} for the others` : said`${mod} for ${listed(names)}`),
      ),
    ] as const;
  });
}

export function briefDive(context: Context, dive: Together, tightest: readonly Entry[]): BriefDive {
  const { trip, words, figures, reader } = context;
  const { entries } = dive;
  const first = entries[0]!;
  const made = entries.filter(({ isMade }) => isMade);
  const site = siteOf(trip, first.dive);
  const least = tightestOf(made, (entry) => roomMinutes(trip, entry));
  const mixes = mixesOf(context, made);
  const both = reader.units === 'both';
  const drawn = made[0] ?? first;
  return {
    id: dive.id,
    number: words(said`${numberOf(trip, first.dive)}`),
    in: words(startsSaid(entries)),
    up: words(upSaid(made)),
    inMin: Math.min(...entries.map(({ startMin }) => startMin)),
    upMin: Math.max(...entries.map(({ surfacesMin }) => surfacesMin)),
    site: unmarked(site?.name ?? first.dive.siteId),
    notes: notesOf(context, site),
    plan: distinct(entries.map((entry) => figures(planSaid(entry, both)))),
    planAlone: distinct(entries.map((entry) => figures(planSaid(entry, true)))),
    leave: words(leaveSaid(made)),
    mixes: mixes.length === 0 ? [[words(said`no mix`), []]] : mixes,
    room:
      made.length === 0
        ? null
        : least.length === 0
          ? ['', words(roomSaid(trip, made[0]!))]
          : [words(whoSaid(least.map(nameOf), made.length)), words(roomSaid(trip, least[0]!))],
    isTightest: least.some((entry) => tightest.includes(entry)),
    warnings: warningsOf(context, dive),
    legs: drawn.legs,
    legsFromMin: drawn.startMin,
    hasMixes: mixes.length > 1,
  };
}
