/** How many lines the title of a band takes: two where one would run under what else stands there. */

/** About the width of a character at 100 % text, and of a band's name before what it shows. */
const CHARACTER_PX = 5.3;
const NAME_PX = 100;
const LINE_PX = 14;
const ABOVE_PX = 10;

export type TitleLines = 1 | 2;

export function titleHeightPx(lines: TitleLines): number {
  return ABOVE_PX + LINE_PX * lines;
}

/** Baseline of the first line above the foot of the title, at 100 % text. */
export function firstLinePx(lines: TitleLines): number {
  return 5 + LINE_PX * (lines - 1);
}

export function nitrogenText(name: string, diverIsChosen: boolean): string {
  const whose = diverIsChosen ? name : `${name}, who has the least room`;
  return `leading compartment of ${whose}, from rest to its limit at the surface`;
}

/**
 * One line as long as the words end before the page does, and before what is written beside the moment that
 * flying is clear.
 * @param flyX where that moment stands, null where there is none @param widthPx of the page
 */
export function titleLines(
  text: string,
  flyText: string,
  flyX: number | null,
  widthPx: number,
  textScale: number,
): TitleLines {
  const endX = (NAME_PX + text.length * CHARACTER_PX) * textScale;
  const flyPx = flyText.length * CHARACTER_PX * textScale;
  // As it is written: to the left of its line in the later half of the page, else to the right.
  const freeX = flyX === null ? widthPx : flyX > widthPx / 2 ? flyX - flyPx : flyX;
  return endX < Math.min(freeX, widthPx) ? 1 : 2;
}
