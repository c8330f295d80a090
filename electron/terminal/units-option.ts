import type { Trouble } from '../../core/result';
import type { Reader } from '../../core/words/reader';

export type Units = Reader['units'];

const UNITS: readonly Units[] = ['metric', 'imperial', 'both'];

/**
 * Reads the value of --units.
 * @param text as it was typed; undefined: not at all
 * @param isPrinted whether anything is printed or written that has units: JSON has its own
 * @returns metric where nothing is said, or something that is no units and told as a trouble
 */
export function readUnits(
  text: string | undefined,
  isPrinted: boolean,
  troubles: Trouble<'options'>[],
): Units {
  if (text === undefined) return 'metric';
  const refuse = (what: string, mend: string): void => {
    troubles.push({ kind: 'options', where: '--units', what, mend });
  };
  if (!isPrinted) refuse('JSON is in metres, bar and litres.', 'Leave it out, or leave out --json.');
  const found = UNITS.find((each) => each === text.trim().toLowerCase());
  // An empty value is told as a missing one already.
  if (found === undefined && text !== '') refuse(`"${text}" is not known here.`, `Use ${UNITS.join(', ')}.`);
  return found ?? 'metric';
}
