/** Taking hold of a dive with the pointer: one gesture, one step of undo, Escape goes back to where it was. */
import {
  useCallback,
  useEffect,
  useLayoutEffect,
  useRef,
  useState,
  type PointerEvent as ReactPointerEvent,
} from 'react';
import { setBottomMin, setDepth, shiftDives } from '../../../actions/dives';
import { tell, type EditResult } from '../../../actions/edit';
import { chooseDives, chooseRange, toggleDive } from '../../../actions/view';
import { say } from '../../../store/notice';
import { leaveField } from '../../../parts/keep-focus';
import { wallMin } from '../../../../core/words/calendar';
import { desk } from '../../../store/store';
import type { DepthScale } from './depth-scale';
import type { DiveView } from './dive-view';
import { BOTTOM_STEP_MIN, draggedDepthM, figureAt, startStepMin, type Grip } from './drag';
import { DIVED, MISSED } from './strip-keys';
import { placeOf, timeScale, type Span, type TimeScale } from './time-scale';
import { useGesture } from './use-gesture';
import type { DiveStretch } from './use-strip';

/** What the page looks like at this moment. */
export interface PageNow {
  readonly views: readonly DiveView[];
  readonly stretches: readonly DiveStretch[];
  readonly time: TimeScale;
  readonly depth: DepthScale;
}

/** What is frozen while a dive is held: the days of the page, and how deep it reaches at the least. */
export interface Frozen {
  readonly span: Span;
  readonly deepestM: number;
}

export interface Live {
  readonly diveId: string;
  readonly grip: Grip;
  /** Why the place under the pointer cannot be; the dive waits at the last one that can. */
  readonly refusal: string | null;
}

interface Hold {
  readonly grip: Grip;
  readonly pointerId: number;
  readonly origin: DiveView;
  readonly ids: readonly string[];
  readonly page: PageNow;
  readonly fromX: number;
  readonly fromY: number;
  readonly scroller: Element | null;
  /** Where the pointer was last, and how far along the page it has moved the dive. */
  lastX: number;
  movedX: number;
  last: EditResult | null;
}

/** With the modifier the dive follows at a sixth of the pointer's way: a minute can be less than a pixel. */
const FINE_RATE = 1 / 6;
/** A dive held this near the edge of a page that is wider than the window takes the page along. */
const EDGE_PX = 28;
const EDGE_STEP_PX = 14;
/** Below this a press is a choice, not a drag. */
const SLACK_PX = 3;
const LONGEST_MIN = 600;

const LABELS: Readonly<Record<Grip, { readonly label: string; readonly code: string }>> = {
  depth: { label: 'Depth', code: 'dive.depth' },
  time: { label: 'Bottom time', code: 'dive.bottom' },
  start: { label: 'Start', code: 'dive.shift' },
};

export interface DiveDrag {
  readonly live: Live | null;
  readonly onPointerDown: (event: ReactPointerEvent<SVGSVGElement>) => void;
  readonly onPointerMove: (event: ReactPointerEvent<SVGSVGElement>) => void;
  readonly onPointerUp: (event: ReactPointerEvent<SVGSVGElement>) => void;
  readonly onPointerCancel: () => void;
  readonly onLostPointerCapture: (event: ReactPointerEvent<SVGSVGElement>) => void;
}

