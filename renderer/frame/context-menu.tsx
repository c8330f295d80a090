import { useEffect, useLayoutEffect, useRef, useState, type KeyboardEvent, type ReactNode } from 'react';
import { createRoot } from 'react-dom/client';
import { isUnderSheet } from '../commands/registry';
import { CAN_RUN, walkMenu } from '../parts/menu-keys';
import { desk } from '../store/store';
import { contextItems, type ContextItems } from './context-menu-items';
import styles from './context-menu.module.css';

/** Kept between the menu and the edges of the window, px. */
const EDGE_PX = 4;

interface Place {
  readonly x: number;
  readonly y: number;
}

function ContextMenu(props: {
  readonly menu: ContextItems;
  readonly at: Place;
  /** @param isLeft whether the focus has gone elsewhere already */
  readonly close: (isLeft: boolean) => void;
}): ReactNode {
  const { menu, at, close } = props;
  const box = useRef<HTMLDivElement>(null);
  const [place, setPlace] = useState(at);

  useLayoutEffect(() => {
    const { width, height } = box.current!.getBoundingClientRect();
    setPlace({
      x: Math.max(EDGE_PX, Math.min(at.x, window.innerWidth - width - EDGE_PX)),
      y: Math.max(EDGE_PX, Math.min(at.y, window.innerHeight - height - EDGE_PX)),
    });
    box.current!.querySelector<HTMLElement>(CAN_RUN)?.focus();
  }, [at]);

  useEffect(() => {
    const leave = (event: Event): void => {
      if (event.target instanceof Node && box.current?.contains(event.target)) return;
      close(event.type !== 'resize');
    };
    const kinds = ['pointerdown', 'wheel', 'resize'] as const;
    for (const kind of kinds) window.addEventListener(kind, leave, { capture: true, passive: true });
    return () => {
      for (const kind of kinds) window.removeEventListener(kind, leave, { capture: true });
    };
  }, [close]);

  const onKeyDown = (event: KeyboardEvent): void => {
    // No key of the window reaches through an open menu.
    event.stopPropagation();
    if (walkMenu(box.current, event.key)) event.preventDefault();
    else if (event.key === 'Escape' || event.key === 'Tab') {
      event.preventDefault();
      close(false);
    }
  };

  return (
    <div
      ref={box}
      role="menu"
      aria-label={menu.name}
      className={styles.menu}
      style={{ left: place.x, top: place.y }}
      onKeyDown={onKeyDown}
      onContextMenu={(event) => event.preventDefault()}
    >
      <p aria-hidden="true">{menu.name}</p>
      {menu.items.map(({ label, enabled, run }) => (
        <button
          key={label}
          type="button"
          role="menuitem"
          tabIndex={-1}
          disabled={!enabled}
          onClick={() => {
            close(false);
            run();
          }}
        >
          {label}
        </button>
      ))}
    </div>
  );
}

let shut: ((isLeft: boolean) => void) | null = null;

function show(menu: ContextItems, at: Place): void {
  shut?.(true);
  const before = document.activeElement;
  const holder = document.createElement('div');
  document.body.append(holder);
  const root = createRoot(holder);
  const close = (isLeft: boolean): void => {
    if (shut !== close) return;
    shut = null;
    root.unmount();
    holder.remove();
    if (!isLeft && (before instanceof HTMLElement || before instanceof SVGElement)) before.focus();
  };
  shut = close;
  root.render(<ContextMenu menu={menu} at={at} close={close} />);
}

/** Where the menu key opens a menu: at what has the focus, as it has no pointer. */
function placeOf(event: MouseEvent, element: Element): Place {
  if (event.clientX !== 0 || event.clientY !== 0) return { x: event.clientX, y: event.clientY };
  const { left, bottom } = element.getBoundingClientRect();
  return { x: left, y: bottom };
}

const FIELD = 'input, textarea, select';

/** Opens a menu for dives, sites and divers; a field that is typed in keeps the system's. */
export function listenForContextMenus(): void {
  let wasTyping = true;
  document.addEventListener(
    'pointerdown',
    ({ target }) => {
      wasTyping = target === document.activeElement;
    },
    { capture: true },
  );
  document.addEventListener('contextmenu', (event) => {
    const { target } = event;
    if (event.defaultPrevented || !(target instanceof Element) || isUnderSheet(desk.getState())) return;
    if (target.matches(FIELD) && wasTyping) return;
    const menu = contextItems(target);
    if (menu === null) return;
    event.preventDefault();
    show(menu, placeOf(event, target));
  });
  document.addEventListener('keydown', () => (wasTyping = true), { capture: true });
}
