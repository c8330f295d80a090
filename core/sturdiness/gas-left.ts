/** What the gas of a scattered dive leaves. Source: as `spareL`. */
import { contentL } from '../supply';
import type { DiveMaps } from './dive-maps';
import type { DiveTable, StopTable } from './dive-table';
import { CM } from './scatter';
import type { CellTable, TripTable } from './trip-table';

/** Two divers, each at twice the rate; a minute to sort things out. Source: CONVENTIONS, "Minimum gas". */
const EMERGENCY = 4;

/**
 * Gas beyond what has to be left, the dive made as planned.
 * @param maps of the dive as drawn @param cm deeper than planned, centimetres @param rate litres a minute at 1 bar
 * @param o2 fraction breathed
 * @returns litres at 1 bar, below 0 where it is short: the less of reserve at the surface and minimum gas on leaving
 * Source: as `spareAsPlannedL`.
 */
export function gasLeftL(
  table: TripTable,
  maps: DiveMaps,
  cell: CellTable,
  dive: DiveTable,
  cm: number,
  rate: number,
  o2: number,
): number {
  const { column, ascentMPerMin } = table.around;
  const { waterL, fillBar, reserveBar } = cell.person.cylinder;
  const law = table.trip.settings.gasLaw;
  const filledL = contentL(waterL, fillBar, o2, law);
  const reserveL = contentL(waterL, reserveBar, o2, law);
  const deepestBar = dive.deepestBar + (column.barPerM * cm) / CM;
  const up = emergencyBarMin(
    dive.emergencyStop,
    dive.deepestM + cm / CM,
    deepestBar,
    column.surfaceBar,
    ascentMPerMin,
  );
  const minimumL = Math.max(reserveL, EMERGENCY * rate * (deepestBar + up));
  return Math.min(
    filledL - rate * maps.breathedBarMin - reserveL,
    filledL - rate * maps.atLeavingBarMin - minimumL,
  );
}

/** Bar minutes of the way up of an emergency. Source: as `emergencyWay`. */
function emergencyBarMin(
  stop: StopTable | null,
  deepestM: number,
  deepestBar: number,
  surfaceBar: number,
  ascentMPerMin: number,
): number {
  if (stop === null) return (((deepestBar + surfaceBar) / 2) * deepestM) / ascentMPerMin;
  const toStop = (((deepestBar + stop.bar) / 2) * (deepestM - stop.depthM)) / ascentMPerMin;
  return toStop + stop.bar * stop.min + ((stop.bar + surfaceBar) / 2) * stop.lastMin;
}
