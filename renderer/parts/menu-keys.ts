/** The arrows pass over what cannot be done now. */
export const CAN_RUN = 'button:enabled';

/**
 * Walks a menu with the arrows, Home and End; from the last to the first and back.
 * @returns whether the key was one of these
 */
export function walkMenu(menu: HTMLElement | null, key: string): boolean {
  const items = [...(menu?.querySelectorAll<HTMLElement>(CAN_RUN) ?? [])];
  const at = items.findIndex((item) => item === document.activeElement);
  const to = { ArrowDown: at + 1, ArrowUp: at - 1, Home: 0, End: items.length - 1 }[key];
  if (to === undefined) return false;
  items.at(to % items.length)?.focus();
  return true;
}
