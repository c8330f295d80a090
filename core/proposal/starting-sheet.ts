import { failures, success, type Result, type Trouble } from '../result';
import { fileWords, type Words } from '../words/reader';
import { either, range, said, timeOfDay, typed, type Said } from '../words/said';
import { judgeTrip } from '../document/check-trip';
import { dayNumber, wallDate, wallMin, type WallTime } from '../words/calendar';
import { wallTimeTrouble } from '../document/fields';
import { HOURS_BEFORE_FLIGHT } from '../ledger/flying';
import { ledger } from '../ledger/ledger';
import type { Ledger } from '../ledger/ledger-types';
import { mayBreathe } from '../ledger/mix-choice';
import { fitted, SHORTEST_MIN, type End, type Fitted, type Fitting } from './starting-dive';
import { DEPTH_STEPS, type DepthSteps } from './starting-steps';
import {
  daysSentence,
  depthSentences,
  leftOutSentences,
  lengthSentence,
  noMixFor,
  ruleSentences,
  tooSoonAfter,
  unusedSentence,
  whyNone,
  type DepthHeld,
  type LaidDive,
  type LeftOut,
} from './starting-words';
import type { Dive, Diver, Mix, Site, Trip, TripSettings } from '../document/types';
import { surroundingsOf } from '../profile';
import type { Water } from '../water';

/** What the starting sheet asks. */
export interface StartingAnswers {
  readonly title: string;
  readonly place: string;
  /** The day of arrival, "2027-03-06". */
  readonly firstDay: string;
  /** Nights away, 0 to 60. */
  readonly nights: number;
  /** Times of day at which dives start, "07:30"; as many dives a day, 1 to 8. */
  readonly times: readonly string[];
  readonly sites: readonly Site[];
  readonly party: readonly Diver[];
  readonly mixes: readonly Mix[];
  readonly flight: WallTime | null;
  readonly water: Water;
  readonly settings: TripSettings;
  /** No dive is planned longer, minutes; 20 to 120. */
  readonly longestMin: number;
  /** In which unit depths are whole. */
  readonly depthUnit: 'm' | 'ft';
}

/** The trip that was laid out, and in plain sentences what was chosen and why. */
export interface StartingTrip {
  readonly trip: Trip;
  readonly explanations: readonly string[];
}

/** Surface time between the dives of a day, minutes. Source: common practice; the cautions ask for as much. */
const INTERVAL_MIN = 60;

const DAY_MIN = 1440;

const TIME_OF_DAY = /^([01]\d|2[0-3]):[0-5]\d$/;

function answerTroubles(answers: StartingAnswers, words: Words): readonly Trouble<'answers'>[] {
  const troubles: Trouble<'answers'>[] = [];
  const say = (where: string, what: Said, mend: Said): void => {
    troubles.push({ kind: 'answers', what: words(what), where, mend: words(mend) });
  };
  const { firstDay, nights, times, longestMin } = answers;
  if (wallTimeTrouble(said`First day`, `${firstDay}T12:00`)) {
    const mend = said`${either(said`Write it as 2027-03-06.`, said`Choose another.`)}`;
    say('firstDay', said`First day "${firstDay}" is no date of the calendar.`, mend);
  }
  if (!Number.isInteger(nights) || nights < 0 || nights > 60) {
    const what = said`${typed('plain', nights)} nights cannot be laid out.`;
    say('nights', what, said`Give a whole number from 0 to 60.`);
  }
  if (times.length < 1 || times.length > 8) {
    const what = said`${String(times.length)} times a day are given; there can be 1 to 8.`;
    say('times', what, said`Give a time for each dive of a day.`);
  }
  times.forEach((time, index) => {
    if (!TIME_OF_DAY.test(time)) {
      say(`times[${index}]`, said`"${time}" is no time of day.`, said`Write it as ${timeOfDay('07:30')}.`);
    } else if (times.indexOf(time) !== index) {
      say(`times[${index}]`, said`${timeOfDay(time)} is given twice.`, said`Give each time once.`);
    }
  });
  if (answers.sites.length === 0) say('sites', said`There is no site to dive.`, said`Give at least one.`);
  if (answers.mixes.length === 0)
    say('mixes', said`There is nothing to breathe.`, said`Give at least one mix.`);
  if (!(longestMin >= SHORTEST_MIN && longestMin <= 120)) {
    const what = said`A longest dive of ${typed('minutes', longestMin)} is not laid out.`;
    say('longestMin', what, said`Give ${range('minutes', SHORTEST_MIN, 120)}.`);
  }
  return troubles;
}

/** The deepest that everybody may go to a site, and what ends it there; 0 where somebody has no mix at all. */
interface Reach {
  readonly depthM: number;
  readonly endedBy: DepthHeld | null;
}

