/** How the height of the strip is shared out; text rows grow with the text, the rest with the window. */

export interface StripLayout {
  readonly headPx: number;
  readonly intervalPx: number;
  readonly waterPx: number;
  readonly titlePx: number;
  readonly nitrogenPx: number;
  readonly oxygenPx: number;
  readonly otuPx: number;
  readonly totalPx: number;
}

const LEAST = { waterPx: 170, nitrogenPx: 72, oxygenPx: 52 };
const SHARES = { water: 0.56, nitrogen: 0.26, oxygen: 0.18 };

/** @param heightPx what the window has left @param textScale 1 to 2 */
export function stripLayout(heightPx: number, textScale: number): StripLayout {
  const text = (px: number) => Math.round(px * textScale);
  const rows = { headPx: text(66), intervalPx: text(15), titlePx: text(38), otuPx: text(30) };
  const fixedPx = rows.headPx + rows.intervalPx + 2 * rows.titlePx + rows.otuPx;
  const leastPx = LEAST.waterPx + LEAST.nitrogenPx + LEAST.oxygenPx;
  const freePx = Math.max(heightPx - fixedPx, leastPx);
  const sparePx = freePx - leastPx;
  const nitrogenPx = Math.floor(LEAST.nitrogenPx + sparePx * SHARES.nitrogen);
  const oxygenPx = Math.floor(LEAST.oxygenPx + sparePx * SHARES.oxygen);
  const waterPx = Math.floor(freePx - nitrogenPx - oxygenPx);
  return { ...rows, waterPx, nitrogenPx, oxygenPx, totalPx: fixedPx + waterPx + nitrogenPx + oxygenPx };
}
