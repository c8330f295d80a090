import { clockText, dateText, depthText, minutesText } from '../../../figures/format';
import { wallDate, wallText } from '../../../../core/words/calendar';
import type { DiveView } from './dive-view';
import styles from './dives.module.css';
import type { Mark } from './marks';
import type { Reader } from './strip-words';

interface LiveFiguresProps {
  readonly view: DiveView;
  readonly mark: Mark;
  readonly refusal: string | null;
  readonly reader: Reader;
  readonly widthPx: number;
  readonly textScale: number;
}

const WIDTH_PX = 176;
const LINE_PX = 16;

/** What the held dive has become, beside it while it is moved; the reason where the pointer asks too much. */
export function LiveFigures({ view, mark, refusal, reader, widthPx, textScale }: LiveFiguresProps) {
  const width = WIDTH_PX * textScale;
  const line = LINE_PX * textScale;
  const x = mark.barEndX + 14 + width > widthPx ? Math.max(0, mark.lineX - width - 14) : mark.barEndX + 14;
  const y = Math.max(4, mark.weightY - 2.6 * line);
  const start = `${dateText(wallDate(view.startMin))}, ${clockText(wallText(view.startMin), reader.clock)}`;
  const plan = `${depthText(view.depthM, reader.units)}, ${minutesText(view.bottomEndMin - view.startMin, 'near')}, ${view.mix}`;
  const room = refusal ?? (view.room === null ? 'no limit in reach' : `${view.room} of room`);
  return (
    <foreignObject className={styles.live} x={x} y={y} width={width} height={7 * line}>
      <div className={styles.liveFigures} data-part="live">
        <strong>{plan}</strong>
        <span>{start}</span>
        <span className={refusal === null ? styles.liveRoom : 'care'}>{room}</span>
      </div>
    </foreignObject>
  );
}
