/**
 * Mean of x^power while x runs linearly between two ends.
 * Method: with r = to / from - 1 seen from the larger end, mean = big^p * expm1((p+1) log1p(r)) / ((p+1) r);
 * all digits at any slope, also where one end is 0 (log1p(-1) = -Infinity gives big^p / (p+1)).
 * @param from 0 or more @param to 0 or more @param power above 0
 * @returns (to^(p+1) - from^(p+1)) / ((p+1) (to - from)); from^p where both ends are equal
 * Source: integral of a power.
 */
export function meanPower(from: number, to: number, power: number): number {
  const big = Math.max(from, to);
  const fall = big - Math.min(from, to);
  if (fall === 0) return big ** power;
  // What the closed form comes to, without its two logarithms: most slopes of a dive count down to nothing.
  if (fall === big) return big ** power / (power + 1);
  const ratio = -fall / big;
  return (big ** power * Math.expm1((power + 1) * Math.log1p(ratio))) / ((power + 1) * ratio);
}
