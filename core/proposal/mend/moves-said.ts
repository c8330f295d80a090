/** What a plan changes, in words. */
import type { Caution } from '../../cautions/caution';
import type { Dive, Trip } from '../../document/types';
import { mixO2 } from '../../ledger/mix-choice';
import { levelsOf } from '../../profile';
import { figure, inRow, listed, named, said, timeOfDay, type Piece, type Said } from '../../words/said';
import { countSaid, mixSaid } from '../../words/terms';
import type { Treatment } from './moves';
import type { MendKind } from './proposals';
import type { MendRequest } from './request';

/** What the kinds are called. */
export const MEND_NAMES: Readonly<Record<MendKind, Said>> = {
  best: said`Best overall`,
  times: said`Keep the times`,
  depths: said`Keep the depths`,
  party: said`Keep everybody in`,
};

const NOTHING_TO_MEND = said`There is nothing to mend: no dive ahead is past a limit, and none has anything to adjust.`;

/** The same, where one dive was asked about. */
const NOTHING_OF_DIVE = said`There is nothing to mend: the dive is done, or within limits with nothing to adjust.`;

/** That nothing is proposed because nothing has to be. */
export function nothingToMend({ onlyDiveId }: MendRequest): Said {
  return onlyDiveId === null ? NOTHING_TO_MEND : NOTHING_OF_DIVE;
}

/**
 * What there is to mend, in one clause: "four cautions on two dives ahead: three past a limit, one to adjust".
 * @param toMend one caution or more
 */
export function toMendSaid(toMend: readonly Caution[]): Said {
  const dives = new Set(toMend.flatMap(({ diveId }) => diveId ?? [])).size;
  const past = toMend.filter(({ severity }) => severity === 'stop').length;
  const toAdjust = toMend.length - past;
  const cautions = toMend.length === 1 ? said`one caution` : said`${countSaid(toMend.length)} cautions`;
  const about =
    dives === 0
      ? said`on the flight home`
      : dives === 1
        ? said`on one dive ahead`
        : said`on ${countSaid(dives)} dives ahead`;
  const kinds =
    toAdjust === 0
      ? said`past a limit`
      : past === 0
        ? said`to adjust`
        : said`${countSaid(past)} past a limit, ${countSaid(toAdjust)} to adjust`;
  return said`${cautions} ${about}: ${kinds}`;
}

function depthsSaid({ legs, depthM }: Dive): Piece {
  return legs === undefined
    ? figure('depthSet', depthM)
    : inRow(levelsOf({ depthM, bottomMin: 0, legs }).map((level) => figure('depthSet', level.depthM)));
}

function mixNamed(trip: Trip, id: string): Said {
  const mix = trip.mixes.find((each) => each.id === id);
  return mix === undefined ? said`another mix` : mixSaid(mixO2(mix));
}

/**
 * What is done with a dive: "start at 10:55, 32 m, 43 min, not 44".
 * @param before as planned @param after with the moves made; null where it is dropped
 * Source: DEVELOPERS, "What mending looks for".
 */
export function changeSaid(trip: Trip, before: Dive, after: Dive | null, treatment: Treatment): Said {
  if (after === null) return said`drop it`;
  const { later, shallower, level, shorter, mix, leftOut } = treatment;
  const parts: Said[] = [];
  if (later > 0) parts.push(said`start at ${timeOfDay(after.startsAt.slice(11, 16))}`);
  if (shallower > 0) parts.push(said`${depthsSaid(after)}, not ${depthsSaid(before)}`);
  if (shorter > 0) {
    const [is, was] = [levelsOf(after)[level]!, levelsOf(before)[level]!];
    const minutes = said`${figure('minutesTyped', is.min)}, not ${figure('minutesTyped', was.min)}`;
    parts.push(before.legs === undefined ? minutes : said`${minutes}, at ${figure('depthSet', is.depthM)}`);
  }
  if (mix !== null) parts.push(said`on ${mixNamed(trip, mix)}`);
  if (leftOut.length > 0) {
    parts.push(said`without ${listed(leftOut.map((place) => named('diver', trip.party[place]!.id)))}`);
  }
  // A dive of which something is mended by what is changed before it.
  if (parts.length === 0) return said`as planned`;
  return parts.reduce((row, part) => said`${row}; ${part}`);
}
