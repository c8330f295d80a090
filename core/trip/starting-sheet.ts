import { listed, wordingIn, type Units, type Wording } from '../cautions/wording';
import { failure, success, type Result, type Trouble } from '../result';
import { judgeTrip } from './check-trip';
import { wallDate, wallMin, wallText } from './clock';
import { surroundingsOf } from './dive-plan';
import { wallTimeTrouble } from './fields';
import { HOURS_BEFORE_FLIGHT } from './flying';
import { ledger } from './ledger';
import type { WallMin } from './ledger-types';
import { mayBreathe } from './mix-choice';
import { fitted, ROOM_LEFT_MIN, SHORTEST_MIN, type Fitted, type Fitting } from './starting-dive';
import type { Dive, Diver, Mix, Site, Trip, TripSettings, TripWater, WallTime } from './types';

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
  readonly water: TripWater;
  readonly settings: TripSettings;
  /** No dive is planned longer, minutes; 20 to 120. */
  readonly longestMin: number;
}

/** The trip that was laid out, and in plain sentences what was chosen and why. */
export interface StartingTrip {
  readonly trip: Trip;
  readonly explanations: readonly string[];
}

/** Surface time between the dives of a day, minutes. Source: common practice; the cautions ask for as much. */
const INTERVAL_MIN = 60;

/** Each dive of a day goes this much less deep than the one before, down to `STEP_ENDS_M`. Source: common practice. */
const STEP_M = 3;
const STEP_ENDS_M = 12;

const DAY_MIN = 1440;

const TIME_OF_DAY = /^([01]\d|2[0-3]):[0-5]\d$/;

function answerTroubles(answers: StartingAnswers): readonly Trouble<'answers'>[] {
  const troubles: Trouble<'answers'>[] = [];
  const say = (where: string, what: string, mend: string): void => {
    troubles.push({ kind: 'answers', what, where, mend });
  };
  const { firstDay, nights, times, longestMin } = answers;
  const day = wallTimeTrouble('First day', `${firstDay}T12:00`);
  if (day) say('firstDay', `First day "${firstDay}" is no date of the calendar.`, 'Write it as 2027-03-06.');
  if (!Number.isInteger(nights) || nights < 0 || nights > 60) {
    say('nights', `${nights} nights cannot be laid out.`, 'Give a whole number from 0 to 60.');
  }
  if (times.length < 1 || times.length > 8) {
    say(
      'times',
      `${times.length} times a day are given; there can be 1 to 8.`,
      'Give a time for each dive of a day.',
    );
  }
  times.forEach((time, index) => {
    if (!TIME_OF_DAY.test(time)) say(`times[${index}]`, `"${time}" is no time of day.`, 'Write it as 07:30.');
    else if (times.indexOf(time) !== index)
      say(`times[${index}]`, `${time} is given twice.`, 'Give each time once.');
  });
  if (answers.sites.length === 0) say('sites', 'There is no site to dive.', 'Give at least one.');
  if (answers.mixes.length === 0) say('mixes', 'There is nothing to breathe.', 'Give at least one mix.');
  if (!(longestMin >= SHORTEST_MIN && longestMin <= 120)) {
    say(
      'longestMin',
      `A longest dive of ${longestMin} min is not laid out.`,
      `Give ${SHORTEST_MIN} to 120 minutes.`,
    );
  }
  return troubles;
}

