/** The hours under the waterline, where days are wide enough for them. */
import type { Settings } from '../../../../core/host';
import type { Box } from './boxes';
import { hourStep } from './strip-form';
import { textWidth } from './text-width';
import { placeOf, type TimeScale } from './time-scale';

export interface HourMark {
  readonly x: number;
  /** "07" */
  readonly label: string;
  /** Written, and not a stroke alone. */
  readonly isTold: boolean;
}

/** Hours of the day that are marked: at night the page is too narrow, and nobody dives. */
const FIRST = 6;
const LAST = 21;
const HOUR_PX = 12;
/** From the waterline to the figures and past them, at 100 % text. */
const TOP_PX = 6;
const BOTTOM_PX = 20;
const AIR_PX = 3;

function boxOf({ x, label }: Pick<HourMark, 'x' | 'label'>, k: number): Box {
  const half = textWidth(label, 'condensed', HOUR_PX * k) / 2 + AIR_PX;
  return { left: x - half, right: x + half, top: TOP_PX * k, bottom: BOTTOM_PX * k };
}

/**
 * @param linesX where plumb lines hang: no hour is written across one
 * @returns none where days are too narrow
 */
export function hourMarks(
  time: TimeScale,
  textScale: number,
  clock: Settings['clock'],
  linesX: readonly number[],
): readonly HourMark[] {
  const step = hourStep(time.dayWidthPx, textScale);
  if (step === null) return [];
  const marks: HourMark[] = [];
  let endsX = 0;
  for (let day = 0; day < time.dayCount; day += 1) {
    for (let hour = FIRST; hour <= LAST; hour += 1) {
      const x = placeOf(time, (time.firstDay + day) * 1440 + hour * 60);
      const label = clock === '24h' ? String(hour).padStart(2, '0') : String(((hour + 11) % 12) + 1);
      const box = boxOf({ x, label }, textScale);
      const isFree =
        box.left >= endsX &&
        box.right <= (day + 1) * time.dayWidthPx &&
        linesX.every((lineX) => lineX < box.left || lineX > box.right);
      const isTold = hour % step === 0 && isFree;
      if (isTold) endsX = box.right;
      marks.push({ x, label, isTold });
    }
  }
  return marks;
}

/** Where they stand, so that nothing else is written there. */
export function hourBoxes(marks: readonly HourMark[], textScale: number): readonly Box[] {
  return marks.filter(({ isTold }) => isTold).map((mark) => boxOf(mark, textScale));
}
