/** How the height of the strip is shared out; text rows grow with the text, the rest with the window. */
import type { StripForm } from './strip-form';

export interface StripLayout {
  readonly boardPx: number;
  /** Between the board and the waterline: pennants, intervals, the bar to the hour of flying. */
  readonly skyPx: number;
  readonly waterPx: number;
  readonly titlePx: number;
  readonly nitrogenPx: number;
  readonly oxygenPx: number;
  readonly otuPx: number;
  readonly totalPx: number;
}

const LEAST = { waterPx: 170, nitrogenPx: 66, oxygenPx: 46 };
const SHARES = { nitrogen: 0.25, oxygen: 0.15 };
export const HEAD_PX = 24;
export const BOARD_ROW_PX = 17;

/** Room under the deepest weight for what is said there, at 100 % text. */
export function labelRoomPx(form: StripForm): number {
  return form === 'day' ? 74 : form === 'least' ? 78 : 36;
}

/** @param heightPx what the window has left @param textScale 1 to 2, or a step more @param rows of the board */
export function stripLayout(heightPx: number, textScale: number, rows: number, form: StripForm): StripLayout {
  const text = (px: number) => Math.round(px * textScale);
  const fixed = {
    boardPx: text(HEAD_PX + rows * BOARD_ROW_PX + (rows > 0 ? 5 : 0)),
    skyPx: text(form === 'day' ? 26 : 20),
    titlePx: text(25),
    otuPx: text(26),
  };
  const fixedPx = fixed.boardPx + fixed.skyPx + 2 * fixed.titlePx + fixed.otuPx;
  const leastPx = LEAST.waterPx + LEAST.nitrogenPx + LEAST.oxygenPx;
  const freePx = Math.max(heightPx - fixedPx, leastPx);
  const nitrogenPx = Math.max(LEAST.nitrogenPx, Math.floor(freePx * SHARES.nitrogen));
  const oxygenPx = Math.max(LEAST.oxygenPx, Math.floor(freePx * SHARES.oxygen));
  const waterPx = Math.floor(freePx - nitrogenPx - oxygenPx);
  return { ...fixed, waterPx, nitrogenPx, oxygenPx, totalPx: fixedPx + waterPx + nitrogenPx + oxygenPx };
}
