import type { Trip } from '../../document/types';
import { ledger } from '../../ledger/ledger';
import { dayOf, moment, said, type Said } from '../../words/said';
import { mendedTrip, reachOn, shapedDive } from './carried-out';
import type { WhyNone } from './cheapest-plan';
import { KEPT, type Treatment } from './moves';
import { surroundingsAt } from '../../document/waters';
import type { MendRequest } from './request';
import { cautionsToMend } from './to-mend';
import type { Id } from '../../document/types';

/** The treatment that takes most of a dive without dropping it or anybody: as shallow and as short as may be. */
function least(trip: Trip, at: number, { steps, reach }: MendRequest): Treatment {
  const dive = trip.dives[at]!;
  const most = reachOn(trip, dive, steps, reach);
  const around = surroundingsAt(trip, dive);
  const level = (dive.legs?.length ?? 1) - 1;
  const byM = most.shallower * steps.shallowerM;
  for (let shorter = most.shorter; shorter >= 0; shorter -= 1) {
    const shape = shapedDive(dive, byM, level, shorter * steps.shorterMin, around);
    if (shape !== null) return { ...KEPT, shallower: most.shallower, level, shorter };
  }
  return KEPT;
}

/** What stays cautioned of a day however short and shallow its dives are, no dive ahead being made before it. */
function staysCautioned(trip: Trip, request: MendRequest, date: string) {
  const isOfDay = (startsAt: string) => startsAt.slice(0, 10) === date;
  const plan = trip.dives.map((dive, at) => {
    if (at < request.doneCount) return KEPT;
    return isOfDay(dive.startsAt) ? least(trip, at, request) : { ...KEPT, isDropped: true };
  });
  const mended = mendedTrip(trip, plan, request.steps);
  const ofDay = new Set<Id>(mended.dives.filter(({ startsAt }) => isOfDay(startsAt)).map(({ id }) => id));
  return cautionsToMend(ledger(mended), ofDay);
}

function ofDaySaid(trip: Trip, request: MendRequest, date: string): Said {
  const day = dayOf(date);
  const [first] = staysCautioned(trip, request, date);
  const dive = trip.dives.find(({ id }) => id === first?.diveId);
  if (first === undefined) return said`the dives of ${day} do not leave each other enough`;
  if (dive === undefined)
    return said`the flight leaves too soon after the dives of ${day}, however short they are`;
  const { startsAt } = dive;
  if (first.code === 'short-interval' || first.code === 'stops-into-next-dive') {
    return said`less than an hour is left before the dive of ${moment(startsAt)}, however short the one before it is`;
  }
  return said`the dive of ${moment(startsAt)} passes a limit even as shallow and as short as it may be`;
}

/** Why no set of the moves that were allowed does, as a sentence. @param request with the reach that was searched */
export function becauseSaid(trip: Trip, request: MendRequest, why: WhyNone): Said {
  switch (why.kind) {
    case 'flight':
      return said`No set of these moves does, because the flight leaves too soon after the dives that are done.`;
    case 'day':
      return said`No set of these moves does, because ${ofDaySaid(trip, request, why.date)}.`;
    case 'together':
      return said`No set of these moves does, because what one day needs another cannot give up.`;
    case 'later':
      return said`No set of these moves does, because each brings a caution on a dive that is not to be changed.`;
    case 'views':
      return said`No set of these moves does, because after each the flight leaves before flying is clear by the government table or the model.`;
    case 'unknown':
      return said`No set of these moves was found among all that were tried; whether there is one is not known.`;
  }
}
