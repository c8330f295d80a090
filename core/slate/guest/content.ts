/** What a guest is told before the trip: nothing that needs an instructor to read it, no minutes, gas or shares. */
import { climbClearSaid } from '../climbs';
import { ownWaterSaid } from '../../ledger/water-said';
import { breathedSaid } from '../../ledger/breathed-said';
import { loopModM } from '../../ledger/loop-said';
import { siteName, siteOf } from '../../document/site-of';
import type { Dive, Trip } from '../../document/types';
import { NO_BREAK } from '../../line-breaks';
import type { DiverLedger, Entry } from '../../ledger/ledger-types';
import { momentAt, timeAt, wallDate, wallMin } from '../../words/calendar';
import { printed, type System } from '../../words/quantity';
import { capital, inOneSystem, wordsOf, type Words } from '../../words/reader';
import {
  dayOf,
  figure,
  moment,
  said,
  sentences,
  span,
  timeOfDay,
  type Figure,
  type Said,
} from '../../words/said';
import { countSaid, divesSaid, mixSaid } from '../../words/terms';
import { slanted, stressed, unmarked } from '../markup';
import { slateReader } from '../reading';
import type { DatedRequest } from '../request';

/** A dive of a day: when and how deep, and where. */
export interface GuestDive {
  readonly when: string;
  readonly where: string;
}

export interface GuestDay {
  readonly day: string;
  readonly dives: readonly GuestDive[];
}

export interface GuestSite {
  /** Name and depth. */
  readonly name: string;
  readonly depth: string;
  readonly note: string;
}

/** All that a guest is told. */
export interface Guest {
  readonly name: string;
  readonly title: string;
  readonly where: string;
  readonly summary: string;
  readonly days: readonly GuestDay[];
  readonly limits: string;
  readonly mixes: readonly (readonly [mix: string, says: string])[];
  readonly sites: readonly GuestSite[];
  /** Empty where nothing is dived. */
  readonly flying: readonly string[];
  readonly bring: readonly string[];
}

interface Context {
  readonly trip: Trip;
  /** Sentences have one system of units; what stands as a figure by itself has as many as were asked for. */
  readonly words: Words;
  readonly figures: Words;
  /** By whose figures depths are held against each other; of two, the first. */
  readonly system: System;
}

/** As it stands everywhere: as it was set, or what was reached. */
function depthFigure({ isAsDived, depthM }: Entry): Figure {
  return figure(isAsDived ? 'depthMet' : 'depthSet', depthM);
}

function depthOf(entry: Entry): Said {
  return slanted(depthFigure(entry));
}

/** The deepest of some dives as it stands beside it: of two that round apart the one that reads deeper. */
function deepestSaid({ system }: Context, made: readonly Entry[]): Said {
  const read = ({ quantity, si }: Figure): number => printed(si ?? 0, quantity, system);
  return slanted(
    made
      .map(depthFigure)
      .reduce((deepest, each) => (read(each) > read(deepest) ? each : deepest), figure('depthSet', 0)),
  );
}

function unmarkedSite(trip: Trip, dive: Pick<Dive, 'siteId'>): string {
  return unmarked(siteName(trip, dive));
}

/** The dives of a day, those at which the guest rests among them: the boat goes out all the same. */
function dayOfGuest({ trip, words, figures }: Context, mine: DiverLedger, date: string): GuestDay {
  const made = mine.entries.filter(({ isMade, startMin }) => isMade && wallDate(startMin) === date);
  const rests = trip.dives.filter(
    ({ id, startsAt }) => startsAt.startsWith(date) && !made.some(({ dive }) => dive.id === id),
  );
  const dives = [
    ...made.map((entry) => ({
      atMin: entry.startMin,
      // A depth in two systems stays in one line.
      when: `${words(stressed(timeAt(entry.startMin)))} ${figures(depthOf(entry)).replaceAll(' ', NO_BREAK)}`,
      where: unmarkedSite(trip, entry.dive),
    })),
    ...rests.map(({ startsAt, siteId }) => ({
      atMin: wallMin(startsAt),
      when: words(said`${timeOfDay(startsAt.slice(11))} you rest`),
      where: unmarkedSite(trip, { siteId }),
    })),
  ];
  return {
    day: words(said`${dayOf(date, 'weekday')}`),
    dives: dives.toSorted((a, b) => a.atMin - b.atMin),
  };
}

function limitsOf({ figures }: Context, { diver }: DiverLedger): string {
  const certification = unmarked(diver.certification ?? '').trim();
  const depth = stressed(slanted(figure('depthSet', diver.maxDepthM)));
  return figures(
    sentences([
      said`Your limits: no deeper than ${depth}, no richer mix than ${stressed(mixSaid(diver.maxO2))}.`,
      ...(certification === '' ? [] : [said`Trained to: ${certification}.`]),
    ]),
  );
}

