import { compareMixes, compareSites } from '../../core/mixes/compare';
import { fillsMade, type FillsMade } from '../../core/mixes/blending';
import { mixesDocument } from '../../core/mixes/mixes-document';
import { searchStock, type StockAnswer } from '../../core/mixes/stock';
import { openTrip, stockedTrip } from '../../core/mixes/stocked-trip';
import type { Trouble } from '../../core/result';
import { ledger } from '../../core/ledger/ledger';
import type { Ledger } from '../../core/ledger/ledger-types';
import type { Id, Trip } from '../../core/document/types';
import { pageReader } from '../../core/words/reader';
import { said } from '../../core/words/said';
import type { FillAsked } from './fill-options';
import { MIXES, readMixesOptions } from './mixes-options';
import { listsTold, mixesTable } from './mixes-table';
import { helpText } from './option-table';
import type { CommandOutcome, Terminal } from './terminal';
import { refused } from './refusal';
import { subjectOf, tripOf } from './trip-input';

/** The fills of a ledger as asked for; of some dives, or of all. */
function fillsOf(whole: Ledger, asked: FillAsked, diveIds: ReadonlySet<Id> | null = null) {
  const { method, startBar, startO2, bottle } = asked;
  const law = asked.law ?? whole.trip.settings.gasLaw;
  return fillsMade(whole, { method, law, startBar, startO2 }, bottle, diveIds);
}

/** What the first list told takes on the dives that are open to it. */
function fillsWithFirst(trip: Trip, asked: FillAsked, answer: StockAnswer): FillsMade | null {
  const [first] = listsTold(answer);
  if (!first) return null;
  const open = openTrip(trip, answer.request);
  const fills = fillsOf(ledger(stockedTrip(open, first.percents)), asked, open.openIds);
  return fills.ok ? fills.value : null;
}

/** The places of a request, as the options that set them. */
const OPTION_OF: Readonly<Record<string, string>> = {
  pool: '--pool',
  'largest cost': '--max-cost',
  'largest number of fills': '--max-fills',
};

/**
 * The command `mixes`: compares the mixes at the sites of a trip, and searches what to stock.
 * @param args what follows the command @param terminal where it was started
 */
export async function mixesCommand(args: readonly string[], terminal: Terminal): Promise<CommandOutcome> {
  const read = readMixesOptions(args, terminal.hasColors);
  if (!read.ok) return refused('the command line', read.troubles);
  const options = read.value;
  const { columns } = terminal;
  if (options.help) {
    return { status: 0, stdout: helpText(MIXES, terminal.called('mixes'), columns), stderr: '' };
  }
  const subject = subjectOf(options.trip);
  const opened = await tripOf(options.trip, terminal);
  if (!opened.ok) return refused(subject, opened.troubles);
  const trip = opened.value;
  const diver = trip.party.find(({ id }) => id === options.diver);
  if (options.diver !== null && !diver) {
    const mend = `Use one of ${trip.party.map(({ id }) => id).join(', ')}.`;
    const what = `There is no diver "${options.diver}" in the party.`;
    return refused(subject, [{ kind: 'unknown-diver', what, where: '--diver', mend }]);
  }
  let answer: StockAnswer | null = null;
  if (options.stock !== null) {
    const found = searchStock(trip, options.stock);
    if (!found.ok) {
      const asOption = (trouble: Trouble): Trouble => ({
        ...trouble,
        where: OPTION_OF[trouble.where] ?? `--${trouble.where}`,
      });
      return refused('the search', found.troubles.map(asOption));
    }
    answer = found.value;
  }
  const whole = ledger(trip);
  const rows = compareSites(whole, compareMixes(trip, options.shares), options.diver);
  const made = fillsOf(whole, options.fills);
  if (!made.ok && options.fills.isStartGiven) {
    return refused(
      subject,
      made.troubles.map((each) => ({ ...each, where: '--back' })),
    );
  }
  // A party of cylinders below the usual reserve is compared all the same.
  const fills = made.ok ? made.value : null;
  if (options.json) {
    const document = mixesDocument(trip, rows, answer, fills);
    return { status: 0, stdout: `${JSON.stringify(document, null, 2)}\n`, stderr: '' };
  }
  const whose = diver?.name ?? said`the tightest of the party`;
  const stocked = answer === null ? null : fillsWithFirst(trip, options.fills, answer);
  const told = { trip, whose, rows, fills, answer, stocked };
  const stdout = mixesTable(told, pageReader(options.units), { columns, isColored: options.isColored });
  return { status: 0, stdout, stderr: '' };
}
