/** Words of several sizes on one line. */
import { widthMm, putOn, type Draw, type Pen, type Type } from './pen';

export type Part = readonly [text: string, type: Type];

export function partsWidth(pen: Pen, parts: readonly Part[]): number {
  return parts.reduce((sum, [text, type]) => sum + widthMm(pen, text, type), 0);
}

/** Parts one behind the other on a baseline. */
export function partsOn(pen: Pen, parts: readonly Part[], x: number, baseline: number): readonly Draw[] {
  let at = x;
  return parts.map(([text, type]) => {
    const left = at;
    at += widthMm(pen, text, type);
    return putOn(pen, text, type, { x: left, baseline });
  });
}

/** Groups of parts spread over a width; as many lines as they need, each group whole. */
export function spread(
  pen: Pen,
  groups: readonly (readonly Part[])[],
  width: number,
  gap: number,
): readonly (readonly { readonly parts: readonly Part[]; readonly x: number }[])[] {
  const lines: (readonly Part[])[][] = [];
  let used = Infinity;
  for (const group of groups) {
    const wide = partsWidth(pen, group);
    if (used + gap + wide > width) {
      lines.push([]);
      used = -gap;
    }
    lines[lines.length - 1]!.push(group);
    used += gap + wide;
  }
  return lines.map((line) => {
    const free = width - line.reduce((sum, group) => sum + partsWidth(pen, group), 0);
    const white = line.length < 2 ? 0 : free / (line.length - 1);
    let x = 0;
    return line.map((parts) => {
      const at = x;
      x += partsWidth(pen, parts) + white;
      return { parts, x: at };
    });
  });
}
