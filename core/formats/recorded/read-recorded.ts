import { fileWords, type Words } from '../../words/reader';
import { readUddf } from '../uddf/read-uddf';
import { readRecordedRows } from './read-recorded-rows';
import type { RecordedReading } from './recorded-dive';

/**
 * Recorded dives from a text of either format: UDDF where it is XML, else a table.
 * @param text anything @param ascentMPerMin at which a record that ends under water is brought up
 * @param words of whoever reads the troubles
 * Source: as `readUddf` and `readRecordedRows`.
 */
export function readRecorded(text: string, ascentMPerMin: number, words: Words = fileWords): RecordedReading {
  return /^\uFEFF?\s*</.test(text)
    ? readUddf(text, ascentMPerMin, words)
    : readRecordedRows(text, ascentMPerMin, words);
}