/** The deepest whole depth, or a site's own, to which some mix may be breathed by a diver; 0 where none may. */
function deepestOf(diver: Diver, fromM: number, trip: Trip, steps: DepthSteps): number {
  const around = surroundingsOf(trip);
  let depthM = fromM;
  while (depthM > 0 && !trip.mixes.some((mix) => mayBreathe(mix, depthM, diver, trip, around))) {
    depthM = Math.max(0, steps.shallower(depthM));
  }
  return depthM;
}

function reachOf(site: Site, trip: Trip, steps: DepthSteps): Reach {
  const { party } = trip;
  const ownM = Math.min(...party.map(({ maxDepthM }) => maxDepthM));
  const allowedM = Math.min(site.depthM, ownM);
  const reachesM = party.map((diver) => deepestOf(diver, allowedM, trip, steps));
  const depthM = Math.min(...reachesM);
  if (depthM < allowedM) {
    const divers = party.filter((_, at) => reachesM[at] === depthM);
    return { depthM, endedBy: { kind: 'limit', held: { by: 'mix', divers } } };
  }
  if (depthM === site.depthM) return { depthM, endedBy: null };
  const divers = party.filter(({ maxDepthM }) => maxDepthM === ownM);
  return { depthM, endedBy: { kind: 'own limit', divers, depthM } };
}

/** Times of day with room for a dive and an hour at the surface in between; the others, and what they follow. */
function usableTimes(times: readonly string[]): {
  readonly used: readonly string[];
  readonly dropped: readonly { readonly time: string; readonly after: string }[];
} {
  const used: string[] = [];
  const dropped: { time: string; after: string }[] = [];
  for (const time of times.toSorted()) {
    const after = used[used.length - 1];
    const gapMin = after === undefined ? Infinity : minuteOfDay(time) - minuteOfDay(after);
    if (after === undefined || gapMin >= SHORTEST_MIN + INTERVAL_MIN) used.push(time);
    else dropped.push({ time, after });
  }
  return { used, dropped };
}

function minuteOfDay(time: string): number {
  const [hour = 0, minute = 0] = time.split(':').map(Number);
  return hour * 60 + minute;
}

/**
 * The sites of a day, deepest first. The sites fall into as many bands of depth as there are dives, and each
 * day takes the next of every band: so all are dived about as often, and each day has its shallow end.
 */
function sitesOfDay(deepestFirst: readonly Site[], dives: number, day: number): readonly Site[] {
  const count = deepestFirst.length;
  return Array.from({ length: dives }, (_, band) => {
    const from = Math.min(count - 1, Math.floor((band * count) / dives));
    const to = Math.max(from + 1, Math.floor(((band + 1) * count) / dives));
    return deepestFirst[from + (day % (to - from))]!;
  });
}

function divingDates(firstDay: string, nights: number): readonly string[] {
  const first = wallMin(`${firstDay}T00:00`);
  const from = nights >= 2 ? 1 : 0;
  const days = nights >= 2 ? nights - 1 : 1;
  return Array.from({ length: days }, (_, day) => wallDate(first + (from + day) * DAY_MIN));
}

/** When a dive that starts at one time of a day has to be over, and why. */
function endOf(flight: WallTime | null, nextStart: WallTime | null): End {
  const flightMin =
    flight === null ? Infinity : wallMin(flight) - HOURS_BEFORE_FLIGHT.severalDivesOrDays * 60;
  const nextMin = nextStart === null ? Infinity : wallMin(nextStart) - INTERVAL_MIN;
  return flightMin < nextMin ? { byMin: flightMin, for: 'flight' } : { byMin: nextMin, for: 'next-dive' };
}

/** The trip as it grows, with what was said of each dive. */
interface Growing {
  readonly trip: Trip;
  readonly whole: Ledger;
  readonly laid: readonly LaidDive[];
  readonly leftOut: readonly LeftOut[];
}

