import { siteOf } from '../document/site-of';
import type { Id } from '../document/types';
import { mixO2 } from '../ledger/mix-choice';
import type { Ledger } from '../ledger/ledger-types';
import { isWithoutPrice } from '../mixes/loop-cylinders';
import { filledWith } from '../mixes/outcome';
import { csvText, type Cell, type CsvStyle } from './delimited';

const HEADINGS = [
  'diver',
  'site',
  'depth of the site (m)',
  'oxygen (%)',
  'fills',
  'cost of a fill',
  'cost',
] as const;

interface Line {
  readonly head: readonly Cell[];
  readonly costPerFill: number | null;
  fills: number;
}

/**
 * What a stock of mixes comes to, as separated values: a row for each diver, site and mix, which a spreadsheet sums by any
 * of them. Air has its rows too.
 * @param ledger with the mixes on board @param diveIds only these dives; null: all
 * @param style of the spreadsheets that will open it
 * @returns headings and rows, divers in the order of the party, sites and mixes as they are first dived; a dive without a
 *   mix takes no fill; what loops take has its rows too, oxygen as 100 %, bail-out at the first site that it goes to
 * Source: RFC 4180 (2005); mixes as in the ledger.
 */
export function writeStockRows(
  { trip, divers }: Ledger,
  diveIds: ReadonlySet<Id> | null = null,
  style?: CsvStyle,
): string {
  const rows = divers.flatMap((each) => {
    const { diver } = each;
    const lines = new Map<string, Line>();
    for (const { entry, mix } of filledWith(trip, each, diveIds)) {
      const { dive } = entry;
      const key = JSON.stringify([dive.siteId, mix.id]);
      let line = lines.get(key);
      if (line === undefined) {
        const site = siteOf(trip, dive);
        const oxygen = Number((100 * mixO2(mix)).toFixed(2));
        const head = [diver.name, site?.name ?? dive.siteId, site?.depthM ?? null, oxygen];
        lines.set(
          key,
          (line = { head, costPerFill: isWithoutPrice(mix) ? null : mix.costPerFill, fills: 0 }),
        );
      }
      line.fills += 1;
    }
    return [...lines.values()].map(({ head, costPerFill, fills }) => [
      ...head,
      fills,
      costPerFill,
      // Prices have hundredths at most; their sum has no more.
      costPerFill === null ? null : Number((fills * costPerFill).toFixed(2)),
    ]);
  });
  return csvText([HEADINGS, ...rows], style);
}
