import type { Carry } from './ledger-types';

/** Whether two pieces of plain data say the same, to the last bit. */
function isSame(one: unknown, other: unknown): boolean {
  if (Object.is(one, other)) return true;
  if (Array.isArray(one) && Array.isArray(other)) {
    return one.length === other.length && one.every((each, i) => isSame(each, other[i]));
  }
  if (!isRecord(one) || !isRecord(other)) return false;
  const keys = Object.keys(one);
  return keys.length === Object.keys(other).length && keys.every((key) => isSame(one[key], other[key]));
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/**
 * Whether a diver comes out of a dive as before: with the same tensions, oxygen and table, to the last bit. Every field
 * is looked at, so that one that is added to a carry is not forgotten here.
 */
export function isSameCarry(one: Carry, other: Carry): boolean {
  return isSame(one, other);
}
