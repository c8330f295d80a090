import { inOneSystem, pageReader, wordsOf, type Words } from '../words/reader';
import type { SlateReading } from './figures';

/** How sentences of a slate give figures, days and moments: as the rest of its page does, in one system. */
export function slateWords({ units, clock }: SlateReading): Words {
  return wordsOf(inOneSystem({ ...pageReader(units), clock }));
}