/** One more dive, or the reason why there is none. @param beforeM depth of the dive before on that day */
function grown(
  { trip, whole, laid, leftOut }: Growing,
  wish: { readonly site: Site; readonly startsAt: WallTime; readonly end: End; readonly beforeM: number },
  answers: StartingAnswers,
  divingDays: readonly number[],
): Growing {
  const { site, startsAt, end, beforeM } = wish;
  const steps = DEPTH_STEPS[answers.depthUnit];
  const partySize = trip.party.length;
  const reach = reachOf(site, trip, steps);
  const afterM = Math.max(steps.endsM, steps.whole(beforeM - steps.lessM));
  const leave = (reason: Said): Growing => ({
    trip,
    whole,
    laid,
    leftOut: [...leftOut, { startsAt, reason }],
  });
  if (reach.endedBy?.kind === 'limit' && reach.depthM === 0) {
    return leave(noMixFor(reach.endedBy.held.divers, partySize));
  }
  const wished: Dive = {
    id: `d${trip.dives.length + 1}`,
    siteId: site.id,
    startsAt,
    depthM: Math.min(afterM, reach.depthM),
    bottomMin: SHORTEST_MIN,
    mix: 'auto',
  };
  const fitting: Fitting = { trip, ledger: whole, divingDays, longestMin: answers.longestMin, steps };
  const outcome: Fitted =
    wallMin(startsAt) + SHORTEST_MIN > end.byMin
      ? { fits: false, held: { by: end.for, divers: [] }, depthM: wished.depthM }
      : fitted(fitting, wished, end);
  if (!outcome.fits) return leave(whyNone(outcome.held, outcome.depthM, wished.depthM, partySize));
  const depthHeld: DepthHeld | null =
    outcome.depthHeld !== null
      ? { kind: 'limit', held: outcome.depthHeld }
      : wished.depthM < reach.depthM
        ? { kind: 'order' }
        : reach.endedBy;
  return {
    trip: outcome.trip,
    whole: outcome.ledger,
    laid: [...laid, { dive: outcome.dive, timeHeld: outcome.timeHeld, depthHeld }],
    leftOut,
  };
}

/**
 * Lays out a whole trip from a few answers: deepest first in the day, inside the no-stop limits and within
 * the oxygen advice for everybody, ready to be edited.
 * @param answers as asked; the divers, sites and mixes are judged by the rules of the trip file
 * @param words of whoever reads the reasons and troubles
 * @returns the trip, which draws no caution to stop or change, with the reasons for what was chosen and left
 *   out; or every trouble with the answers. Where nothing fits, the trip has no dives and says why.
 * Source: limits as in the ledger and the cautions; deepest first: common practice; hours before flying as in
 *   flying.ts.
 */
export function startingSheet(answers: StartingAnswers, words: Words = fileWords): Result<StartingTrip> {
  const wrong = answerTroubles(answers, words);
  const empty = judgeTrip(
    {
      format: 'carryover/trip',
      version: 2,
      title: answers.title,
      place: answers.place,
      water: answers.water,
      settings: answers.settings,
      party: answers.party,
      sites: answers.sites,
      mixes: answers.mixes,
      dives: [],
      flight: answers.flight === null ? null : { at: answers.flight },
    },
    words,
  );
  if (wrong.length > 0 || empty.trip === null) return failures([...wrong, ...empty.troubles]);

  const dates = divingDates(answers.firstDay, answers.nights);
  const divingDays = dates.map((date) => dayNumber(wallMin(`${date}T00:00`)));
  const { used: times, dropped } = usableTimes(answers.times);
  const deepestFirst = empty.trip.sites.toSorted((a, b) => b.depthM - a.depthM);
  const leftOut = dates.flatMap((date) =>
    dropped.map(({ time, after }) => ({ startsAt: `${date}T${time}`, reason: tooSoonAfter(after) })),
  );
  let growing: Growing = { trip: empty.trip, whole: ledger(empty.trip), laid: [], leftOut };
  for (const [day, date] of dates.entries()) {
    let beforeM = Infinity;
    for (const [index, site] of sitesOfDay(deepestFirst, times.length, day).entries()) {
      const next = times[index + 1];
      const end = endOf(answers.flight, next === undefined ? null : `${date}T${next}`);
      const wish = { site, startsAt: `${date}T${times[index]!}`, end, beforeM };
      const known = growing.laid.length;
      growing = grown(growing, wish, answers, divingDays);
      beforeM = growing.laid[known]?.dive.depthM ?? beforeM;
    }
  }
  return success({
    trip: growing.trip,
    explanations: reasons(growing, answers, dates).map((sentence) => words(sentence)),
  });
}

function reasons(
  { trip, laid, leftOut }: Growing,
  answers: StartingAnswers,
  dates: readonly string[],
): readonly Said[] {
  const { sites, party, mixes } = trip;
  const unused = sites.filter((site) => !laid.some(({ dive }) => dive.siteId === site.id));
  const asked = dates.flatMap((date) => answers.times.toSorted().map((time) => `${date}T${time}`));
  const missing = leftOutSentences(leftOut, asked, dates);
  // Where nothing fits, how it would have been laid out helps nobody.
  if (laid.length === 0) return [daysSentence({ dates, nights: answers.nights }), ...missing];
  const rules = ruleSentences({
    dates,
    nights: answers.nights,
    times: answers.times.length,
    sites: sites.length,
    mixes: mixes.length,
    flight: answers.flight,
    longestMin: answers.longestMin,
    steps: DEPTH_STEPS[answers.depthUnit],
  });
  return [
    daysSentence({ dates, nights: answers.nights }),
    ...rules,
    ...lengthSentence(laid, party.length),
    ...depthSentences(sites, laid, party.length),
    ...missing,
    ...unusedSentence(unused, leftOut.length === 0),
  ];
}
