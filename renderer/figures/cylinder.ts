/** A cylinder as it is spoken of: by its water in litres, by the gas it holds when full in cubic feet. */
import type { Cylinder } from '../../core/document/types';
import { numberText } from './format';
import { toUnit, unitOf, type Units } from './units';

/** Litres at 1 bar in a full cylinder, by the ideal gas law: the size it is called by. */
export function fullL({ waterL, fillBar }: Pick<Cylinder, 'waterL' | 'fillBar'>): number {
  return waterL * fillBar;
}

/** "12 L" or "85 cu ft". */
export function cylinderText(cylinder: Cylinder, units: Units): string {
  if (units === 'imperial') {
    return `${numberText(toUnit(fullL(cylinder), 'volume', units), 0, 'near')} ${unitOf('volume', units).sign}`;
  }
  const isWhole = Math.abs(cylinder.waterL - Math.round(cylinder.waterL)) < 0.05;
  return `${numberText(cylinder.waterL, isWhole ? 0 : 1, 'near')} ${unitOf('volume', units).sign}`;
}
