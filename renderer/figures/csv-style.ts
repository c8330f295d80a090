import { csvStyleOf, type CsvStyle } from '../../core/formats/delimited';
import type { Settings } from '../../core/host';
import { decimalSign } from './decimal-sign';

/** How tables are written for the spreadsheets here: as chosen, or by the decimal sign of the system. */
export function csvStyle({ tables }: Pick<Settings, 'tables'>): CsvStyle {
  const decimal = tables === 'system' ? decimalSign() : tables === 'semicolons' ? ',' : '.';
  return csvStyleOf(decimal === ',' ? ',' : '.');
}
