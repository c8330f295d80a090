import {
  inOneSystem,
  MINUS,
  pageReader,
  wordsOf,
  type Language,
  type Reader,
  type Words,
} from '../words/reader';
import type { Clock } from '../words/calendar';

/** How whoever holds a page reads: as the window does, as far as a page has room for it. */
export interface SlateReading {
  readonly units: Reader['units'];
  readonly clock: Clock;
  /** The decimal sign; left out: a point. */
  readonly decimal?: string | undefined;
  /** Left out: as the product is written. */
  readonly language?: Language | undefined;
}

/** The reader of a page; days without their year, which the foot or the head of the page has. */
export function slateReader({ units, clock, decimal = '.', language }: SlateReading): Reader {
  return { ...pageReader(units, language), clock, dates: 'day', signs: { decimal, minus: MINUS } };
}

/** How sentences of a page give figures, days and moments: with whole dates, and in one system. */
export function slateWords(reading: SlateReading): Words {
  return wordsOf(inOneSystem({ ...slateReader(reading), dates: 'full' }));
}
