import { inOneSystem, pageReader, wordsOf, type Words } from '../words/reader';
import type { SlateUnits } from './figures';

/** How sentences of a slate give figures, days and moments: as the rest of its page does, in one system. */
export function slateWords(units: SlateUnits): Words {
  return wordsOf(inOneSystem(pageReader(units)));
}
