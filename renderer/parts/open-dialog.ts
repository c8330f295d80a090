/**
 * Whether a dialog lies over the window. Asked at every key and choice: the list of all dialogs keeps itself up to date,
 * where a search by state would go through the whole page.
 */
export function isDialogOpen(): boolean {
  return [...document.getElementsByTagName('dialog')].some(({ open }) => open);
}