function mixesOf({ words, figures }: Context, made: readonly Entry[]): Guest['mixes'] {
  const byMix = new Map<string, Entry[]>();
  for (const entry of made.toSorted((a, b) => (a.o2 ?? 1) - (b.o2 ?? 1))) {
    const mix = words(breathedSaid(entry));
    byMix.set(mix, [...(byMix.get(mix) ?? []), entry]);
  }
  return [...byMix].map(([mix, entries]) => {
    const modM = Math.min(...entries.map(({ loop, modM: own }) => (loop === null ? own! : loopModM(loop))));
    const mod = stressed(slanted(figure('depthLimit', modM)));
    const named = entries[0]!.loop === null ? said`MOD` : said`bail-out MOD`;
    return [mix, figures(said`${divesSaid(entries.length)}, ${named} ${mod}`)] as const;
  });
}

function sitesOf(context: Context, made: readonly Entry[]): readonly GuestSite[] {
  const { trip, figures, words } = context;
  const ids = [...new Set(made.map(({ dive }) => dive.siteId))];
  return ids.map((siteId) => {
    const site = siteOf(trip, { siteId });
    const note = [site?.notes, site?.briefing].find((each) => each !== undefined && each.trim() !== '') ?? '';
    const water = ownWaterSaid(trip, siteId);
    const deepest = deepestSaid(
      context,
      made.filter(({ dive }) => dive.siteId === siteId),
    );
    return {
      name: unmarkedSite(trip, { siteId }),
      depth: figures(said`${slanted(said`to`)} ${deepest}`),
      note: unmarked(water === null ? note : `${words(said`Not as the other sites: ${water}.`)}\n${note}`)
        .split('\n')
        .map((line) => line.trim())
        .filter((line) => line !== '')
        .join(' '),
    };
  });
}

/** When flying is clear, and what that leaves before the flight. */
function flyingOf({ trip, words }: Context, { flyAfterMin, climbs }: DiverLedger): readonly string[] {
  if (flyAfterMin === null) return [];
  const ups = climbs.map((views) => words(climbClearSaid(views, trip)));
  const least = said`These hours are the least that is advised: more is better.`;
  const first = words(said`Not before ${stressed(momentAt(flyAfterMin))}.`);
  if (trip.flight === null) return [first, words(least), ...ups];
  const at = stressed(moment(trip.flight.at));
  const spareMin = wallMin(trip.flight.at) - flyAfterMin;
  const flight =
    spareMin < 0
      ? said`${stressed(said`Your flight is too soon:`)} it leaves at ${at}.`
      : said`Your flight at ${at} leaves ${span(spareMin, 'down')} to spare.`;
  return [first, words(sentences([flight, least])), ...ups];
}

/** Source: common practice of boats and schools: papers are asked for before the first dive. */
function bringOf(context: Context, made: readonly Entry[]): readonly string[] {
  const { words, figures } = context;
  const hasRich = made.some(({ o2 }) => o2 !== null && words(mixSaid(o2)) !== words(mixSaid(0.21)));
  const hasLoop = made.some(({ loop }) => loop !== null);
  return [
    figures(said`certificate for diving to ${deepestSaid(context, made)}`),
    ...(hasRich ? [words(said`certificate for enriched air`)] : []),
    ...(hasLoop ? [words(said`certificate for your breathing loop`)] : []),
    words(said`log of your last dives`),
    words(said`medical statement, signed`),
    words(said`insurance that covers diving`),
    words(said`dive computer, and how its mix is set`),
  ];
}

/** The guests who are asked for, with the days that are. */
export function guestsOf(request: DatedRequest): readonly Guest[] {
  const { ledger, diverIds, dates } = request;
  const { trip } = ledger;
  const reader = slateReader(request);
  const context: Context = {
    trip,
    words: wordsOf(inOneSystem(reader)),
    figures: wordsOf(reader),
    system: reader.units === 'imperial' ? 'imperial' : 'metric',
  };
  const full = wordsOf({ ...inOneSystem(reader), dates: 'full' });
  return ledger.divers
    .filter(({ diver }) => diverIds === null || diverIds.includes(diver.id))
    .flatMap((mine): readonly Guest[] => {
      const made = mine.entries.filter(
        ({ isMade, startMin }) => isMade && dates.includes(wallDate(startMin)),
      );
      const days = dates
        .filter((date) => mine.days.some((day) => day.date === date))
        .map((date) => dayOfGuest(context, mine, date));
      if (days.length === 0) return [];
      const [from, to] = [dates[0]!, dates.at(-1)!];
      const place = unmarked(trip.place).trim();
      const count =
        days.length === 1
          ? said`one diving day, ${dayOf(from)}`
          : said`${countSaid(days.length)} diving days, ${dayOf(from, 'weekday')} to ${dayOf(to)}`;
      return [
        {
          name: unmarked(mine.diver.name),
          title: unmarked(trip.title),
          where: [...(place === '' ? [] : [`${place}.`]), `${capital(full(count))}.`].join(' '),
          summary: context.figures(
            made.length === 0
              ? divesSaid(0)
              : said`${divesSaid(made.length)}, none below ${stressed(deepestSaid(context, made))}`,
          ),
          days,
          limits: limitsOf(context, mine),
          mixes: mixesOf(context, made),
          sites: sitesOf(context, made),
          flying: flyingOf(context, mine),
          bring: bringOf(context, made),
        },
      ];
    });
}
