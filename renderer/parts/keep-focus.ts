/** The focus where its element is taken away: the platform lets it fall to the page, and a keyboard begins anew. */
import { flushSync } from 'react-dom';

const FOCUSABLE =
  'a[href], button:not([disabled]), input:not([disabled]), select:not([disabled]), textarea, summary, [tabindex]';

/** What had the focus last, also once it is gone; null where somebody let go of it. */
let last: Element | null = null;

/** Whether the focus fell with its element and nothing has it yet. */
export function isFocusLost(): boolean {
  return last !== null && !last.isConnected && isOnPage();
}

/** Leaves the field in focus, so that what is typed in it is kept or refused before anything takes its place. */
export function leaveField(): void {
  const { activeElement } = document;
  if (!(activeElement instanceof HTMLElement) || !activeElement.matches('input, textarea')) return;
  flushSync(() => activeElement.blur());
  last = null;
}

/** Has the field in focus keep or refuse what is typed in it, and stay in focus. */
export function settleField(): void {
  const { activeElement } = document;
  leaveField();
  if (isOnPage() && activeElement instanceof HTMLElement) activeElement.focus();
}

function isOnPage(): boolean {
  return document.activeElement === null || document.activeElement === document.body;
}

function onFocusIn({ target }: FocusEvent): void {
  last = target instanceof Element ? target : null;
}

function onFocusOut({ target, relatedTarget }: FocusEvent): void {
  if (relatedTarget !== null) return;
  // Some browsers tell this as an element is taken away; what still stands there afterwards was left by hand.
  queueMicrotask(() => {
    if (last === target && last?.isConnected && isOnPage()) last = null;
  });
}

/** Listens until the returned function is called. */
export function keepFocus(): () => void {
  const observer = new MutationObserver((records) => {
    if (last === null || !isFocusLost()) return;
    const lost = last;
    last = null;
    placeFor(lost, records)?.focus();
  });
  document.addEventListener('focusin', onFocusIn);
  document.addEventListener('focusout', onFocusOut);
  observer.observe(document.body, { childList: true, subtree: true });
  return () => {
    document.removeEventListener('focusin', onFocusIn);
    document.removeEventListener('focusout', onFocusOut);
    observer.disconnect();
    last = null;
  };
}

/** What came in the place of a lost element, else its like beside it, else what stands nearest. */
function placeFor(lost: Element, records: readonly MutationRecord[]): HTMLElement | SVGElement | null {
  const main = document.getElementById('place');
  // The platform has given the focus back to where a dialog was opened from, if that is there.
  if (lost.closest('dialog')) return main;
  const gone = new Map(records.flatMap((record) => [...record.removedNodes].map((node) => [node, record])));
  const record = gone.get(rootOf(lost));
  // Another place as a whole begins at its top, not at its first button.
  if (!record || !record.target.isConnected || record.target === main) return main;
  const added = records.flatMap(({ target, addedNodes }) =>
    target === record.target ? [...addedNodes] : [],
  );
  const standing = (node: Node | null, side: 'nextSibling' | 'previousSibling'): Node | null => {
    let at = node;
    while (at !== null && !at.isConnected) at = gone.get(at)?.[side] ?? null;
    return at;
  };
  const after = siblings(standing(record.nextSibling, 'nextSibling'), 'nextSibling');
  const before = siblings(standing(record.previousSibling, 'previousSibling'), 'previousSibling');
  return (
    firstIn(added, lost) ??
    likeIn([...after, ...before], lost) ??
    firstIn([...after, ...before], lost) ??
    nearest(record.target, lost) ??
    main
  );
}

function nearest(from: Node, lost: Element): HTMLElement | SVGElement | null {
  for (let at: Node | null = from; at instanceof Element; at = at.parentNode) {
    if (at.matches('[tabindex]') && isFocusable(at)) return at;
    const beside = [
      ...siblings(at.nextSibling, 'nextSibling'),
      ...siblings(at.previousSibling, 'previousSibling'),
    ];
    const found = firstIn(beside, lost);
    if (found || at.matches('dialog')) return found;
  }
  return null;
}

function rootOf(node: Node): Node {
  let root = node;
  while (root.parentNode !== null) root = root.parentNode;
  return root;
}

function siblings(from: Node | null, side: 'nextSibling' | 'previousSibling'): readonly Node[] {
  const found: Node[] = [];
  for (let at = from; at !== null; at = at[side]) found.push(at);
  return found;
}

function firstIn(nodes: readonly Node[], lost: Element): HTMLElement | SVGElement | null {
  return likeIn(nodes, lost) ?? focusablesIn(nodes)[0] ?? null;
}

/** The same button of another row: who takes several away goes on from there. */
function likeIn(nodes: readonly Node[], lost: Element): HTMLElement | SVGElement | null {
  if (!lost.matches('button')) return null;
  return (
    focusablesIn(nodes).find(
      (each) => each.className === lost.className && each.textContent === lost.textContent,
    ) ?? null
  );
}

function focusablesIn(nodes: readonly Node[]): readonly (HTMLElement | SVGElement)[] {
  return nodes
    .filter((node) => node instanceof Element)
    .flatMap((element) => [element, ...element.querySelectorAll(FOCUSABLE)])
    .filter(isFocusable);
}

function isFocusable(element: Element): element is HTMLElement | SVGElement {
  return (
    (element instanceof HTMLElement || element instanceof SVGElement) &&
    element.isConnected &&
    element.matches(FOCUSABLE) &&
    element.checkVisibility()
  );
}
