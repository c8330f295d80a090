/** Figures as the strip writes them: shorter than elsewhere, rounded once and to the careful side. */
import type { Settings } from '../../../../core/host';
import { wallDate, wallText } from '../../../../core/words/calendar';
import { clockText, dateText, depthText, hoursText, minutesText } from '../../../figures/format';

export type Reader = Pick<Settings, 'units' | 'clock'>;

/** Depth without its unit, as soundings stand on a chart. */
export function sounding(depthM: number, reader: Reader, isDone = false): string {
  return depthText(depthM, reader.units, isDone ? 'up' : 'down').replace(/\s\D{1,9}$/u, '');
}

/** "2 h 31", rounded up: time in the water is what is used up. */
export function hoursWords(min: number): string {
  return hoursText(min, 'up').replace(':', ' h ');
}

/** "Tue 9, 13:10" */
export function momentText(wallMin: number, reader: Reader): string {
  return `${dateText(wallDate(wallMin))}, ${clockText(wallText(wallMin), reader.clock)}`;
}

/** "3 min", "−2 min" */
export function roomText(min: number): string {
  return minutesText(min, 'down');
}
