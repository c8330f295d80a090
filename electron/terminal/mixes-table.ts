import { SAFETY_LINE } from '../../core/safety-line';
import type { CompareCell, CompareRow, NoStopTime } from '../../core/mixes/compare';
import type { FillPlan } from '../../core/mixes/fills';
import { whyNotText } from '../../core/mixes/richest';
import type { StockAnswer, StockList } from '../../core/mixes/stock';
import { greatest } from '../../core/numeric';
import { down, mixName, NONE, percentUp, signed, up } from '../../core/slate/figures';
import type { Site, Trip } from '../../core/document/types';
import { wrapped } from './plan-table';

/** Lists printed; --json has all that nothing beats. */
const PRINTED_LISTS = 20;

function table(rows: readonly (readonly string[])[], textColumns: number): readonly string[] {
  const widths = rows[0]!.map((_, column) => greatest(rows.map((row) => Array.from(row[column]!).length)));
  return rows.map((row) =>
    row
      .map((cell, column) => {
        const blanks = ' '.repeat(widths[column]! - Array.from(cell).length);
        return column < textColumns ? cell + blanks : blanks + cell;
      })
      .join('  ')
      .trimEnd(),
  );
}

function time(noStop: NoStopTime | null): string {
  if (noStop === null) return NONE;
  return noStop.unlimited ? 'no end' : String(down(noStop.min!));
}

function money(cost: number): string {
  return Number(cost.toFixed(2)).toString();
}

/** The time in the trip; with the depth it is for where that is not the site's, which stands over the table. */
function inTripTime({ inTrip }: CompareCell, site: Site): string {
  if (inTrip === null || inTrip.depthM === site.depthM) return time(inTrip);
  return `${time(inTrip)} at ${up(inTrip.depthM, 0.1)} m`;
}

function cellRow(cell: CompareCell, site: Site): readonly string[] {
  return [
    mixName(cell.o2),
    cell.allowed ? 'yes' : 'no',
    `${signed(down(cell.modM))} m`,
    time(cell.alone),
    inTripTime(cell, site),
    cell.inTripGainMin === null ? NONE : signed(down(cell.inTripGainMin)),
    percentUp(cell.cns),
    cell.otu === null ? NONE : String(up(cell.otu)),
    money(cell.cost),
    String(cell.usedOn.length),
  ];
}

const CELL_TITLES = ['mix', 'may go', 'MOD', 'alone', 'in trip', 'over air', 'CNS', 'OTU', 'price', 'dives'];

function siteText(row: CompareRow): string {
  const { site, richest, cells } = row;
  const best = richest.reachesWithAir
    ? `richest that suits ${richest.tenthO2 === richest.percent / 100 ? '' : `${(richest.tenthO2 * 100).toFixed(1)} %, in whole percent `}${richest.percent} %`
    : 'not even air may go there';
  const reasons = cells.flatMap((cell) =>
    cell.whyNot ? [`  ${mixName(cell.o2)}: ${whyNotText(cell.whyNot)}`] : [],
  );
  return [
    `${site.name}, ${up(site.depthM, 0.1)} m: ${best}.`,
    ...table([CELL_TITLES, ...cells.map((cell) => cellRow(cell, site))], 2),
    ...(cells.some((cell) => cell.allowed) ? [] : ['  No mix may go to this site.']),
    ...reasons,
  ].join('\n');
}

function listRow(list: StockList, dives: number): readonly string[] {
  const unused = list.unusedPercents.length === 0 ? '' : `${list.unusedPercents.join(', ')} unused`;
  return [
    list.isBest ? '*' : '',
    list.percents.map((percent) => `${percent} %`).join('  '),
    unused,
    `${list.divesWithin} of ${dives}`,
    list.smallestRoomMin === null
      ? 'no end'
      : list.smallestRoomMin === -Infinity
        ? NONE
        : signed(down(list.smallestRoomMin)),
    percentUp(list.oxygenPeak),
    money(list.cost),
    String(list.fills),
  ];
}

const LIST_TITLES = ['', 'besides air', '', 'within limits', 'least room', 'oxygen', 'cost', 'fills'];

