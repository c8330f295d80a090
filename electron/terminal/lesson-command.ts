import { lessonDocument, lessonParagraphs } from '../../core/lesson/lesson-document';
import { lessonPages } from '../../core/lesson/pages';
import { lessonPdf } from '../../core/lesson/pdf';
import { exerciseSheet, type Sheet } from '../../core/lesson/sheet';
import { sheetWords } from '../../core/lesson/sheet-words';
import { failure, type Result } from '../../core/result';
import { LESSON, readLessonOptions, type LessonOptions } from './lesson-options';
import { helpText } from './option-table';
import { refused } from './refusal';
import { slateFonts } from './slates';
import { wrapped } from './text-table';
import type { CommandOutcome, Terminal } from './terminal';
import { isThere, writeWhole } from './write-whole';

/** Writes the sheet; never over anything without being told to. */
async function writeSheet(
  sheet: Sheet,
  path: string,
  { paper, mayReplace }: LessonOptions,
  today: string,
): Promise<Result<null>> {
  const fonts = slateFonts();
  const laid = lessonPages(sheet, { paper, decimal: '.', fonts });
  if (!laid.ok) return laid;
  const pdf = await lessonPdf(laid.value, fonts, today);
  if (!mayReplace && (await isThere(path))) {
    return failure({
      kind: 'there-already',
      what: 'There is a file of that name already.',
      where: '--out',
      mend: 'Name another file, or add --replace.',
    });
  }
  return writeWhole(path, pdf, 'The exercise sheet');
}

/** The lines of a paragraph as wide as a terminal; what belongs to the first is set in. */
function paragraphText(lines: readonly string[]): string {
  return lines.map((text, at) => `${at === 0 ? '' : '    '}${wrapped(text, at === 0 ? 0 : 8)}`).join('\n');
}

/**
 * The command `lesson`: a sheet of exercises with its answers, as text or JSON and, where it is asked, as a PDF.
 * @param args what follows the command @param terminal where it was started
 */
export async function lessonCommand(args: readonly string[], terminal: Terminal): Promise<CommandOutcome> {
  const read = readLessonOptions(args);
  if (!read.ok) return refused('the command line', read.troubles);
  const options = read.value;
  const { columns, today } = terminal;
  if (options.help) {
    return { status: 0, stdout: helpText(LESSON, terminal.called('lesson'), columns), stderr: '' };
  }
  const made = exerciseSheet(options.sheet);
  if (!made.ok) return refused('the command line', made.troubles);
  if (options.out !== null) {
    const written = await writeSheet(made.value, options.out, options, today);
    if (!written.ok) return refused('the command line', written.troubles);
  }
  const words = sheetWords(options.sheet.units, '.');
  const stdout = options.json
    ? `${JSON.stringify(lessonDocument(made.value, words), null, 2)}\n`
    : `${lessonParagraphs(made.value, words).map(paragraphText).join('\n\n')}\n`;
  return { status: 0, stdout, stderr: '' };
}
