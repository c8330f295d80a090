import { useLayoutEffect, useRef, type RefObject } from 'react';
import { useDesk } from '../../../store/store';
import type { DiveView } from './dive-view';

type List = RefObject<SVGElement | null>;

/** The mark of a dive on the strip. */
export function markOf(list: List, diveId: string): SVGElement | null {
  const mark = list.current?.querySelector(`[data-dive="${CSS.escape(diveId)}"]`);
  return mark instanceof SVGElement ? mark : null;
}

/** Has a mark in focus where the focus is on the strip already. */
function takeFocusAlong(list: List, mark: SVGElement | null): void {
  const { activeElement } = document;
  if (mark !== activeElement && list.current?.contains(activeElement)) mark?.focus();
}

/**
 * One dive of the strip is on the way of the Tab key; the others are reached from it. A choice takes the focus along,
 * where it is on the strip already.
 *
 * Done by hand once all is drawn: a browser works out the style of the whole page at once when the focus moves, and
 * also when the way of the Tab key changes for what has it. So the new mark comes on that way before it has the focus
 * and the old one leaves it after, and what the move has worked out is what the page then shows.
 */
export function TabStop({ list, views }: { readonly list: List; readonly views: readonly DiveView[] }): null {
  const chosen = useDesk(({ selection }) => selection.diveIds);
  const diveId = (views.find(({ id }) => chosen.includes(id)) ?? views[0])?.id;
  const stop = useRef<SVGElement | null>(null);
  const followed = useRef(chosen);
  useLayoutEffect(() => {
    const before = stop.current;
    const next = diveId === undefined ? null : markOf(list, diveId);
    stop.current = next;
    if (next !== before) next?.setAttribute('tabindex', '0');
    if (followed.current !== chosen && chosen.length === 1) takeFocusAlong(list, next);
    followed.current = chosen;
    if (next !== before) before?.setAttribute('tabindex', '-1');
  });
  return null;
}
