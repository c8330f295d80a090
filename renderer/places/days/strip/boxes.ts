/** Boxes on the page of the strip, for what may not lie across another. */

/** Pixels from the strip's left edge and from the waterline down. */
export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface Place {
  readonly x: number;
  readonly y: number;
}

const LEADER_BOXES = 8;

/** Small boxes along a line. */
export function boxesAlong([from, to]: readonly [Place, Place]): readonly Box[] {
  return Array.from({ length: LEADER_BOXES }, (_, i) => {
    const a = i / LEADER_BOXES;
    const b = (i + 1) / LEADER_BOXES;
    const [x1, x2] = [from.x + (to.x - from.x) * a, from.x + (to.x - from.x) * b];
    return {
      left: Math.min(x1, x2) - 1,
      right: Math.max(x1, x2) + 1,
      top: from.y + (to.y - from.y) * a,
      bottom: Math.min(from.y + (to.y - from.y) * b, to.y - 2),
    };
  });
}

/** From a point to the nearest of a box, pixels. */
export function distance(box: Box, { x: atX, y: atY }: Place): number {
  const x = Math.max(box.left - atX, 0, atX - box.right);
  const y = Math.max(box.top - atY, 0, atY - box.bottom);
  return Math.hypot(x, y);
}

/** Whether a box lies over one of others; edges may touch. */
export function isHit(box: Box, others: readonly Box[]): boolean {
  for (const other of others) {
    if (
      box.left < other.right &&
      box.right > other.left &&
      box.top < other.bottom &&
      box.bottom > other.top
    ) {
      return true;
    }
  }
  return false;
}
