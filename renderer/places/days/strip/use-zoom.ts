/** How much of the trip is on the page: wheel, pinch and keys; the moment under the pointer stays where it is. */
import { useCallback, useEffect, useRef, useState, type RefObject } from 'react';
import { momentOf, placeOf, type TimeScale } from './time-scale';

/** Closest view: this many days over the width of the page. */
const CLOSEST_DAYS = 0.5;
const KEY_STEP = 1.4;
const DAY_MIN = 1440;
const WHEEL_RATE = 0.003;
/** Wheels that count in lines move about this far a line. */
const LINE_PX = 16;

export interface Zoom {
  /** 1: the whole trip. */
  readonly factor: number;
  readonly isWhole: boolean;
  readonly isClosest: boolean;
  /** `atClientX`: what should stay where it is in the window; the middle of the page where nothing is said. */
  readonly closer: (atClientX?: number) => void;
  readonly further: (atClientX?: number) => void;
  readonly whole: () => void;
  /** One day over the width of the page, the one of a moment. */
  readonly day: (ofMin: number) => void;
  readonly isDay: boolean;
  /** From the day of a moment to the last, over the width of the page. */
  readonly ahead: (ofMin: number) => void;
  readonly isAhead: (ofMin: number) => boolean;
  /**
   * Told once the page is drawn and before it is seen: scrolls to where the moment that was to be kept stands as
   * it stood. A closer scale is not the same one drawn wider: dives and nights have widths of their own.
   */
  readonly onDrawn: (time: TimeScale) => void;
}

/** A moment, and where in the view it stands: pixels from its left edge. */
interface Anchor {
  readonly atMin: number;
  readonly atPx: number;
}

export function closestFactor(dayCount: number): number {
  return Math.max(1, dayCount / CLOSEST_DAYS);
}