/** @param setFrozen told as a dive is taken and let go: under a held dive the page keeps its days and depth */
export function useDiveDrag(page: PageNow, setFrozen: (frozen: Frozen | null) => void): DiveDrag {
  const hold = useRef<Hold | null>(null);
  const drawn = useRef(page);
  useLayoutEffect(() => {
    drawn.current = page;
  });
  const pending = useRef<{ readonly x: number; readonly y: number; readonly fine: boolean } | null>(null);
  const frame = useRef(0);
  const [live, setLive] = useState<Live | null>(null);

  const letGo = useCallback(() => {
    cancelAnimationFrame(frame.current);
    frame.current = 0;
    pending.current = null;
    hold.current = null;
    setLive(null);
    setFrozen(null);
  }, [setFrozen]);
  // Out of the hand as soon as its gesture is over: what moved on would be a step at each move.
  const gesture = useGesture(letGo);

  function begin(held: Hold): void {
    const { label, code } = LABELS[held.grip];
    const many = held.ids.length > 1;
    gesture.begin({
      label: many ? `Shift of ${held.ids.length} dives` : `${label} of dive ${held.origin.number}`,
      code,
    });
    const { time, views } = held.page;
    setFrozen({
      span: { firstDay: time.firstDay, dayCount: time.dayCount },
      deepestM: Math.max(...views.map((view) => view.depthM)),
    });
  }

  /** At most once a frame: pointers report faster than a screen shows. */
  function follow(): void {
    frame.current = 0;
    const held = hold.current;
    const to = pending.current;
    pending.current = null;
    if (!held || !to) return;
    // What slides under a pointer at rest is way it makes.
    const slidPx = held.grip === 'depth' ? 0 : slide(held.scroller, to.x);
    held.movedX += (to.x - held.lastX) * (to.fine ? FINE_RATE : 1) + slidPx;
    held.lastX = to.x;
    const last = gesture.current()?.edit(() => moved(held, held.movedX, to.y - held.fromY, to.fine));
    if (!last) return;
    held.last = last;
    if (slidPx !== 0) {
      pending.current = to;
      frame.current = requestAnimationFrame(follow);
    }
    const refusal = last.ok ? null : last.troubles[0].what;
    setLive((was) =>
      was?.refusal === refusal && was.diveId === held.origin.id
        ? was
        : { diveId: held.origin.id, grip: held.grip, refusal },
    );
  }

  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent) => {
      if (event.key !== 'Escape' || !hold.current) return;
      event.preventDefault();
      event.stopImmediatePropagation();
      gesture.current()?.cancel();
      letGo();
    };
    // Captured, so that Escape means this and nothing else while a dive is held.
    window.addEventListener('keydown', onKeyDown, { capture: true });
    return () => window.removeEventListener('keydown', onKeyDown, { capture: true });
  }, [gesture, letGo]);

  return {
    live,
    onPointerDown(event) {
      // A second finger is no second hand.
      if (event.button !== 0 || hold.current || !(event.target instanceof Element)) return;
      const id = event.target.closest('[data-dive]')?.getAttribute('data-dive');
      if (id === undefined || id === null) return;
      // Before another dive's fields take the place of the one being typed in; what it holds may change the page.
      leaveField();
      const now = drawn.current;
      const origin = now.views.find((view) => view.id === id);
      if (!origin) return;
      if (event.shiftKey || event.ctrlKey || event.metaKey) {
        if (event.shiftKey) chooseRange(id);
        else toggleDive(id);
        return;
      }
      const { diveIds } = desk.getState().selection;
      if (!diveIds.includes(id)) chooseDives([id]);
      const grip = gripOf(event.target);
      if (grip === null) return;
      const ids = grip === 'start' && diveIds.includes(id) ? diveIds : [id];
      const { clientX: fromX, clientY: fromY, pointerId } = event;
      const start = { fromX, fromY, lastX: fromX, movedX: 0, last: null };
      const scroller = event.currentTarget.closest('[data-part="scroller"]');
      hold.current = { grip, pointerId, origin, ids, page: now, scroller, ...start };
      event.currentTarget.setPointerCapture(pointerId);
    },
    onPointerMove(event) {
      const held = hold.current;
      if (!held || event.pointerId !== held.pointerId) return;
      const distance = Math.hypot(event.clientX - held.fromX, event.clientY - held.fromY);
      const hasMoved = gesture.current() !== null;
      if (!hasMoved && distance < SLACK_PX) return;
      if (held.origin.isAsDived || held.origin.isMissed) {
        say({ tone: 'refused', lines: [held.origin.isAsDived ? DIVED : MISSED] });
        letGo();
        return;
      }
      if (!hasMoved) begin(held);
      pending.current = { x: event.clientX, y: event.clientY, fine: event.shiftKey };
      if (frame.current === 0) frame.current = requestAnimationFrame(follow);
    },
    onPointerUp(event) {
      const held = hold.current;
      if (!held || event.pointerId !== held.pointerId) return;
      if (gesture.current() !== null) {
        follow();
        gesture.current()?.end();
        if (held.last) tell(held.last);
      } else if (desk.getState().selection.diveIds.length > 1) {
        chooseDives([held.origin.id]);
      }
      letGo();
    },
    onPointerCancel() {
      gesture.current()?.cancel();
      letGo();
    },
    // Taken from the hand without a release: what was reached stays, as a step.
    onLostPointerCapture(event) {
      if (event.pointerId !== hold.current?.pointerId) return;
      gesture.current()?.end();
      letGo();
    },
  };
}

/** Scrolls where the pointer is at an edge; returns by how much, in pixels. */
function slide(scroller: Element | null, pointerX: number): number {
  if (!scroller) return 0;
  const { left, right } = scroller.getBoundingClientRect();
  const by = pointerX > right - EDGE_PX ? EDGE_STEP_PX : pointerX < left + EDGE_PX ? -EDGE_STEP_PX : 0;
  if (by === 0) return 0;
  const before = scroller.scrollLeft;
  scroller.scrollTo({ left: before + by });
  return scroller.scrollLeft - before;
}

function gripOf(target: Element): Grip | null {
  const grip = target.closest('[data-grip]')?.getAttribute('data-grip');
  return grip === 'depth' || grip === 'time' || grip === 'start' ? grip : null;
}

/** Puts the figure that was taken hold of where the pointer is. */
function moved(held: Hold, byX: number, byY: number, fine: boolean): EditResult {
  const { origin, page, ids } = held;
  const { time, depth, stretches } = page;
  const others = stretches.filter(({ id }) => !ids.includes(id));
  const own = stretches.filter(({ id }) => ids.includes(id));
  switch (held.grip) {
    case 'depth': {
      const { units } = desk.getState().settings;
      return setDepth(origin.id, draggedDepthM(origin.depthM, byY, depth.pxPerM, units, fine));
    }
    case 'time': {
      const bottomMin = origin.bottomEndMin - origin.startMin;
      const endWith = (min: number) => {
        const later = own.map(({ startMin, endMin }) => ({ startMin, endMin: endMin + min - bottomMin }));
        return placeOf(timeScale(time, [...others, ...later], time.widthPx), origin.startMin + min);
      };
      const targetX = placeOf(time, origin.bottomEndMin) + byX;
      return setBottomMin(
        origin.id,
        figureAt(targetX, BOTTOM_STEP_MIN, LONGEST_MIN, BOTTOM_STEP_MIN, endWith),
      );
    }
    case 'start': {
      const lineWith = (startMin: number) => {
        const by = startMin - origin.startMin;
        const later = own.map((each) => ({ startMin: each.startMin + by, endMin: each.endMin + by }));
        return placeOf(timeScale(time, [...others, ...later], time.widthPx), startMin);
      };
      const firstMin = time.firstDay * 1440;
      const lastMin = (time.firstDay + time.dayCount) * 1440 - 1;
      const targetX = placeOf(time, origin.startMin) + byX;
      const startMin = figureAt(targetX, firstMin, lastMin, startStepMin(fine), lineWith);
      const now = desk.getState().trip.dives.find(({ id }) => id === origin.id);
      return shiftDives(ids, now ? startMin - wallMin(now.startsAt) : 0);
    }
  }
}
