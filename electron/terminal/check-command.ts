import { said } from '../../core/words/said';
import { wordsOf, pageReader } from '../../core/words/reader';
import { SEVERITIES } from '../../core/words/terms';
import { checked, type Checked } from './check-one';
import { CHECK, readCheckOptions, type CheckOptions } from './check-options';
import { checkedInOrder } from './check-pool';
import { helpText } from './option-table';
import { inked, type Ink } from './paint';
import { refused } from './refusal';
import type { CommandOutcome, Terminal } from './terminal';
import { padded } from './text-table';
import { STANDARD_INPUT, subjectOf, tripOf } from './trip-input';
import { tripsIn, type Folders } from './trips-in';

/** How wide the state of a trip is set. */
const STATE_WIDTH = 14;

const words = wordsOf(pageReader('metric'));

/** What a trip comes to, in a word, and its colour. */
function stateOf({ cautions }: Checked): { readonly text: string; readonly ink: Ink | null } {
  if (cautions === null) return { text: 'CANNOT USE', ink: 'stop' };
  if (cautions.stop > 0) return { text: words(said`${SEVERITIES.stop}`).toUpperCase(), ink: 'stop' };
  if (cautions.change > 0) return { text: words(said`${SEVERITIES.change}`), ink: 'change' };
  return { text: 'Within limits', ink: null };
}

function lineOf(path: string, found: Checked, { json, isColored }: CheckOptions): string {
  const { title, cautions, says } = found;
  if (json) {
    const document = { format: 'carryover/check', version: 1, path, title, cautions, says };
    return `${JSON.stringify(document)}\n`;
  }
  const { text, ink } = stateOf(found);
  const state = ink === null ? text : inked(text, ink, isColored);
  const named = title === '' ? '' : `${title}. `;
  return `${state}${padded('', STATE_WIDTH - text.length, true)}${path}: ${named}${says}\n`;
}

/** How many there were of each, for who looks at a fleet. */
interface Sum {
  trips: number;
  stop: number;
  change: number;
  unusable: number;
  others: number;
}

function sumText({ trips, stop, change, unusable, others }: Sum): string {
  const parts = [
    `${trips} trips`,
    `${stop} past a limit`,
    `${change} to adjust`,
    `${unusable} cannot be used`,
  ];
  const passed =
    others === 0
      ? ''
      : others === 1
        ? ' One JSON file that is no trip was passed over.'
        : ` ${others} JSON files that are no trips were passed over.`;
  return `${parts.join(', ')}.${passed}\n`;
}

function add(sum: Sum, { cautions }: Checked): void {
  sum.trips += 1;
  if (cautions === null) sum.unusable += 1;
  else if (cautions.stop > 0) sum.stop += 1;
  else if (cautions.change > 0) sum.change += 1;
}

/**
 * The command `check`: a line for each of many trips, printed as they are done.
 * @param args what follows the command @param terminal where it was started
 * @param folders where files are looked for; a test puts a failing disk in its place
 */
export async function checkCommand(
  args: readonly string[],
  terminal: Terminal,
  folders?: Folders,
): Promise<CommandOutcome> {
  const read = readCheckOptions(args, terminal.hasColors);
  if (!read.ok) return refused('the command line', read.troubles);
  const options = read.value;
  if (options.help) {
    return { status: 0, stdout: helpText(CHECK, terminal.called('check'), terminal.columns), stderr: '' };
  }
  const { units, paths } = options;
  const sum: Sum = { trips: 0, stop: 0, change: 0, unusable: 0, others: 0 };
  // Told whatever it is.
  const told = new Set<string>();
  const files = async function* (): AsyncGenerator<string> {
    const named = paths.filter((each) => each !== STANDARD_INPUT);
    for await (const { path, isTold } of tripsIn(named, folders)) {
      if (isTold) told.add(path);
      yield path;
    }
  };
  if (paths.includes(STANDARD_INPUT)) {
    const subject = subjectOf(STANDARD_INPUT);
    const found = checked(await tripOf(STANDARD_INPUT, terminal), subject, units);
    add(sum, found);
    await terminal.print(lineOf(subject, found, options));
  }
  for await (const { path, found } of checkedInOrder(files(), units)) {
    if (found.isOther && !told.has(path)) {
      sum.others += 1;
      continue;
    }
    add(sum, found);
    if (!(await terminal.print(lineOf(path, found, options)))) break;
  }
  if (sum.trips === 0) {
    const mend = 'Name trip files, or a folder that has some.';
    return refused(paths.join(', '), [
      { kind: 'no-trips', what: 'There is no trip in it.', where: '', mend },
    ]);
  }
  const status = sum.unusable > 0 ? 2 : options.strict && sum.stop > 0 ? 1 : 0;
  return { status, stdout: '', stderr: sum.trips > 1 ? sumText(sum) : '' };
}
