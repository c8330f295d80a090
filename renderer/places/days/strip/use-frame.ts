/** Drawing a frame in open water chooses the dives it touches; Escape leaves the choice as it was. */
import { useCallback, useEffect, useRef, useState, type PointerEvent as ReactPointerEvent } from 'react';
import { chooseDives } from '../../../actions/view';
import { desk } from '../../../store/store';
import type { Mark } from './marks';

/** Pixels from the strip's left edge and from the waterline down. */
export interface Frame {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

type Framed = Pick<Mark, 'lineX' | 'weightY' | 'barEndX'>;

/** Below this a press is a click, not a frame. */
const SLACK_PX = 4;

/** Which of the marks, by their places in the list, have their line or their bar in the frame. */
export function framedMarks(frame: Frame, marks: readonly Framed[]): readonly number[] {
  return marks.flatMap(({ lineX, weightY, barEndX }, i) => {
    const hasLine = frame.left <= lineX && lineX <= frame.right && frame.top <= weightY;
    const hasBar =
      frame.left <= Math.max(barEndX, lineX) &&
      lineX <= frame.right &&
      frame.top <= weightY &&
      weightY <= frame.bottom;
    return hasLine || hasBar ? i : [];
  });
}

interface Hold {
  readonly pointerId: number;
  readonly fromX: number;
  readonly fromY: number;
  /** What was chosen already, where the frame adds to it. */
  readonly kept: readonly string[];
}

export interface FrameDrawing {
  readonly frame: Frame | null;
  readonly onPointerDown: (event: ReactPointerEvent<SVGSVGElement>) => void;
  readonly onPointerMove: (event: ReactPointerEvent<SVGSVGElement>) => void;
  readonly onPointerUp: (event: ReactPointerEvent<SVGSVGElement>) => void;
  readonly onPointerCancel: () => void;
}

/**
 * @param ids of the dives, in the order of their marks
 * @param waterlineY pixels from the top of the drawing to the waterline
 */
export function useFrame(ids: readonly string[], marks: readonly Framed[], waterlineY: number): FrameDrawing {
  const hold = useRef<Hold | null>(null);
  const [frame, setFrame] = useState<Frame | null>(null);

  const letGo = useCallback(() => {
    hold.current = null;
    setFrame(null);
  }, []);

  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent) => {
      if (event.key !== 'Escape' || !hold.current) return;
      event.preventDefault();
      event.stopImmediatePropagation();
      letGo();
    };
    // Captured, so that Escape means this and nothing else while a frame is drawn.
    window.addEventListener('keydown', onKeyDown, { capture: true });
    return () => window.removeEventListener('keydown', onKeyDown, { capture: true });
  }, [letGo]);

  const placeIn = (event: ReactPointerEvent<SVGSVGElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top - waterlineY };
  };

  return {
    frame,
    onPointerDown(event) {
      // A finger in open water moves the page.
      if (event.button !== 0 || event.pointerType === 'touch') return;
      if (!(event.target instanceof Element) || event.target.closest('[data-dive]')) return;
      const { x, y } = placeIn(event);
      const adds = event.shiftKey || event.ctrlKey || event.metaKey;
      const kept = adds ? desk.getState().selection.diveIds : [];
      hold.current = { pointerId: event.pointerId, fromX: x, fromY: y, kept };
      event.currentTarget.setPointerCapture(event.pointerId);
    },
    onPointerMove(event) {
      const held = hold.current;
      if (!held || event.pointerId !== held.pointerId) return;
      const { x, y } = placeIn(event);
      if (frame === null && Math.hypot(x - held.fromX, y - held.fromY) < SLACK_PX) return;
      setFrame({
        left: Math.min(x, held.fromX),
        right: Math.max(x, held.fromX),
        top: Math.min(y, held.fromY),
        bottom: Math.max(y, held.fromY),
      });
    },
    onPointerUp(event) {
      const held = hold.current;
      if (!held || event.pointerId !== held.pointerId) return;
      if (frame !== null) {
        const framed = framedMarks(frame, marks).map((i) => ids[i]!);
        chooseDives([...new Set([...held.kept, ...framed])]);
      }
      letGo();
    },
    onPointerCancel: letGo,
  };
}
