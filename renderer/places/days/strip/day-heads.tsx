import { memo } from 'react';
import type { DiveView } from './dive-view';
import { chooseDives } from '../../../actions/view';
import { wallDate } from '../../../../core/words/calendar';
import { dateText } from '../../../figures/format';
import { headForm, headOf, headSentence, otuText, takenText, type DayView } from './day-view';

interface DayRowProps {
  readonly days: readonly DayView[];
  readonly dayWidthPx: number;
  readonly heightPx: number;
  readonly textScale: number;
}

/** The head of each day; pressing one selects its dives, to shift or to copy them. */
export const DayHeads = memo(function DayHeads(props: DayRowProps & { readonly dives: readonly DiveView[] }) {
  const { days, dayWidthPx, heightPx, textScale, dives } = props;
  const form = headForm(dayWidthPx, textScale);
  return (
    <div className="day-heads" style={{ height: heightPx }}>
      {days.map((day, i) => {
        const head = headOf(day, form, i === 0);
        const sentence = headSentence(day);
        return (
          <button
            key={day.day}
            type="button"
            className={`day-head day-head-${form}`}
            style={{ width: dayWidthPx }}
            title={`${sentence}. Select its dives`}
            disabled={day.dives === 0}
            onClick={() =>
              chooseDives(dives.filter((dive) => wallDate(dive.startMin) === day.date).map(({ id }) => id))
            }
          >
            {/* Weekday over date where both do not fit side by side. */}
            {form === 'least' && <span className="day-title">{weekdayOf(day)}</span>}{' '}
            <span className="day-title">{head.title}</span> <span>{head.dives}</span>{' '}
            <span>{head.oxygen}</span> <span className="care">{head.tightest}</span>
          </button>
        );
      })}
    </div>
  );
});

function weekdayOf({ date }: DayView): string {
  return dateText(date).split(' ')[0]!;
}

/** The day's oxygen dose against that day's allowance. */
export const OtuRow = memo(function OtuRow({ days, dayWidthPx, heightPx, textScale }: DayRowProps) {
  const form = headForm(dayWidthPx, textScale);
  const insetPx = form === 'full' ? 8 : 3;
  const lengthPx = Math.max(dayWidthPx - 2 * insetPx, 1);
  return (
    <svg
      className="otu-row"
      width={dayWidthPx * days.length}
      height={heightPx}
      role="group"
      aria-label="Oxygen dose of each day"
    >
      {days.map((day, i) => {
        if (day.otu === null) return null;
        const x = i * dayWidthPx + insetPx;
        const share = day.otu.taken / day.otu.allowed;
        const text = otuText(day.otu);
        return (
          <g key={day.day} role="img" aria-label={`${dateText(day.date, true)}: ${text}`}>
            <title>{text}</title>
            <rect className="otu-allowed" x={x} y={4} width={lengthPx} height={5} />
            <rect
              className={share > 1 ? 'otu-over' : 'otu-taken'}
              x={x}
              y={4}
              width={lengthPx * Math.min(share, 1)}
              height={5}
            />
            <text x={x} y={heightPx - 6}>
              {form === 'full' ? text : form === 'short' ? takenText(day.otu) : ''}
            </text>
          </g>
        );
      })}
    </svg>
  );
});
