/** Where the party is at another height: a quiet mark through water and bands, with how high. */
import type { ReactNode } from 'react';
import type { TripEvent } from '../../../../core/document/types';
import { wallMin } from '../../../../core/words/calendar';
import { figure, moment, said } from '../../../../core/words/said';
import { useWords } from '../../../parts/use-words';
import type { Stretch } from './crossing-lines';
import styles from './heights.module.css';
import { placeOf, type TimeScale } from './time-scale';

/** Of the words, at 100 % text: from the edge of the mark, and below the waterline. */
const WORDS_PX = { x: 4, y: 14 };

/** However short the stay, it is seen. */
const LEAST_PX = 2;

interface HeightsProps {
  readonly events: readonly TripEvent[];
  readonly time: TimeScale;
  readonly heightPx: number;
  readonly stretches: readonly Stretch[];
  readonly textScale: number;
}

export function Heights({ events, time, heightPx, stretches, textScale }: HeightsProps): ReactNode {
  const words = useWords();
  const topY = stretches[0]?.fromY ?? 0;
  return (
    <svg className={styles.heights} data-part="heights" width={time.widthPx} height={heightPx}>
      {events.map(({ id, title, from, to, altitudeM }) => {
        const x = placeOf(time, wallMin(from));
        const width = Math.max(LEAST_PX, placeOf(time, wallMin(to)) - x);
        if (x > time.widthPx || x + width < 0) return null;
        const height = words(said`${figure('altitude', altitudeM)}`);
        const says = words(said`At ${height} from ${moment(from)} to ${moment(to)}: ${title}`);
        return (
          <g key={id} role="img" aria-label={says}>
            <title>{says}</title>
            {stretches.map(({ fromY, untilY }) => (
              <rect
                key={fromY}
                className={styles.stay}
                x={x}
                y={fromY}
                width={width}
                height={untilY - fromY}
              />
            ))}
            <text
              className={styles.words}
              x={x + width + WORDS_PX.x * textScale}
              y={topY + WORDS_PX.y * textScale}
            >
              {height}
            </text>
          </g>
        );
      })}
    </svg>
  );
}
