import { failure, success, type Result } from '../../core/result';
import { writeTrip } from '../../core/document/write-trip';
import { mendingDocument } from '../../core/proposal/mend/mending-document';
import { mendings, type Mending } from '../../core/proposal/mend/proposals';
import { doneCountOf, USUAL_REQUEST } from '../../core/proposal/mend/request';
import { fileWords, pageReader } from '../../core/words/reader';
import { MEND, readMendOptions, type MendOptions } from './mend-options';
import { mendTable } from './mend-table';
import { helpText } from './option-table';
import type { CommandOutcome, Terminal } from './terminal';
import { refused } from './refusal';
import { STANDARD_INPUT, subjectOf, tripOf } from './trip-input';
import { isSameFile, isThere, writeWhole } from './write-whole';

/**
 * Writes the trip with a proposal carried out; never over anything without being told to.
 * @returns the trip as text where it goes to standard output
 */
async function writeMended(
  { trip, apply }: MendOptions & { readonly apply: NonNullable<MendOptions['apply']> },
  { proposals }: Mending,
): Promise<Result<string | null>> {
  const { number, out, mayReplace } = apply;
  const proposal = proposals[number - 1];
  if (proposal === undefined) {
    const what =
      proposals.length === 0
        ? 'Nothing is proposed, so there is nothing to carry out.'
        : `There is no proposal ${number}.`;
    const mend =
      proposals.length === 0
        ? 'Leave it out; the answer says why nothing is proposed.'
        : `Use a number from 1 to ${proposals.length}.`;
    return failure({ kind: 'no-proposal', what, where: '--apply', mend });
  }
  const text = writeTrip(proposal.trip);
  if (out === STANDARD_INPUT) return success(text);
  if (!mayReplace && (await isThere(out))) {
    const isTrip = trip !== null && (await isSameFile(trip, out));
    return failure({
      kind: 'there-already',
      what: isTrip
        ? 'The mended trip would be written over the trip.'
        : 'There is a file of that name already.',
      where: '--out',
      mend: 'Name another file, or add --replace.',
    });
  }
  return writeWhole(out, new TextEncoder().encode(text), 'The mended trip');
}

/**
 * The command `mend`: what can be done about the cautions of the dives ahead, and, where it is asked, the trip with
 * one proposal carried out. Everything is worked out before anything is written.
 * @param args what follows the command @param terminal where it was started
 */
export async function mendCommand(args: readonly string[], terminal: Terminal): Promise<CommandOutcome> {
  const read = readMendOptions(args, terminal.hasColors);
  if (!read.ok) return refused('the command line', read.troubles);
  const options = read.value;
  const { columns } = terminal;
  if (options.help) {
    return { status: 0, stdout: helpText(MEND, terminal.called('mend'), columns), stderr: '' };
  }
  const opened = await tripOf(options.trip, terminal);
  if (!opened.ok) return refused(subjectOf(options.trip), opened.troubles);
  const trip = opened.value;
  const { costs, steps, leastRoomMin, apply, diveId } = options;
  if (diveId !== null && !trip.dives.some(({ id }) => id === diveId)) {
    const what = `The trip has no dive "${diveId}".`;
    const mend = 'Name one by its id in the file.';
    return refused('the command line', [{ kind: 'no-dive', what, where: '--dive', mend }]);
  }
  // A dive that starts at that minute is still ahead.
  const untilMin = options.doneBeforeMin === null ? null : options.doneBeforeMin - 1;
  const doneCount = doneCountOf(trip, untilMin);
  const mending = mendings(trip, {
    ...USUAL_REQUEST,
    doneCount,
    onlyDiveId: diveId,
    costs,
    steps,
    leastRoomMin,
  });
  if (apply !== null) {
    const written = await writeMended({ ...options, apply }, mending);
    if (!written.ok) return refused('the command line', written.troubles);
    if (written.value !== null) return { status: 0, stdout: '', stderr: '', file: written.value };
  }
  const stdout = options.json
    ? `${JSON.stringify(mendingDocument(trip, mending, fileWords), null, 2)}\n`
    : mendTable(trip, mending, apply?.number ?? null, pageReader(options.units), {
        columns,
        isColored: options.isColored,
      });
  return { status: 0, stdout, stderr: '' };
}
