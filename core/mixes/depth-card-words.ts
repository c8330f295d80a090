import type { Trip } from '../document/types';
import { forOwnWaterSaid } from '../ledger/water-said';
import { DENSITY_ADVISED_GL, DENSITY_LIMIT_GL } from '../gas';
import {
  bare,
  figure,
  listed,
  NOTHING,
  said,
  sentences,
  type Figure,
  type Piece,
  type Said,
} from '../words/said';
import type { DepthCard, DepthCardRow } from './depth-card';

/** Above what is advised more than binary fractions alone can make it. Source: as `DENSITY_ADVISED_GL`. */
export function isDense({ densityGL }: DepthCardRow): boolean {
  return densityGL > DENSITY_ADVISED_GL + 1e-9;
}

/** Above what must not be exceeded. Source: as `DENSITY_LIMIT_GL`. */
export function isTooDense({ densityGL }: DepthCardRow): boolean {
  return densityGL > DENSITY_LIMIT_GL + 1e-9;
}

/** What a bold density, and one in dots, means; nothing where there is none. */
function densitySaid(rows: readonly DepthCardRow[]): Said {
  const advised = said`Bold: denser than the ${figure('densityLimit', DENSITY_ADVISED_GL)} advised`;
  if (rows.some(isTooDense)) {
    return said`${advised}; in dots: past the ${figure('densityLimit', DENSITY_LIMIT_GL)} not to be exceeded.`;
  }
  return rows.some(isDense) ? said`${advised}.` : NOTHING;
}

/** How the face that shows a card sets what it is given. */
export interface CardFace {
  readonly depth: (depth: Figure) => Piece;
  readonly name: (text: string) => Piece;
}

/**
 * What the rows of a card hold for, and for whom the mix is not.
 * @param trip whose water they are for @param isOne whether the card is for one diver alone
 * Source: CONVENTIONS, "PO2 and mixes" and "No-stop limit".
 */
export function cardNotesSaid(card: DepthCard, trip: Trip, isOne: boolean, face: CardFace): Said {
  const tolerance = trip.settings.analysisTolerance;
  const { low, high } = card.strictest.gradient;
  const gradient = said`${bare('shareTyped', low)}/${bare('shareTyped', high)}`;
  const isRead = card.mix.analysedO2 !== undefined;
  const names = listed(card.notFor.map(({ name }) => face.name(name)));
  return sentences([
    said`Between two depths take the deeper.`,
    forOwnWaterSaid(trip, face.name),
    isOne
      ? said`No-stop time of a first dive from rest for gradient ${gradient}; after another dive it is shorter.`
      : said`No-stop time of a first dive from rest for gradient ${gradient}, the most careful of those this is for; after another dive it is shorter.`,
    densitySaid(card.rows),
    card.ownDepthM === null
      ? said`Never below ${face.depth(figure('depthLimit', card.contingencyM))}.`
      : NOTHING,
    isRead
      ? said`The share is as analysed.`
      : tolerance > 0
        ? said`Not analysed yet: MOD, PO2, density and CNS are for ${figure('shareMet', tolerance)} more oxygen.`
        : said`Not analysed yet: it holds for the share on the label.`,
    card.notFor.length === 0 ? NOTHING : said`Above the oxygen ceiling of ${names}: not for them.`,
  ]);
}
