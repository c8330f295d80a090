/**
 * Remembers the last answer for the last arguments, compared by identity: documents are immutable, so the
 * same object means the same answer.
 */
export function memo<Args extends readonly unknown[], Value>(
  compute: (...args: Args) => Value,
): (...args: Args) => Value {
  let last: { readonly args: Args; readonly value: Value } | null = null;
  return (...args) => {
    if (last && last.args.length === args.length && last.args.every((each, i) => Object.is(each, args[i]))) {
      return last.value;
    }
    last = { args, value: compute(...args) };
    return last.value;
  };
}
