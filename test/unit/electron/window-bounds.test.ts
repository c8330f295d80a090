import { describe, expect, it } from 'vitest';
import { boundsToOpen } from '../../../electron/window-bounds';

const SCREEN = { x: 0, y: 0, width: 1920, height: 1040 };
const SECOND = { x: 1920, y: 0, width: 1280, height: 1024 };
const saved = (x: number, y: number, width = 1100, height = 700) => ({
  x,
  y,
  width,
  height,
  isMaximized: false,
});

describe('boundsToOpen', () => {
  it('takes the usual size in the middle of the first screen at the first start', () => {
    expect(boundsToOpen(null, [SCREEN, SECOND])).toEqual({ ...saved(320, 120, 1280, 800) });
  });

  it('brings the window back where it stood, on whichever screen', () => {
    expect(boundsToOpen(saved(100, 50), [SCREEN])).toEqual(saved(100, 50));
    expect(boundsToOpen(saved(2000, 50), [SCREEN, SECOND])).toEqual(saved(2000, 50));
  });

  it('lets it hang out of a screen as long as a hand can take it', () => {
    expect(boundsToOpen(saved(-900, 50), [SCREEN])).toEqual(saved(-900, 50));
  });

  // Each place where no hand could take the window by its upper edge.
  it.each([
    ['on a screen that is gone', saved(2000, 50)],
    ['left of all screens', saved(-1090, 50)],
    ['above them', saved(100, -30)],
    ['below them', saved(100, 1030)],
  ])('puts a window %s in the middle', (_where, bounds) => {
    expect(boundsToOpen(bounds, [SCREEN])).toMatchObject({ x: 320, y: 120 });
  });

  it('makes it no larger than its screen, and remembers that it was maximised', () => {
    const huge = { ...saved(0, 0, 4000, 3000), isMaximized: true };
    expect(boundsToOpen(huge, [SCREEN])).toEqual({
      x: 0,
      y: 0,
      width: 1920,
      height: 1040,
      isMaximized: true,
    });
    expect(boundsToOpen({ ...saved(5000, 0), isMaximized: true }, [SCREEN]).isMaximized).toBe(true);
  });

  it('fits a small screen', () => {
    expect(boundsToOpen(null, [{ x: 0, y: 0, width: 640, height: 480 }])).toMatchObject({
      width: 640,
      height: 480,
    });
  });
});
