import { MOST_TROUBLES, troubleText, type Trouble } from '../../core/result';
import type { CommandOutcome } from './terminal';

/** Most troubles of one file that are printed; a file with more has one cause for most of them. */
const PRINTED_TROUBLES = 20;

/**
 * Troubles as the commands print them on standard error.
 * @param subject what cannot be used, "week.json" or "the command line"
 */
export function troublesText(subject: string, troubles: readonly Trouble[]): string {
  const count =
    troubles.length === 1
      ? 'one thing'
      : troubles.length > MOST_TROUBLES
        ? `more than ${MOST_TROUBLES} things`
        : `${troubles.length} things`;
  const lines = troubles.slice(0, PRINTED_TROUBLES).map(troubleText);
  if (troubles.length > lines.length) lines.push('... and more; mend these first.');
  return `Carryover cannot use ${subject}; ${count} to mend, nothing was written.\n\n${lines.join('\n')}\n`;
}

/** A command that could not be carried out: why, and nothing else. */
export function refused(subject: string, troubles: readonly Trouble[]): CommandOutcome {
  return { status: 2, stdout: '', stderr: troublesText(subject, troubles) };
}