/** @param edgePx margin before the page and after it */
export function useZoom(scroller: RefObject<HTMLElement | null>, dayCount: number, edgePx: number): Zoom {
  const [wanted, setWanted] = useState(1);
  /** The wish as it will be drawn: several turns of the wheel can come before the next frame. */
  const latest = useRef(1);
  const anchor = useRef<Anchor | null>(null);
  const settled = useRef<(Anchor & { readonly scrollLeft: number }) | null>(null);
  const drawn = useRef<TimeScale | null>(null);
  const closest = closestFactor(dayCount);
  // A trip that lost days is not shown closer than it can be; the wish is kept for when it grows again.
  const factor = Math.min(wanted, closest);

  const zoomBy = useCallback(
    (ratio: number, atClientX?: number, toClientX = atClientX) => {
      const element = scroller.current;
      const time = drawn.current;
      if (!element || !time) return;
      const was = Math.min(latest.current, closest);
      const next = Math.min(closest, Math.max(1, was * ratio));
      if (next === was) return;
      const leftX = element.getBoundingClientRect().left;
      const middleX = leftX + element.clientWidth / 2;
      const fromPx = (atClientX ?? middleX) - leftX;
      const byPx = (toClientX ?? middleX) - leftX - fromPx;
      // Until the page is drawn anew it stands where it stood: what was to be kept in place still is. Once it is
      // drawn, one gesture goes on with its own moment: read back off the page at each of twenty frames, it drifts.
      const last = settled.current;
      const goesOn = last?.scrollLeft === element.scrollLeft && Math.abs(last.atPx - fromPx) < 1;
      const kept = anchor.current ?? {
        atMin: goesOn ? last.atMin : momentOf(time, element.scrollLeft + fromPx - edgePx),
        atPx: fromPx,
      };
      anchor.current = { atMin: kept.atMin, atPx: kept.atPx + byPx };
      latest.current = next;
      setWanted(next);
    },
    [scroller, closest, edgePx],
  );

  const onDrawn = useCallback(
    (time: TimeScale) => {
      drawn.current = time;
      const element = scroller.current;
      if (!element || !anchor.current) return;
      const left = placeOf(time, anchor.current.atMin) + edgePx - anchor.current.atPx;
      element.scrollTo({ left });
      // At either end of the trip the moment cannot stand where it stood: the next step keeps what is there now.
      const { scrollLeft } = element;
      settled.current = Math.abs(scrollLeft - left) <= 1 ? { ...anchor.current, scrollLeft } : null;
      anchor.current = null;
    },
    [scroller, edgePx],
  );

  // React's own wheel handler is passive; this one has to keep the window from scrolling or zooming.
  useEffect(() => {
    const element = scroller.current;
    if (!element) return undefined;
    const onWheel = (event: WheelEvent) => {
      const unit = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? LINE_PX : 1;
      if (event.ctrlKey || event.metaKey) {
        event.preventDefault();
        zoomBy(Math.exp(-event.deltaY * unit * WHEEL_RATE), event.clientX);
        return;
      }
      const moved = event.deltaX !== 0 ? event.deltaX : event.deltaY;
      const before = element.scrollLeft;
      element.scrollTo({ left: before + moved * unit });
      // At either end the window scrolls on.
      if (element.scrollLeft !== before) event.preventDefault();
    };
    element.addEventListener('wheel', onWheel, { passive: false });
    return () => element.removeEventListener('wheel', onWheel);
  }, [scroller, zoomBy]);

  useEffect(() => {
    const element = scroller.current;
    return element ? followPinch(element, zoomBy) : undefined;
  }, [scroller, zoomBy]);

  /** How close it is where the days from a moment on fill the page. */
  const factorFrom = (ofMin: number): number => {
    const time = drawn.current;
    const days = time === null ? dayCount : time.firstDay + time.dayCount - Math.floor(ofMin / DAY_MIN);
    return Math.min(closest, Math.max(1, dayCount / Math.max(1, days)));
  };

  const show = useCallback(
    (ofMin: number, next: number) => {
      const atMin = Math.floor(ofMin / DAY_MIN) * DAY_MIN;
      const element = scroller.current;
      const isThere = next === Math.min(latest.current, closest);
      // As close as it is already, nothing is drawn anew that would be told of it.
      if (isThere && element && drawn.current) element.scrollTo({ left: placeOf(drawn.current, atMin) });
      else anchor.current = { atMin, atPx: edgePx };
      latest.current = next;
      setWanted(next);
    },
    [scroller, closest, edgePx],
  );
  const day = useCallback((ofMin: number) => show(ofMin, dayCount), [show, dayCount]);

  return {
    factor,
    isWhole: factor === 1,
    isClosest: factor === closest,
    closer: (atClientX) => zoomBy(KEY_STEP, atClientX),
    further: (atClientX) => zoomBy(1 / KEY_STEP, atClientX),
    whole: () => {
      latest.current = 1;
      setWanted(1);
    },
    day,
    isDay: dayCount > 1 && factor === dayCount,
    ahead: (ofMin) => show(ofMin, factorFrom(ofMin)),
    isAhead: (ofMin) => factor > 1 && factor === factorFrom(ofMin),
    onDrawn,
  };
}

/** Two fingers on a touch screen; a trackpad's pinch comes as a wheel with Ctrl. */
function followPinch(
  element: HTMLElement,
  zoomBy: (ratio: number, atClientX: number, toClientX: number) => void,
): () => void {
  const fingers = new Map<number, { readonly x: number; readonly y: number }>();
  const spread = () => {
    const [a, b] = [...fingers.values()];
    return a && b ? { distance: Math.hypot(a.x - b.x, a.y - b.y), middle: (a.x + b.x) / 2 } : null;
  };
  const onDown = (event: PointerEvent) => {
    if (event.pointerType === 'touch') fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
  };
  const onMove = (event: PointerEvent) => {
    if (!fingers.has(event.pointerId)) return;
    const before = spread();
    fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
    const after = spread();
    if (!before || !after || before.distance === 0) return;
    zoomBy(after.distance / before.distance, before.middle, after.middle);
  };
  const onUp = (event: PointerEvent) => {
    fingers.delete(event.pointerId);
  };
  element.addEventListener('pointerdown', onDown);
  element.addEventListener('pointermove', onMove);
  for (const end of ['pointerup', 'pointercancel'] as const) element.addEventListener(end, onUp);
  return () => {
    element.removeEventListener('pointerdown', onDown);
    element.removeEventListener('pointermove', onMove);
    for (const end of ['pointerup', 'pointercancel'] as const) element.removeEventListener(end, onUp);
  };
}
