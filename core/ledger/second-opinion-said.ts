/** What the air table says to a dive, in words; its workings tell the rest. */
import { bare, figure, NOTHING, said, type Piece, type Said } from '../words/said';
import { NONE, UNLIMITED } from '../words/terms';
import { TABLE_UP_TO_ALTITUDE_M, type SecondOpinion } from './second-opinion';

/** The table's own reading: equivalent single dive time of the row's no-stop limit. Source: as `secondOpinions`. */
export function opinionSaid(opinion: SecondOpinion | null): Piece {
  if (!opinion || opinion.equivalentMin === null) return NONE;
  if (opinion.unlimited) return UNLIMITED;
  if (opinion.limitMin === null) return NONE;
  return said`${bare('minutesMet', opinion.equivalentMin)} of ${figure('minutesLeft', opinion.limitMin)}`;
}

/**
 * Another view, not an alarm: the procedure takes every dive as square and rounds up at each step. Where it has no
 * view, why.
 * @param isMade whether there is a mix to look it up for
 * Source: as `secondOpinions`.
 */
export function opinionAsideSaid(opinion: SecondOpinion | null, isMade: boolean): Said {
  if (!opinion) return NOTHING;
  if (opinion.isWithin !== null) return opinion.isWithin ? said`within` : said`past its limit`;
  if (opinion.holds === 'after a dive too high') return said`after a dive higher than it holds`;
  if (opinion.holds === 'too high') {
    return said`holds up to ${figure('depthLimit', TABLE_UP_TO_ALTITUDE_M)} above the sea`;
  }
  return isMade ? said`deeper than it goes` : said`no mix to look it up for`;
}
