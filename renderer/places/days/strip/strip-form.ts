/** What is said of each dive, and where, by the width that a day has on the page. */

/**
 * `day`: a day fills the page, and each dive is told whole at its weight; `room`: the board has start, site and room;
 * `start`: start and site; `site`: the site alone; `least`: one label a day.
 */
export type StripForm = 'day' | 'room' | 'start' | 'site' | 'least';

/** From so many pixels a day on, at 100 % text. */
const FROM_PX = { day: 480, room: 150, start: 112, site: 66 } as const;

export function stripForm(dayWidthPx: number, textScale: number): StripForm {
  const width = dayWidthPx / textScale;
  if (width > FROM_PX.day) return 'day';
  if (width >= FROM_PX.room) return 'room';
  if (width >= FROM_PX.start) return 'start';
  return width >= FROM_PX.site ? 'site' : 'least';
}

/** Hours under the waterline: one mark for so many; null where there is no room for them. */
export function hourStep(dayWidthPx: number, textScale: number): number | null {
  const width = dayWidthPx / textScale;
  if (width > FROM_PX.day) return 1;
  return width > 240 ? 3 : null;
}

/** The dotted way up is drawn where it is more than a shadow of the line. */
export function hasWayUp(dayWidthPx: number, textScale: number): boolean {
  return dayWidthPx / textScale > 100;
}

/** The rows of a day that the board has; what is more is counted. */
export const MOST_ROWS = 5;
