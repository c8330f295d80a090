/** The first free id of a kind, counted up from the number of those there are: "d9", "site-4". */
export function freeId(stem: string, taken: readonly { readonly id: string }[]): string {
  const ids = new Set(taken.map(({ id }) => id));
  let n = taken.length + 1;
  while (ids.has(`${stem}${n}`)) n += 1;
  return `${stem}${n}`;
}
