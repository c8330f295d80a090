/** Where the window stood last time, if today's screens still have that place. */
import type { WindowBounds } from './settings';

export interface Area {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Smaller than this, a place in the table no longer shows its figures. */
export const SMALLEST = { width: 800, height: 560 } as const;
const USUAL = { width: 1280, height: 800 } as const;
/** As much of the window's upper edge must be seen as a hand needs to drag it by. */
const GRIP = { width: 160, height: 40 } as const;

/**
 * The bounds to open with: the saved ones where a person could reach them, else the usual size in the
 * middle of the first screen, and never larger than the screen.
 * @param saved from the last time, or null
 * @param workAreas of today's screens, the primary one first; never empty
 */
export function boundsToOpen(
  saved: WindowBounds | null,
  workAreas: readonly [Area, ...Area[]],
): WindowBounds {
  if (saved !== null) {
    const area = workAreas.find((each) => isReachable(saved, each));
    if (area !== undefined) return { ...saved, ...fittedSize(saved, area) };
  }
  const [primary] = workAreas;
  const { width, height } = fittedSize(USUAL, primary);
  return {
    x: primary.x + Math.floor((primary.width - width) / 2),
    y: primary.y + Math.floor((primary.height - height) / 2),
    width,
    height,
    isMaximized: saved?.isMaximized ?? false,
  };
}

function isReachable(bounds: Area, area: Area): boolean {
  const seenWidth = Math.min(bounds.x + bounds.width, area.x + area.width) - Math.max(bounds.x, area.x);
  const isTopSeen = bounds.y >= area.y && bounds.y + GRIP.height <= area.y + area.height;
  return isTopSeen && seenWidth >= GRIP.width;
}

function fittedSize(size: { width: number; height: number }, area: Area): { width: number; height: number } {
  return {
    width: Math.max(Math.min(size.width, area.width), Math.min(SMALLEST.width, area.width)),
    height: Math.max(Math.min(size.height, area.height), Math.min(SMALLEST.height, area.height)),
  };
}
