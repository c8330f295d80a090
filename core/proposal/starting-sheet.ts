import { failures, success, type Result, type Trouble } from '../result';
import { fileWords, type Words } from '../words/reader';
import { either, range, said, timeOfDay, typed, type Said } from '../words/said';
import { judgeTrip } from '../document/check-trip';
import { diversFor, keptOut } from '../document/may-dive';
import { dayNumber, wallMin, type WallTime } from '../words/calendar';
import { wallTimeTrouble } from '../document/wall-fields';
import { HOURS_BEFORE_FLIGHT } from '../ledger/flying';
import { ledger } from '../ledger/ledger';
import type { Ledger } from '../ledger/ledger-types';
import { mayBreathe } from '../ledger/mix-choice';
import { cellAsk, keptLocks, type CellAsk } from './starting-cells';
import { chosenSite, draftDays, INTERVAL_MIN, nightSite, SHORTEST_MIN } from './starting-days';
import type { DaysAsked, DraftDay, DraftDays, Slot, Uses } from './starting-days';
import { fitted, type End, type Fitted, type Fitting } from './starting-dive';
import { DEPTH_STEPS, type DepthSteps } from './starting-steps';
import {
  daysSentence,
  NOBODY_MAY,
  depthSentences,
  heldSentence,
  leftOutSentences,
  lengthSentence,
  lostSentence,
  noMixFor,
  reasonSentence,
  ruleSentences,
  tooSoonSentence,
  unusedSentence,
  whyNone,
  type DepthHeld,
  type LaidDive,
  type LeftOut,
} from './starting-words';
import type { Diver, Mix, Site, Trip, TripSettings } from '../document/types';
import { surroundingsOf } from '../profile';
import type { Water } from '../water';

/** What the starting sheet asks; nights are 0 to 60, and times of day 1 to 8. */
export interface StartingAnswers extends DaysAsked {
  readonly title: string;
  readonly place: string;
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
  /** Whether a site without levels is taken to rise, so that its dives end less deep; else they stay at one depth. */
  readonly rising: boolean;
  /** What was said of single dives of an earlier draft; what is said of a time that has none now is passed over. */
  readonly cells: readonly CellAsk[];
}

/** A place for a dive, and what became of it. */
export interface DraftCell extends Slot {
  readonly state: 'drafted' | 'locked' | 'dropped' | 'left out';
  readonly diveId: string | null;
  /** What holds the dive to its time and depth, or why there is none; null where it is as was asked. */
  readonly why: string | null;
}

/** The trip that was laid out, and in plain sentences what was chosen and why. */
export interface StartingTrip {
  readonly trip: Trip;
  readonly explanations: readonly string[];
  /** In order of time. */
  readonly cells: readonly DraftCell[];
}

const TIME_OF_DAY = /^([01]\d|2[0-3]):[0-5]\d$/;

