/**
 * Whether two pieces of plain data say the same, numbers to the last bit: a key that is undefined is a key that is not
 * there. What two trips share by identity costs nothing, so after an edit only what was made anew is looked at.
 */
export function isSame(one: unknown, other: unknown): boolean {
  if (Object.is(one, other)) return true;
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null) return false;
  if (Array.isArray(one) || Array.isArray(other)) {
    return (
      Array.isArray(one) &&
      Array.isArray(other) &&
      one.length === other.length &&
      one.every((each, i) => isSame(each, other[i]))
    );
  }
  const [left, right] = [one as Record<string, unknown>, other as Record<string, unknown>];
  return (
    Object.keys(left).every((key) => isSame(left[key], right[key])) &&
    Object.keys(right).every((key) => key in left || right[key] === undefined)
  );
}
