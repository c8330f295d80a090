/** What the air table says to a dive, in words; its workings tell the rest. */
import { TABLE_UP_TO_ALTITUDE_M, type SecondOpinion } from '../../core/ledger/second-opinion';
import { minutesText, NO_FIGURE, numberText, unitText } from './format';
import type { System as Units } from '../../core/words/quantity';

/** The table's own reading: equivalent single dive time of the row's no-stop limit. */
export function tableText(opinion: SecondOpinion | null): string {
  if (!opinion || opinion.equivalentMin === null) return NO_FIGURE;
  if (opinion.unlimited) return 'unlimited';
  if (opinion.limitMin === null) return NO_FIGURE;
  return `${numberText(opinion.equivalentMin, 0, 'up')} of ${minutesText(opinion.limitMin, 'down')}`;
}

/**
 * Another view, not an alarm: the procedure takes every dive as square and rounds up at each step. Where it has no
 * view, why. @param altitudeM of the water @param isMade whether there is a mix to look it up for
 */
export function tableAside(
  opinion: SecondOpinion | null,
  altitudeM: number,
  isMade: boolean,
  units: Units,
): string {
  if (!opinion) return '';
  if (opinion.isWithin !== null) return opinion.isWithin ? 'within' : 'past its limit';
  if (altitudeM > TABLE_UP_TO_ALTITUDE_M) {
    return `holds up to ${unitText(TABLE_UP_TO_ALTITUDE_M, 'depth', units, 'down')} above the sea`;
  }
  return isMade ? 'deeper than it goes' : 'no mix to look it up for';
}
