import { memo } from 'react';
import { dateText } from '../../../figures/format';
import styles from './bands.module.css';
import { otuText, takenText, type DayView } from './day-view';
import { textWidth } from './text-width';

interface OtuRowProps {
  readonly days: readonly DayView[];
  readonly dayWidthPx: number;
  readonly heightPx: number;
  readonly textScale: number;
}

const TYPE_PX = 12;
const INSET_PX = 6;

/** The day's oxygen dose against that day's allowance. */
export const OtuRow = memo(function OtuRow({ days, dayWidthPx, heightPx, textScale }: OtuRowProps) {
  const lengthPx = Math.max(dayWidthPx - 2 * INSET_PX, 1);
  return (
    <svg
      className={styles.otu}
      data-part="otu"
      width={dayWidthPx * days.length}
      height={heightPx}
      role="group"
      aria-label="Oxygen dose of each day"
    >
      {days.map((day, i) => {
        if (day.otu === null) return null;
        const x = i * dayWidthPx + INSET_PX;
        const share = day.otu.taken / day.otu.allowed;
        const text = otuText(day.otu);
        const told = [text, takenText(day.otu), takenText(day.otu).replace(/ OTU$/, '')].find(
          (words) => textWidth(words, 'condensed', TYPE_PX * textScale) <= lengthPx,
        );
        return (
          <g key={day.day} role="img" aria-label={`${dateText(day.date, true)}: ${text}`}>
            <title>{text}</title>
            <rect className={styles.otuAllowed} x={x} y={3} width={lengthPx} height={5} />
            <rect
              className={share > 1 ? styles.otuOver : styles.otuTaken}
              x={x}
              y={3}
              width={lengthPx * Math.min(share, 1)}
              height={5}
            />
            <text x={x} y={heightPx - 5 * textScale}>
              {told}
            </text>
          </g>
        );
      })}
    </svg>
  );
});
