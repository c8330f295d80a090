import { failure, failures, success, type Result, type Trouble } from '../../core/result';
import { cautionsOf } from '../../core/cautions/all';
import { ledger } from '../../core/ledger/ledger';
import { ledgerDocument } from '../../core/formats/ledger-document';
import type { Ledger } from '../../core/ledger/ledger-types';
import type { Trip } from '../../core/document/types';
import { mostRuns, sturdiness } from '../../core/sturdiness/sturdiness';
import { sturdinessDocument } from '../../core/sturdiness/sturdiness-document';
import { fileWords, pageReader } from '../../core/words/reader';
import { explained } from './explain';
import { helpText } from './option-table';
import { PLAN, readPlanOptions, type PlanOptions } from './plan-options';
import { planTable } from './plan-table';
import { sturdyTable } from './sturdy-table';
import type { CommandOutcome, Terminal } from './terminal';
import type { Look } from './text-table';
import { refused } from './refusal';
import { readTripFile, subjectOf, tripOf } from './trip-input';
import type { Caution } from '../../core/cautions/caution';
import { isSameFile, writeWhole } from './write-whole';

/** What a trip can lack for the command though the window may open it. */
function troublesOf(options: PlanOptions, trip: Trip): readonly Trouble[] {
  const troubles: Trouble[] = [];
  if (trip.dives.length === 0) {
    troubles.push({
      kind: 'no-dives',
      what: 'The trip has no dives, so there is nothing to plan.',
      where: 'dives',
      mend: 'Add a dive; the window opens the trip as it is.',
    });
  }
  if (options.diver !== null && !trip.party.some(({ id }) => id === options.diver)) {
    troubles.push({
      kind: 'unknown-diver',
      what: `There is no diver "${options.diver}" in the party.`,
      where: '--diver',
      mend: `Use one of ${trip.party.map(({ id }) => id).join(', ')}.`,
    });
  }
  if (options.sturdy !== null && options.sturdy.runs > mostRuns(trip)) {
    troubles.push({
      kind: 'too-many-runs',
      what: `The divers make too many dives together for ${options.sturdy.runs} runs.`,
      where: '--runs',
      mend: `Ask for ${mostRuns(trip)} at most.`,
    });
  }
  return troubles;
}

/** How sturdy the plan is, as a table or as JSON. */
function sturdyAnswer(
  { json, diver, units }: PlanOptions,
  ask: NonNullable<PlanOptions['sturdy']>,
  trip: Trip,
  look: Look,
): string {
  const found = sturdiness(trip, { ...ask, nowMin: null }, true);
  if (!json) return sturdyTable(trip, found, diver, pageReader(units), look);
  return `${JSON.stringify(sturdinessDocument(trip, found, diver, fileWords), null, 2)}\n`;
}

/** A trouble of the slates under the name of the option that mends it. */
function asOption(trouble: Trouble): Trouble {
  return /^[a-z]+$/.test(trouble.where) ? { ...trouble, where: `--${trouble.where}` } : trouble;
}

/** Makes and writes the slates; what the fonts lack is a line of warning, no trouble. */
async function writeSlates(
  options: PlanOptions & { readonly slate: string },
  whole: Ledger,
  printedOn: string,
): Promise<Result<string>> {
  if (options.trip !== null && (await isSameFile(options.trip, options.slate))) {
    return failure({
      kind: 'same-file',
      what: 'The slates would be written over the trip.',
      where: '--slate',
      mend: 'Name another file.',
    });
  }
  const { since = null } = options.slateOptions;
  const before = since === null ? null : await readTripFile(since);
  if (before?.ok === false) {
    return failures(before.troubles.map((trouble) => ({ ...trouble, where: `--since ${since}` })));
  }
  // The PDF library is loaded by those who print.
  const { slateFromOptions } = await import('./slates');
  const made = await slateFromOptions(options.slateOptions, whole, printedOn, before?.value ?? null);
  if (!made.ok) {
    return failures(made.troubles.map(asOption));
  }
  const written = await writeWhole(options.slate, made.value.bytes, 'The slates');
  if (!written.ok) return written;
  const missing = made.value.missingLetters;
  return success(
    missing.length === 0
      ? ''
      : `The font of the slates lacks ${missing.join(' ')}; a box stands in their place.\n`,
  );
}

/** The table of the whole party, or of the one diver asked for. */
function tableOf(options: PlanOptions, whole: Ledger, cautions: readonly Caution[], look: Look): string {
  const reader = pageReader(options.units);
  if (options.diver === null) return planTable(whole, cautions, reader, look);
  const own = whole.trip.dives.filter((dive) => dive.divers?.includes(options.diver!) ?? true);
  const ids = new Set(own.map(({ id }) => id));
  return planTable(
    { ...whole, divers: whole.divers.filter(({ diver }) => diver.id === options.diver) },
    cautions.filter(
      ({ diverId, diveId }) =>
        diverId === options.diver || (diverId === null && (diveId === null || ids.has(diveId))),
    ),
    reader,
    look,
  );
}

/**
 * The command `plan`: everything is computed before anything is written, and nothing is printed of a trip
 * whose slates could not be written.
 * @param args what follows the command @param terminal where it was started
 */
export async function planCommand(args: readonly string[], terminal: Terminal): Promise<CommandOutcome> {
  const read = readPlanOptions(args, terminal.hasColors);
  if (!read.ok) return refused('the command line', read.troubles);
  const options = read.value;
  const { columns } = terminal;
  if (options.help) {
    return { status: 0, stdout: helpText(PLAN, terminal.called('plan'), columns), stderr: '' };
  }
  const look: Look = { columns, isColored: options.isColored };
  const subject = subjectOf(options.trip);
  const trip = await tripOf(options.trip, terminal);
  if (!trip.ok) return refused(subject, trip.troubles);
  const troubles = troublesOf(options, trip.value);
  if (troubles.length > 0) return refused(subject, troubles);
  const whole = ledger(trip.value);
  // Before anything is written: what cannot be explained is refused with nothing done.
  const told =
    options.explain === null ? null : explained(options.explain, whole, options.diver, options.json, look);
  if (told?.ok === false) return refused(subject, told.troubles);
  const cautions = cautionsOf(whole);
  let stderr = '';
  if (options.slate !== null) {
    const slates = await writeSlates({ ...options, slate: options.slate }, whole, terminal.today);
    if (!slates.ok) return refused('the slate options', slates.troubles);
    stderr = slates.value;
  }
  const status = options.strict && cautions.some(({ severity }) => severity === 'stop') ? 1 : 0;
  if (told?.ok) return { status, stdout: told.value, stderr };
  if (options.sturdy !== null) {
    return { status, stdout: sturdyAnswer(options, options.sturdy, trip.value, look), stderr };
  }
  const stdout = options.json
    ? `${JSON.stringify(ledgerDocument(whole, cautions, options.diver ?? undefined), null, 2)}\n`
    : tableOf(options, whole, cautions, look);
  return { status, stdout, stderr };
}
