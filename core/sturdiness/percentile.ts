/**
 * The value that a share of a list does not exceed, exact, by selection in place.
 * @param values is put in another order @param share 0 to 1
 * @returns the smallest value that at least so large a share of them does not exceed
 * Source: C. A. R. Hoare, "Algorithm 65: Find", Commun ACM 1961;4:321-322; the sample quantile of type 1 of R. J. Hyndman,
 * Y. Fan, "Sample quantiles in statistical packages", Am Stat 1996;50:361-365.
 */
export function percentile(values: Float32Array, share: number): number {
  const wanted = Math.max(0, Math.ceil(share * values.length - 1e-9) - 1);
  let low = 0;
  let high = values.length - 1;
  while (low < high) {
    const pivot = values[(low + high) >> 1]!;
    let i = low;
    let j = high;
    while (i <= j) {
      while (values[i]! < pivot) i += 1;
      while (values[j]! > pivot) j -= 1;
      if (i > j) break;
      const held = values[i]!;
      values[i] = values[j]!;
      values[j] = held;
      i += 1;
      j -= 1;
    }
    if (wanted <= j) high = j;
    else if (wanted >= i) low = i;
    else break;
  }
  return values[wanted]!;
}