/** The deepest a site is dived by everybody, and who or what holds it there. */
function depthFor(site: Site, trip: Trip): { readonly depthM: number; readonly heldBy: string | null } {
  const around = surroundingsOf(trip);
  let depthM = site.depthM;
  let heldBy: string | null = null;
  for (const diver of trip.party) {
    if (diver.maxDepthM < depthM) {
      depthM = diver.maxDepthM;
      heldBy = `the limits of ${diver.name}`;
    }
    while (depthM > 1 && !trip.mixes.some((mix) => mayBreathe(mix, depthM, diver, trip, around))) {
      depthM = Math.max(1, Math.ceil(depthM) - 1);
      heldBy = `the mixes on board for ${diver.name}`;
    }
  }
  return { depthM, heldBy };
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

/** Everybody is out of the water by then, so that the flight is not too soon. */
function lastSurfacing(flight: WallTime | null): WallMin {
  return flight === null ? Infinity : wallMin(flight) - HOURS_BEFORE_FLIGHT.severalDivesOrDays * 60;
}

/** Why no dive can start so late. */
function lateness(endMin: WallMin, nextMin: WallMin, latestMin: WallMin): string | null {
  if (endMin > latestMin) {
    return `it would end less than ${HOURS_BEFORE_FLIGHT.severalDivesOrDays} h before the flight.`;
  }
  return endMin > nextMin ? 'the next one starts too soon after it.' : null;
}

function headSentences(dates: readonly string[], answers: StartingAnswers, say: Wording): string[] {
  const last = dates[dates.length - 1]!;
  const sentences = [
    dates.length === 1
      ? `There is one diving day, ${last}.`
      : `There are ${dates.length} diving days, from ${dates[0]!} to ${last}: the days of arrival and departure are left free.`,
    `Each day goes from its deepest site to its shallowest, each dive at least ${say.depthMet(STEP_M)} less deep than the one before ` +
      `(to ${say.depthMet(STEP_ENDS_M)}), and the sites take turns over the days.`,
    `Bottom times are at most ${answers.longestMin} min and leave everybody at least ${ROOM_LEFT_MIN} min of room, gas for the way up, ` +
      'and all oxygen clocks within their limits; where a dive would be shorter than ' +
      `${SHORTEST_MIN} min, it goes less deep instead.`,
    'Each diver breathes the richest mix on board that may go to the depth.',
  ];
  if (answers.flight !== null) {
    const hours = HOURS_BEFORE_FLIGHT.severalDivesOrDays;
    sentences.push(
      `No dive ends later than ${hours} h before the flight on ${answers.flight.replace('T', ' at ')}.`,
    );
  }
  return sentences;
}

/** Says once for each site why it is not dived to its depth. */
function depthSentences(trip: Trip, say: Wording): readonly string[] {
  const sentences: string[] = [];
  for (const site of trip.sites) {
    const allowed = depthFor(site, trip);
    const depths = trip.dives.filter((dive) => dive.siteId === site.id).map((dive) => dive.depthM);
    const deepestM = Math.max(...depths);
    if (depths.length === 0 || deepestM >= site.depthM) continue;
    const reasons = [
      ...(allowed.heldBy === null ? [] : [`${allowed.heldBy} end at ${say.depthAllowed(allowed.depthM)}`]),
      ...(deepestM < allowed.depthM
        ? [
            `deeper, there would not be room for ${SHORTEST_MIN} min, or less than ${say.depthMet(STEP_M)} between it and the dive before`,
          ]
        : []),
    ];
    sentences.push(
      `${site.name} is dived to ${say.depthMet(deepestM)} rather than ${say.depthMet(site.depthM)}: ${reasons.join('; ')}.`,
    );
  }
  const unused = trip.sites.filter((site) => !trip.dives.some((dive) => dive.siteId === site.id));
  if (unused.length > 0)
    sentences.push(`${listed(unused.map((site) => site.name))} found no place on this trip.`);
  return sentences;
}

/**
 * Lays out a whole trip from a few answers: deepest first in the day, inside the no-stop limits and within
 * the oxygen advice for everybody, ready to be edited.
 * @param answers as asked; the divers, sites and mixes are judged by the rules of the trip file
 * @param units of the depths in the sentences
 * @returns the trip, which draws no caution to stop or change, with the reasons for what was chosen and left
 *   out; or every trouble with the answers. Where nothing fits, the trip has no dives and says why.
 * Source: limits as in the ledger and the cautions; deepest first: common practice; hours before flying as in
 *   flying.ts.
 */
export function startingSheet(answers: StartingAnswers, units: Units = 'metric'): Result<StartingTrip> {
  const wrong = answerTroubles(answers);
  const empty = judgeTrip({
    format: 'carryover/trip',
    version: 1,
    title: answers.title,
    place: answers.place,
    water: answers.water,
    settings: answers.settings,
    party: answers.party,
    sites: answers.sites,
    mixes: answers.mixes,
    dives: [],
    flight: answers.flight === null ? null : { at: answers.flight },
  });
  const [first, ...rest] = [...wrong, ...empty.troubles];
  if (first || empty.trip === null) return failure(first!, ...rest);

  const dates = divingDates(answers.firstDay, answers.nights);
  const times = answers.times.toSorted();
  const deepestFirst = empty.trip.sites.toSorted((a, b) => b.depthM - a.depthM);
  const latestMin = lastSurfacing(answers.flight);
  const leftOut: string[] = [];
  let { trip } = empty;
  let whole = ledger(trip);
  for (const [day, date] of dates.entries()) {
    let beforeM = Infinity;
    for (const [index, site] of sitesOfDay(deepestFirst, times.length, day).entries()) {
      const startMin = wallMin(`${date}T${times[index]!}`);
      const next = times[index + 1];
      const nextMin = next === undefined ? Infinity : wallMin(`${date}T${next}`) - INTERVAL_MIN;
      const fitting: Fitting = {
        trip,
        ledger: whole,
        divingDays: dates.length,
        longestMin: answers.longestMin,
        units,
      };
      const wished: Dive = {
        id: `d${trip.dives.length + 1}`,
        siteId: site.id,
        startsAt: wallText(startMin),
        depthM: Math.min(Math.max(STEP_ENDS_M, beforeM - STEP_M), depthFor(site, trip).depthM),
        bottomMin: SHORTEST_MIN,
        mix: 'auto',
      };
      const tooLate = lateness(startMin + SHORTEST_MIN, nextMin, latestMin);
      const outcome: Fitted =
        tooLate === null
          ? fitted(fitting, wished, Math.min(nextMin, latestMin))
          : { fits: false, reason: tooLate };
      if (outcome.fits) {
        ({ trip, ledger: whole } = outcome);
        beforeM = outcome.dive.depthM;
      } else {
        leftOut.push(`The dive on ${date} at ${times[index]!} is left out: ${outcome.reason}`);
      }
    }
  }
  const say = wordingIn(units);
  return success({
    trip,
    explanations: [...headSentences(dates, answers, say), ...depthSentences(trip, say), ...leftOut],
  });
}
