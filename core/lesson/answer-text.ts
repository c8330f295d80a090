import type { Words } from '../words/reader';
import { said, worked } from '../words/said';
import type { ExerciseAnswer } from './exercise';

/** "1.12 bar". */
export function answerText({ value, decimals, unit }: ExerciseAnswer, words: Words): string {
  return words(said`${worked(value, decimals)} ${unit}`);
}