/**
 * The lists worth telling: those that nothing beats and whose every mix has a use. Where each leaves one
 * unused, fewer mixes do as well, and showing them says so.
 */
export function listsTold({ lists }: StockAnswer): readonly StockList[] {
  const useful = lists.filter((list) => list.isBest && list.unusedPercents.length === 0);
  return useful.length > 0 ? useful : lists;
}

function stockText(trip: Trip, answer: StockAnswer): string {
  const { request, lists } = answer;
  const best = lists.filter((list) => list.isBest).length;
  const useful = lists.filter((list) => list.isBest && list.unusedPercents.length === 0);
  const told = listsTold(answer);
  const shown = told.slice(0, PRINTED_LISTS);
  const since = request.fromDate === null ? '' : ` from ${request.fromDate} on`;
  const over =
    answer.overLimit === 0 ? '' : ` ${answer.overLimit} lists cost more or take more fills than allowed.`;
  const unreached =
    answer.unreachedDiveIds.length === 0
      ? []
      : [
          wrapped(
            `No mix at all suits everybody on ${answer.unreachedDiveIds.join(', ')}: plan these shallower, or without the diver.`,
            2,
          ),
        ];
  const rows = shown.map((list) => listRow(list, trip.dives.length));
  return [
    wrapped(
      `What to stock${since}: ${answer.total} lists there are, ${answer.searched} worked out to the end; nothing ` +
        `beats ${best} of them (*), ${useful.length} with a use for every mix.${over} Least room in minutes, oxygen as the highest share on any clock, fills ` +
        'of anything but air.',
      0,
    ),
    ...unreached,
    ...(rows.length === 0 ? ['No list is left.'] : table([LIST_TITLES, ...rows], 3)),
    ...(told.length > shown.length ? [`... and ${told.length - shown.length} more with --json.`] : []),
  ].join('\n');
}

function fillsText(plan: FillPlan, whose: string): string {
  const rows = plan.lines.map((line) => [
    line.date,
    mixName(line.mix.analysedO2 ?? line.mix.o2),
    String(line.fills),
    String(up(line.litres)),
    String(up(line.oxygenL)),
    String(up(line.airL)),
    money(line.cost),
  ]);
  const { total } = plan;
  return [
    wrapped(
      `${whose}, from cylinders that come back at 50 bar of their mix, in litres at 1 bar ` +
        'without compressibility; the window also reckons with it, and for partial-pressure filling.',
      0,
    ),
    ...table(
      [
        ['day', 'mix', 'fills', 'litres', 'oxygen', 'air', 'cost'],
        ...rows,
        [
          'in all',
          '',
          String(total.fills),
          String(up(total.litres)),
          String(up(total.oxygenL)),
          String(up(total.airL)),
          money(total.cost),
        ],
      ],
      2,
    ),
  ].join('\n');
}

/**
 * The mixes of a trip as a person reads them in a terminal of 100 columns. Limits round down, exposures up.
 * @param fills of the trip as it stands; null where they cannot be told
 * @param answer null where nothing was searched
 * @param stocked fills of the open dives with the first list told on board; null where there is none
 */
export function mixesTable(
  trip: Trip,
  whose: string,
  rows: readonly CompareRow[],
  fills: FillPlan | null,
  answer: StockAnswer | null,
  stocked: FillPlan | null,
): string {
  const parts = [
    wrapped(
      `${trip.title}. Mixes for ${whose}: no-stop minutes alone (first dive, from rest) and at the tightest dive ` +
        'of the site in the trip, there at the depth of that dive (at its deepest level, named where it is not ' +
        'the depth of the site), minutes gained over air there, CNS and OTU of the dive that costs most, dives ' +
        'that would use it.',
      0,
    ),
    ...rows.map(siteText),
    ...(fills === null ? [] : [fillsText(fills, 'Fills of the trip as it stands')]),
    ...(answer === null ? [] : [stockText(trip, answer)]),
    ...(stocked === null ? [] : [fillsText(stocked, 'Fills with the first of these lists on board')]),
    wrapped(SAFETY_LINE, 0),
  ];
  return `${parts.join('\n\n')}\n`;
}
