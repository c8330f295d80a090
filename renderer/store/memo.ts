/**
 * Remembers the answers for the last two sets of arguments, compared by identity: documents are immutable,
 * so the same object means the same answer. Two, so that looking back at the trip before a change does not
 * push out what is on screen and draw the whole page anew.
 */
export function memo<Args extends readonly unknown[], Value>(
  compute: (...args: Args) => Value,
): (...args: Args) => Value {
  interface Held {
    readonly args: Args;
    readonly value: Value;
  }
  let last: Held | null = null;
  let before: Held | null = null;
  return (...args) => {
    if (last && isSame(last.args, args)) return last.value;
    const found: Held = before && isSame(before.args, args) ? before : { args, value: compute(...args) };
    before = last;
    last = found;
    return found.value;
  };
}

/**
 * As `memo`, for what can take up again from the answer before: an edit leaves most of it as it was.
 * @param compute given the last answer, whatever it was for
 */
export function takingUp<Args extends readonly unknown[], Value>(
  compute: (previous: Value | undefined, ...args: Args) => Value,
): (...args: Args) => Value {
  let previous: Value | undefined;
  return memo((...args: Args) => {
    previous = compute(previous, ...args);
    return previous;
  });
}

/**
 * Remembers the last answer for each object while what else it was worked out with is the same, field by field; the
 * answer goes with the object. For what is asked of every dive, and is another for few of them after an edit.
 * @param compute given a record that always has the same fields
 */
export function memoEach<Of extends object, Given extends object, Value>(
  compute: (of: Of, given: Given) => Value,
): (of: Of, given: Given) => Value {
  const known = new WeakMap<Of, { readonly given: Given; readonly value: Value }>();
  return (of, given) => {
    const held = known.get(of);
    if (held && isAlike(held.given, given)) return held.value;
    const value = compute(of, given);
    known.set(of, { given, value });
    return value;
  };
}

function isAlike<Given extends object>(one: Given, other: Given): boolean {
  // Asked of every dive at every edit: a list of the keys would be made anew each time.
  for (const key in one) if (!Object.is(one[key], other[key])) return false;
  return true;
}

function isSame(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((each, i) => Object.is(each, b[i]));
}
