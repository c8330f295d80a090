import { EXPORT_FORMATS } from '../../core/formats/all';
import { uddfFiles } from '../../core/formats/uddf/uddf-files';
import { zipOf } from '../../core/formats/zip';
import { ledger } from '../../core/ledger/ledger';
import type { Trip } from '../../core/document/types';
import { failure, success, type Result } from '../../core/result';
import { pageReader } from '../../core/words/reader';
import { EXPORT, readExportOptions, type ExportOptions } from './export-options';
import { helpText } from './option-table';
import { refused } from './refusal';
import type { CommandOutcome, Terminal } from './terminal';
import { STANDARD_INPUT, subjectOf, tripOf } from './trip-input';
import { isSameFile, isThere, writeWhole } from './write-whole';

/** What goes into the file, and what has to be known of it. */
interface Made {
  readonly content: string | Uint8Array;
  readonly remarks: readonly string[];
}

function isArchive(path: string): boolean {
  return path.toLowerCase().endsWith('.zip');
}

/** UDDF: the file of one diver, or an archive with one for each. */
function uddf(trip: Trip, options: ExportOptions, stampedAtUtc: string): Result<Made> {
  const { diver, dives, out } = options;
  if (diver !== null && !trip.party.some(({ id }) => id === diver)) {
    return failure({
      kind: 'unknown-diver',
      what: `There is no diver "${diver}" in the party.`,
      where: '--diver',
      mend: `Use one of ${trip.party.map(({ id }) => id).join(', ')}.`,
    });
  }
  const whose = diver === null ? null : [diver];
  const { files, remarks } = uddfFiles(ledger(trip), whose, stampedAtUtc, dives);
  if (isArchive(out)) {
    const entries = files.map(({ name, text }) => ({ name, bytes: new TextEncoder().encode(text) }));
    return success({ content: zipOf(entries, stampedAtUtc.slice(0, 10)), remarks });
  }
  const [first, ...others] = files;
  if (first === undefined || others.length > 0) {
    return failure({
      kind: 'several-files',
      what: `UDDF knows one diver a file, so this is ${files.length} files.`,
      where: '--out',
      mend: 'Name an archive, as in --out party.zip, or one diver with --diver.',
    });
  }
  return success({ content: first.text, remarks });
}

function made(trip: Trip, options: ExportOptions, stampedAtUtc: string): Result<Made> {
  const { format: id, csv, units, clock } = options;
  if (id === 'uddf') return uddf(trip, options, stampedAtUtc);
  const format = EXPORT_FORMATS.find((each) => each.id === id)!;
  const reader = { ...pageReader(units), clock };
  const { text, remarks } = format.write({ ledger: ledger(trip), stampedAtUtc, reader, csv });
  return success({ content: text, remarks });
}

async function written(
  { out, trip, mayReplace }: ExportOptions,
  content: Made['content'],
): Promise<Result<null>> {
  if (trip !== null && trip !== STANDARD_INPUT && (await isSameFile(trip, out))) {
    return failure({
      kind: 'same-file',
      what: 'The file would be written over the trip.',
      where: '--out',
      mend: 'Name another file.',
    });
  }
  if (!mayReplace && (await isThere(out))) {
    return failure({
      kind: 'there-already',
      what: 'There is a file of that name already.',
      where: '--out',
      mend: 'Name another file, or add --replace.',
    });
  }
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
  return writeWhole(out, bytes, 'The export');
}

/**
 * The command `export`: a trip, or a part of it, as a file that other programs read. One file is written, whole or not at
 * all, or goes to standard output byte for byte.
 * @param args what follows the command @param terminal where it was started
 */
export async function exportCommand(args: readonly string[], terminal: Terminal): Promise<CommandOutcome> {
  const read = readExportOptions(args);
  if (!read.ok) return refused('the command line', read.troubles);
  const options = read.value;
  if (options.help) {
    return { status: 0, stdout: helpText(EXPORT, terminal.called('export'), terminal.columns), stderr: '' };
  }
  const opened = await tripOf(options.trip, terminal);
  if (!opened.ok) return refused(subjectOf(options.trip), opened.troubles);
  const file = made(opened.value, options, terminal.stampedAtUtc);
  if (!file.ok) return refused('the command line', file.troubles);
  const { content, remarks } = file.value;
  const stderr = remarks.map((remark) => `${remark}\n`).join('');
  if (options.out === STANDARD_INPUT && typeof content === 'string') {
    return { status: 0, stdout: '', stderr, file: content };
  }
  const done = await written(options, content);
  return done.ok ? { status: 0, stdout: '', stderr } : refused('the command line', done.troubles);
}
