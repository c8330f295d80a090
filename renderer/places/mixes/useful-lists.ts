import type { StockList } from '../../../core/mixes/stock';

/**
 * The lists that nothing beats, each reduced to the mixes a dive is given, and each of those once: a mix that
 * nobody breathes changes nothing, so what is left comes to the same.
 */
export function usefulLists(lists: readonly StockList[]): readonly StockList[] {
  const byUse = new Map<string, StockList>();
  for (const list of lists) {
    if (!list.isBest) continue;
    const percents = list.percents.filter((percent) => !list.unusedPercents.includes(percent));
    const key = percents.join('-');
    if (!byUse.has(key)) byUse.set(key, { ...list, percents, unusedPercents: [] });
  }
  return [...byUse.values()];
}
