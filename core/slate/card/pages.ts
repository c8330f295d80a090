/** Cards as pages, on the paper that is asked for. */
import { failure, type Result } from '../../result';
import { cardSheets, papersOf, spaceOf, type CardPages } from '../card-sheets';
import { paperTooSmall } from '../faults';
import type { Setter } from '../layout';
import { KIND_NAMES } from '../names';
import { PT_PER_MM } from '../paper';
import { slateWords } from '../reading';
import type { SlateRequest, SlateTrouble } from '../request';
import { dayCards } from './cards';
import { LEAST_MEASURE } from './measure';

/**
 * Lays out cards.
 * @param dates days printed @param mark of the plan
 * @returns pages, or why they cannot be: the paper is too small for the size of type, or the sheet for the page
 */
export function cardPages(
  request: SlateRequest,
  set: Setter,
  dates: readonly string[],
  mark: string,
): Result<CardPages, SlateTrouble> {
  const { face } = papersOf(request);
  // What is on one face, and what has a page of its own, is not folded.
  const isFolded = request.isFolded && request.card === 'full';
  const twoSided = request.twoSided && !isFolded;
  const front = spaceOf(face, request, false);
  const tooSmall = paperTooSmall(slateWords(request), face.name, KIND_NAMES.card, null);
  if (front.widthPt < LEAST_MEASURE * PT_PER_MM * front.scale - 1e-6) return failure(tooSmall);
  const cards = dayCards(request, set, dates, front, mark, isFolded || twoSided);
  if (cards === null) return failure(tooSmall);
  return cardSheets(request, cards, { isFolded, twoSided });
}
