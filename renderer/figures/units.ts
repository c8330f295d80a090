/** Figures at the edge of the window: what is metres and bar inside is shown and typed in the chosen units. */
import type { Settings } from '../../core/host';
import { BAR_PER_PSI, L_PER_CUBIC_FOOT, M_PER_FOOT } from '../../core/units';

export type Units = Settings['units'];

/** A kind of figure with a unit that depends on the settings. */
export type Kind = 'depth' | 'pressure' | 'volume' | 'rate';

export interface Unit {
  /** After a figure: "22 m". */
  readonly sign: string;
  /** For a screen reader and a field's label. */
  readonly name: string;
  /** One of these in what core reckons in. */
  readonly inSi: number;
}

const UNITS: Readonly<Record<Kind, Readonly<Record<Units, Unit>>>> = {
  depth: {
    metric: { sign: 'm', name: 'metres', inSi: 1 },
    imperial: { sign: 'ft', name: 'feet', inSi: M_PER_FOOT },
  },
  pressure: {
    metric: { sign: 'bar', name: 'bar', inSi: 1 },
    imperial: { sign: 'psi', name: 'pounds per square inch', inSi: BAR_PER_PSI },
  },
  volume: {
    metric: { sign: 'L', name: 'litres', inSi: 1 },
    imperial: { sign: 'cu ft', name: 'cubic feet', inSi: L_PER_CUBIC_FOOT },
  },
  rate: {
    metric: { sign: 'L/min', name: 'litres a minute', inSi: 1 },
    imperial: { sign: 'cu ft/min', name: 'cubic feet a minute', inSi: L_PER_CUBIC_FOOT },
  },
};

export function unitOf(kind: Kind, units: Units): Unit {
  return UNITS[kind][units];
}

export function toUnit(si: number, kind: Kind, units: Units): number {
  return si / unitOf(kind, units).inSi;
}

export function fromUnit(shown: number, kind: Kind, units: Units): number {
  return shown * unitOf(kind, units).inSi;
}
