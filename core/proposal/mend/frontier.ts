import { POINT, wholePoints } from './moves';

/** What a price can buy at best: prices rising, and with them values. */
export interface Frontier {
  readonly price: readonly number[];
  readonly value: readonly number[];
}

/** Gathers offers by price, the best value of each: sorting them would cost more than all the rest. */
export class Offers {
  private readonly best: Float64Array;

  /** @param most points that are looked at @param touched dives that a price may count, at most */
  constructor(
    private readonly most: number,
    private readonly touched: number,
  ) {
    this.best = new Float64Array((most + 1) * (touched + 1)).fill(-Infinity);
  }

  add(price: number, value: number): void {
    const points = wholePoints(price);
    if (points > this.most) return;
    const at = points * (this.touched + 1) + (price - points * POINT);
    if (value > this.best[at]!) this.best[at] = value;
  }

  /** What touches one dive, or none where it costs nothing. */
  addPoints(points: number, value: number): void {
    if (points > this.most) return;
    const at = points * (this.touched + 1) + (points > 0 ? 1 : 0);
    if (value > this.best[at]!) this.best[at] = value;
  }

  /** Begins anew: making the list costs more than filling it. */
  clear(): this {
    this.best.fill(-Infinity);
    return this;
  }

  frontier(): Frontier {
    const price: number[] = [];
    const value: number[] = [];
    let most = -Infinity;
    for (let at = 0; at < this.best.length; at += 1) {
      const found = this.best[at]!;
      if (found <= most) continue;
      const touched = at % (this.touched + 1);
      price.push(((at - touched) / (this.touched + 1)) * POINT + touched);
      value.push((most = found));
    }
    return { price, value };
  }
}

/**
 * One offer of each: a knapsack with one row, of which each dive takes exactly one thing.
 * @param most points that are looked at @param touched dives that both together may touch
 * Source: the multiple-choice knapsack by dynamic programming, H. Kellerer, U. Pferschy, D. Pisinger, Knapsack
 * Problems, Springer 2004, ch. 11.
 */
export function both(a: Frontier, b: Frontier, most: number, touched: number): Frontier {
  const offers = new Offers(most, touched);
  const dearest = (most + 1) * POINT;
  for (let i = 0; i < a.price.length; i += 1) {
    for (let k = 0; k < b.price.length; k += 1) {
      const price = a.price[i]! + b.price[k]!;
      if (price >= dearest) break;
      offers.add(price, a.value[i]! + b.value[k]!);
    }
  }
  return offers.frontier();
}

/** The least price at which a need is met; `beyond` where nothing on the list does. */
export function cheapest({ price, value }: Frontier, need: number, beyond: number): number {
  let low = 0;
  let high = value.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (value[middle]! >= need) high = middle;
    else low = middle + 1;
  }
  return low === value.length ? beyond : price[low]!;
}
