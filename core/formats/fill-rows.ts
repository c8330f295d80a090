import { mixO2 } from '../ledger/mix-choice';
import type { FillPlan } from '../mixes/fills';
import { up } from '../slate/figures';
import { csvText, type CsvStyle } from './delimited';

const HEADINGS = [
  'day',
  'oxygen (%)',
  'fills',
  'gas put in (L)',
  'oxygen (L)',
  'air (L)',
  'cost',
  'let down first',
  'cannot be filled this way',
] as const;

/**
 * The fills of a trip by day and mix as comma-separated values, without their sum, which a spreadsheet makes.
 * @param plan of the fills @param style of the spreadsheets that will open it @returns headings and rows, in their order; litres at 1 bar, rounded up; no air of a membrane, which takes in more than it gives, and no cost where nobody said one
 * Source: RFC 4180 (2005); figures as in the plan.
 */
export function writeFillRows({ lines }: FillPlan, style?: CsvStyle): string {
  const rows = [
    HEADINGS,
    ...lines.map(({ date, mix, fills, litres, oxygenL, airL, cost, drained, impossible }) => [
      date,
      Number((100 * mixO2(mix)).toFixed(2)),
      fills,
      up(litres),
      up(oxygenL),
      airL === null ? '' : up(airL),
      cost ?? '',
      drained,
      impossible,
    ]),
  ];
  return csvText(rows, style);
}