function answerTroubles(answers: StartingAnswers, words: Words): readonly Trouble<'answers'>[] {
  const troubles: Trouble<'answers'>[] = [];
  const say = (where: string, what: Said, mend: Said): void => {
    troubles.push({ kind: 'answers', what: words(what), where, mend: words(mend) });
  };
  const { firstDay, nights, times, night, longestMin } = answers;
  if (wallTimeTrouble(said`First day`, `${firstDay}T12:00`)) {
    const mend = said`${either(said`Write it as 2027-03-06.`, said`Choose another.`)}`;
    say('firstDay', said`First day "${firstDay}" is no date of the calendar.`, mend);
  }
  if (!Number.isInteger(nights) || nights < 0 || nights > 60) {
    const what = said`${typed('plain', nights)} nights cannot be drafted.`;
    say('nights', what, said`Give a whole number from 0 to 60.`);
  }
  if (times.length < 1 || times.length > 8) {
    const what = said`${String(times.length)} times a day are given; there can be 1 to 8.`;
    say('times', what, said`Give a time for each dive of a day.`);
  }
  // Of too many none is looked at: a list has an end before its items have a say.
  const judged = times.length > 8 ? [] : times;
  judged.forEach((time, index) => {
    if (!TIME_OF_DAY.test(time)) {
      say(`times[${index}]`, said`"${time}" is no time of day.`, said`Write it as ${timeOfDay('07:30')}.`);
    } else if (judged.indexOf(time) !== index) {
      say(`times[${index}]`, said`${timeOfDay(time)} is given twice.`, said`Give each time once.`);
    }
  });
  if (night !== null && !TIME_OF_DAY.test(night.time)) {
    say('night', said`"${night.time}" is no time of day.`, said`Write it as ${timeOfDay('18:30')}.`);
  }
  if (answers.sites.length === 0) say('sites', said`There is no site to dive.`, said`Give at least one.`);
  if (answers.mixes.length === 0)
    say('mixes', said`There is nothing to breathe.`, said`Give at least one mix.`);
  if (!(longestMin >= SHORTEST_MIN && longestMin <= 120)) {
    const what = said`A longest dive of ${typed('minutes', longestMin)} cannot be drafted.`;
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
  const party = trip.party.filter((diver) => keptOut(site, diver) === null);
  const ownM = Math.min(...party.map(({ maxDepthM }) => maxDepthM));
  const allowedM = Math.min(site.depthM, ownM);
  const reachesM = party.map((diver) => deepestOf(diver, allowedM, trip, steps));
  const depthM = Math.min(...reachesM);
  if (depthM < allowedM) {
    const divers = party.filter((_, at) => reachesM[at] === depthM);
    return { depthM, endedBy: { kind: 'limit', held: { by: 'mix', divers, underMin: SHORTEST_MIN } } };
  }
  if (depthM === site.depthM) return { depthM, endedBy: null };
  const divers = party.filter(({ maxDepthM }) => maxDepthM === ownM);
  return { depthM, endedBy: { kind: 'own limit', divers, depthM } };
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

/** Where a dive is wished for, and what comes before and after it. */
interface Place {
  readonly site: Site;
  /** Whether the site was asked for: then the dive need not be less deep than the one before. */
  readonly isAsked: boolean;
  readonly slot: Slot;
  readonly end: End;
  /** Depth of the dive before on that day. */
  readonly beforeM: number;
}

/** One more dive, or the reason why there is none. */
function grown(
  { trip, whole, laid, leftOut }: Growing,
  { site, isAsked, slot, end, beforeM }: Place,
  answers: StartingAnswers,
  divingDays: readonly number[],
): Growing {
  const { startsAt, isNight } = slot;
  const steps = DEPTH_STEPS[answers.depthUnit];
  const partySize = trip.party.length;
  const named = diversFor(site, trip.party);
  const afterM = isAsked ? Infinity : Math.max(steps.endsM, steps.whole(beforeM - steps.lessM));
  const leave = (reason: Said): Growing => ({
    trip,
    whole,
    laid,
    leftOut: [...leftOut, { startsAt, reason }],
  });
  if (named === null) return leave(NOBODY_MAY);
  const reach = reachOf(site, trip, steps);
  if (reach.endedBy?.kind === 'limit' && reach.depthM === 0) {
    return leave(noMixFor(reach.endedBy.held.divers, partySize));
  }
  const nightM = isNight && !isAsked ? steps.nightM : Infinity;
  const depthM = Math.min(afterM, nightM, reach.depthM);
  const { longestMin, rising, depthUnit } = answers;
  const fitting: Fitting = { trip, ledger: whole, divingDays, longestMin, rising, steps, depthUnit };
  const wish = { id: `at-${startsAt}`, site, startsAt, depthM, isFirstOfDay: beforeM === Infinity, named };
  const outcome: Fitted =
    wallMin(startsAt) + SHORTEST_MIN > end.byMin
      ? { fits: false, held: { by: end.for, divers: [] }, depthM }
      : fitted(fitting, wish, end);
  if (!outcome.fits) return leave(whyNone(outcome.held, outcome.depthM, depthM, partySize));
  const depthHeld: DepthHeld | null =
    outcome.depthHeld !== null
      ? { kind: 'limit', held: outcome.depthHeld }
      : depthM === reach.depthM
        ? reach.endedBy
        : { kind: nightM < afterM ? 'night' : 'order' };
  return {
    trip: outcome.trip,
    whole: outcome.ledger,
    laid: [...laid, { dive: outcome.dive, timeHeld: outcome.timeHeld, depthHeld }],
    leftOut,
  };
}

/** The places of a day one after the other. @param day its number among the diving days */
function grownByDay(
  from: Growing,
  { day, number }: { readonly day: DraftDay; readonly number: number },
  asked: { readonly answers: StartingAnswers; readonly divingDays: readonly number[] },
  uses: Map<string, Uses>,
): Growing {
  const { answers, divingDays } = asked;
  const deepestFirst = from.trip.sites.toSorted((a, b) => b.depthM - a.depthM);
  const skipped = day.isEasy ? 1 : 0;
  const used = (siteId: string): void => {
    uses.set(siteId, { count: (uses.get(siteId)?.count ?? 0) + 1, lastDay: number });
  };
  const today: number[] = [];
  let growing = from;
  let beforeM = Infinity;
  const slots = day.slots.filter(({ startsAt }) => cellAsk(answers.cells, startsAt)?.kind !== 'drop');
  const byDay = slots.filter(({ isNight }) => !isNight).length;
  for (const [at, slot] of slots.entries()) {
    const standing = growing.trip.dives.find(({ startsAt }) => startsAt === slot.startsAt);
    if (standing !== undefined) {
      beforeM = standing.depthM;
      today.push(deepestFirst.findIndex(({ id }) => id === standing.siteId));
      used(standing.siteId);
      continue;
    }
    const ask = cellAsk(answers.cells, slot.startsAt);
    const siteId = ask === undefined || ask.kind === 'drop' ? null : ask.siteId;
    const wanted = deepestFirst.findIndex(({ id }) => id === siteId);
    const position =
      wanted !== -1
        ? wanted
        : slot.isNight
          ? nightSite(deepestFirst, today, DEPTH_STEPS[answers.depthUnit].nightM)
          : chosenSite({
              deepestFirst,
              at: at + skipped,
              of: byDay + skipped,
              before: today.at(-1) ?? -1,
              uses,
            });
    const site = deepestFirst[position]!;
    const end = endOf(answers.flight, slots[at + 1]?.startsAt ?? null);
    const known = growing.laid.length;
    growing = grown(growing, { site, isAsked: wanted !== -1, slot, end, beforeM }, answers, divingDays);
    const laid = growing.laid[known];
    today.push(position);
    if (laid === undefined) continue;
    beforeM = laid.dive.depthM;
    used(site.id);
  }
  return growing;
}

/**
 * Drafts a whole trip from a few answers: each day from deep to shallow, sites of like depth in turn, levels where a
 * site has them, long dives where gas and limits allow, inside the no-stop limits and within the oxygen advice for
 * everybody, ready to be edited.
 * @param answers as asked; the divers, sites and mixes are judged by the rules of the trip file
 * @param words of whoever reads the reasons and troubles
 * @returns the trip, which draws no caution to stop or change, with the reasons for what was chosen and left
 *   out; or every trouble with the answers. Where nothing fits, the trip has no dives and says why.
 * Source: limits as in the ledger and the cautions; deepest first, easy first and last day, rests, night dives:
 *   common practice; hours before flying as in flying.ts.
 */
export function startingSheet(answers: StartingAnswers, words: Words = fileWords): Result<StartingTrip> {
  const wrong = answerTroubles(answers, words);
  const empty = judgeTrip(
    {
      format: 'carryover/trip',
      version: 3,
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

  const drafted = draftDays(answers);
  const slots = drafted.days.flatMap((day) => day.slots);
  const divingDays = drafted.days.map(({ date }) => dayNumber(wallMin(`${date}T00:00`)));
  const locks = keptLocks(empty.trip, answers, slots);
  let growing: Growing = { trip: locks.trip, whole: ledger(locks.trip), laid: [], leftOut: [] };
  const uses = new Map<string, Uses>();
  for (const [number, day] of drafted.days.entries()) {
    growing = grownByDay(growing, { day, number }, { answers, divingDays }, uses);
  }
  const leftOut = growing.leftOut.toSorted((a, b) => wallMin(a.startsAt) - wallMin(b.startsAt));
  const { trip } = growing;
  const numbered = { ...trip, dives: trip.dives.map((dive, at) => ({ ...dive, id: `d${at + 1}` })) };
  return success({
    trip: numbered,
    explanations: [...reasons({ ...growing, leftOut }, answers, drafted), ...lostSentence(locks.lost)].map(
      (sentence) => words(sentence),
    ),
    cells: slots.map((slot) => cellOf(slot, { ...growing, trip: numbered, leftOut }, answers, words)),
  });
}

function cellOf(slot: Slot, growing: Growing, { cells }: StartingAnswers, words: Words): DraftCell {
  const { trip, laid, leftOut } = growing;
  const dive = trip.dives.find(({ startsAt }) => startsAt === slot.startsAt);
  const mine = laid.find((each) => each.dive.startsAt === slot.startsAt);
  if (dive === undefined) {
    const reason = leftOut.find(({ startsAt }) => startsAt === slot.startsAt)?.reason;
    const isDropped = cellAsk(cells, slot.startsAt)?.kind === 'drop';
    const state = isDropped ? 'dropped' : 'left out';
    return { ...slot, state, diveId: null, why: isDropped || !reason ? null : words(reasonSentence(reason)) };
  }
  if (mine === undefined) return { ...slot, state: 'locked', diveId: dive.id, why: null };
  const sentence = heldSentence(mine, trip.party.length);
  return { ...slot, state: 'drafted', diveId: dive.id, why: sentence && words(sentence) };
}

function reasons(
  { trip, laid, leftOut }: Growing,
  answers: StartingAnswers,
  { days, rests, tooSoon }: DraftDays,
): readonly Said[] {
  const { sites, party, mixes } = trip;
  const dates = days.map(({ date }) => date);
  const unused = sites.filter((site) => !trip.dives.some(({ siteId }) => siteId === site.id));
  const slots = days.flatMap((day) => day.slots);
  const asked = slots.map(({ startsAt }) => startsAt);
  const missing = leftOutSentences(leftOut, asked, dates);
  const told = [daysSentence({ dates, rests, nights: answers.nights }), ...tooSoon.map(tooSoonSentence)];
  // Where nothing fits, how it would have been laid out helps nobody.
  if (trip.dives.length === 0) return [...told, ...missing];
  const rules = ruleSentences({
    days,
    sites,
    mixes: mixes.length,
    flight: answers.flight,
    longestMin: answers.longestMin,
    rising: answers.rising,
    steps: DEPTH_STEPS[answers.depthUnit],
  });
  return [
    ...told,
    ...rules,
    ...lengthSentence(laid, party.length),
    ...depthSentences(sites, laid, party.length),
    ...missing,
    ...unusedSentence(unused, leftOut.length === 0),
  ];
}
