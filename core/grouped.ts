/**
 * The items of a list by a key of theirs.
 * @returns groups in the order of the first of each, every group in the order of the list
 */
export function grouped<Each, Key>(list: readonly Each[], keyOf: (each: Each) => Key): Map<Key, Each[]> {
  const groups = new Map<Key, Each[]>();
  for (const each of list) {
    const key = keyOf(each);
    const held = groups.get(key);
    if (held) held.push(each);
    else groups.set(key, [each]);
  }
  return groups;
}
