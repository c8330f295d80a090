import type { ReactNode } from 'react';
import { bare, said } from '../../../core/words/said';
import { useTypeScale } from '../../parts/type-scale';
import { useWords } from '../../parts/use-words';
import { hasLabel, isSnug, LABEL_AT, marksWithRoom, type SeaMark, type SeaPlan } from './sea-marks';
import type { SeaScale } from './sea-scale';
import styles from './sea-chart.module.css';

function labelOf(mark: SeaMark, plan: SeaPlan | undefined, words: ReturnType<typeof useWords>): ReactNode {
  if (!hasLabel(mark)) return null;
  const min = words(said`${bare('minutesLeft', mark.min)}`);
  if (!mark.isUsed || !plan || plan.noStopMin === null) return min;
  return (
    <>
      <tspan className={styles.strong}>{min}</tspan>{' '}
      <tspan className={styles.italic}>
        {words(said`${bare('minutesLeft', plan.noStopMin - plan.min)} left`)}
      </tspan>
    </>
  );
}

/** The minutes of each mark, where they cover no others; the rest are told by pointing, and in the table beneath. */
export function SeaLabels(props: {
  readonly marks: readonly SeaMark[];
  readonly plans: readonly SeaPlan[];
  readonly scale: SeaScale;
}): ReactNode {
  const { marks, plans, scale } = props;
  const words = useWords();
  const emPx = 13 * useTypeScale();
  const shown = marksWithRoom(marks, scale, emPx);
  return (
    <g className={styles.labels}>
      {marks
        .filter((mark) => shown.has(mark))
        .map((mark) => {
          const at = LABEL_AT[mark.isUsed ? 'used' : 'other'];
          const plan = plans.find(({ siteAt }) => siteAt === mark.siteAt);
          return (
            <text
              key={`${mark.siteAt} ${mark.mixAt}`}
              x={scale.xPx(mark.min) + at.x}
              y={scale.yPx(mark.depthM) + at.y}
              textAnchor={mark.isUsed ? 'start' : 'middle'}
              className={mark.isUsed && plan && isSnug(plan) ? styles.care : ''}
            >
              {labelOf(mark, plan, words)}
            </text>
          );
        })}
    </g>
  );
}
