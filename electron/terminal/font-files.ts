import type { FaceName } from '../../core/slate/faces';

/** A font of print-outs beside the bundle of the command. */
export function fontFile(name: FaceName): string {
  return `fonts/${name}.ttf`;
}
