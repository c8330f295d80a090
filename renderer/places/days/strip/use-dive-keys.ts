import { useCallback, useEffect, useLayoutEffect, useRef, type KeyboardEvent, type RefObject } from 'react';
import { wallDate } from '../../../../core/words/calendar';
import { tell } from '../../../actions/edit';
import { showEvening } from '../../../actions/evening';
import { chooseDives, takeSought, toggleDive } from '../../../actions/view';
import { isFocusLost } from '../../../parts/keep-focus';
import { EMPTY_HISTORY } from '../../../store/history';
import { say } from '../../../store/notice';
import { selectAhead } from '../../../store/clock';
import { desk } from '../../../store/store';
import { aheadFromMin, type DiveView } from './dive-view';
import { applyEdit, DIVED, isEdit, MISSED, meaningOf, stepNameOf, type KeyEdit } from './strip-keys';
import { useGesture } from './use-gesture';
import { markOf } from './tab-stop';
import type { Zoom } from './use-zoom';
import { isDialogOpen } from '../../../parts/open-dialog';
import { STRIP_PART } from '../in-card';

export interface DiveKeys {
  readonly onKeyDown: (event: KeyboardEvent<SVGElement>) => void;
  readonly onKeyUp: () => void;
  readonly onBlur: () => void;
}

/** Keys on the dives of the strip; `list` holds them. */
export function useDiveKeys(
  list: RefObject<SVGElement | null>,
  views: readonly DiveView[],
  zoom: Zoom,
): DiveKeys {
  /** Set while an arrow key is held: its repeats are one step of undo. */
  const held = useRef<KeyEdit['kind'] | null>(null);
  const letGo = useCallback(() => {
    held.current = null;
  }, []);
  const gesture = useGesture(letGo);

  function settle(): void {
    gesture.current()?.end();
  }

  function focusOn(view: DiveView | undefined): void {
    if (view) markOf(list, view.id)?.focus();
  }

  function change(edit: KeyEdit, view: DiveView, isRepeat: boolean): void {
    const { diveIds } = desk.getState().selection;
    const shiftIds = diveIds.includes(view.id) ? diveIds : [view.id];
    if (view.isAsDived || view.isMissed) {
      say({ tone: 'refused', lines: [view.isAsDived ? DIVED : MISSED] });
      return;
    }
    if (!isRepeat || held.current !== edit.kind) {
      gesture.begin(stepNameOf(edit, view.number, edit.kind === 'start' ? shiftIds.length : 1));
      held.current = edit.kind;
    }
    const result = gesture.current()?.edit(() => applyEdit(edit, view.id, shiftIds));
    if (result) tell(result);
  }

  useFocusOnSought(list);
  useFocusAfterPalette(list);
  useFocusAfterLoss(list, views);

  return {
    onKeyDown(event) {
      const meaning = meaningOf(event);
      const id = event.target instanceof Element ? event.target.getAttribute('data-dive') : null;
      const at = views.findIndex((view) => view.id === id);
      const view = views[at];
      // Another key between: the one held before no longer repeats.
      if (meaning === null || !isEdit(meaning)) gesture.current()?.end();
      if (meaning === null || view === undefined) return;
      event.preventDefault();
      event.stopPropagation();
      switch (meaning.kind) {
        case 'depth':
        case 'time':
        case 'start':
          change(meaning, view, event.repeat);
          break;
        case 'go': {
          const target = meaning.to === 'first' ? views[0]! : views.at(-1)!;
          chooseDives([target.id]);
          focusOn(target);
          break;
        }
        case 'extend': {
          const target = views[at + meaning.direction];
          if (!target) break;
          const { diveIds } = desk.getState().selection;
          chooseDives([...new Set([...(diveIds.includes(view.id) ? diveIds : [view.id]), target.id])]);
          focusOn(target);
          break;
        }
        case 'choose':
          if (meaning.adds) toggleDive(view.id);
          else chooseDives([view.id]);
          break;
        case 'log':
          showEvening({ date: wallDate(view.startMin), step: 'log' });
          break;
        case 'zoom':
          if (meaning.to === 'ahead') zoom.ahead(aheadFromMin(views, selectAhead(desk.getState())) ?? 0);
          else zoom[meaning.to](middleOf(event.target));
          break;
      }
    },
    onKeyUp: settle,
    onBlur: settle,
  };
}

/** Where an element stands in the window. */
function middleOf(target: EventTarget): number | undefined {
  if (!(target instanceof Element)) return undefined;
  const { left, width } = target.getBoundingClientRect();
  return left + width / 2;
}

/** Whether the focus is on no part of the place: the page has it, or the place as a whole. */
function isOnNothing(): boolean {
  const { activeElement } = document;
  return activeElement === null || activeElement === document.body || activeElement.id === 'place';
}

/** A dive that another place or a list of cautions went to has the focus, once what it was gone from has given it up. */
function useFocusOnSought(list: RefObject<SVGElement | null>): void {
  useEffect(() => {
    const focus = (): void => {
      const diveId = takeSought();
      if (diveId !== null) queueMicrotask(() => markOf(list, diveId)?.focus());
    };
    // From another place: the strip has just come.
    focus();
    return desk.subscribe((state, before) => {
      if (state.selection.diveIds !== before.selection.diveIds) focus();
    });
  }, [list]);
}

/**
 * A palette gives the focus back as it closes, after its command has run: from there it follows the choice, also from what
 * stands about the dives, such as the button that logged a day, and from nothing.
 */
function useFocusAfterPalette(list: RefObject<SVGElement | null>): void {
  useEffect(
    () =>
      desk.subscribe((state, before) => {
        const [diveId, ...others] = state.selection.diveIds;
        if (state.selection.diveIds === before.selection.diveIds || others.length > 0) return;
        if (diveId === undefined || !isDialogOpen()) return;
        queueMicrotask(() => {
          const strip = list.current?.closest(`[data-part="${STRIP_PART}"]`);
          if (isOnNothing() || strip?.contains(document.activeElement)) markOf(list, diveId)?.focus();
        });
      }),
    [list],
  );
}

/** Where the focus fell with its dive, the dive now in its place has it; of another trip, the first. */
function useFocusAfterLoss(list: RefObject<SVGElement | null>, views: readonly DiveView[]): void {
  const drawn = useRef({ views, trip: desk.getState().trip });
  useLayoutEffect(() => {
    const before = drawn.current;
    const { trip, history } = desk.getState();
    drawn.current = { views, trip };
    const divesNow = () => list.current?.querySelectorAll<SVGElement>('[role=option]') ?? [];
    if (trip !== before.trip && history === EMPTY_HISTORY) {
      // The place as a whole has it where there was nothing else to give it back to.
      if (isFocusLost() || document.activeElement?.id === 'place') divesNow()[0]?.focus();
      return;
    }
    const ids = new Set(views.map(({ id }) => id));
    const at = before.views.findIndex(({ id }) => !ids.has(id));
    if (at === -1 || !isFocusLost()) return;
    const dives = divesNow();
    dives[Math.min(at, dives.length - 1)]?.focus();
  }, [list, views]);
}
