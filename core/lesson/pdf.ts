import { assert } from '../result';
import type { SlateFonts } from '../slate/font';
import { writePdf } from '../slate/pdf';
import type { LessonPages } from './pages';

/**
 * Pages of a class as a PDF, the same from the window and the command.
 * @param printedOn "2027-03-05", which stands in the file and not on the pages
 */
export async function lessonPdf(
  { pages, title }: LessonPages,
  fonts: SlateFonts,
  printedOn: string,
): Promise<Uint8Array> {
  const bytes = await writePdf(pages, fonts, { title, printedOn });
  assert(bytes !== null, 'pages that nobody stopped are made');
  return bytes;
}
