/** The trip from left to right: dives hung from the waterline, and beneath them what the body carries. */
import { memo, useRef, type ReactNode } from 'react';
import { CommandButton } from '../../../parts/command-button';
import { useDesk } from '../../../store/store';
import { StripPage } from './strip-page';
import { useSize } from '../../../parts/use-size';
import styles from './strip.module.css';

export const Strip = memo(function Strip(): ReactNode {
  const space = useRef<HTMLDivElement>(null);
  const size = useSize(space);
  const hasDives = useDesk((state) => state.trip.dives.length > 0);
  return (
    <section className={styles.strip} aria-label="The trip, day by day">
      <div className={styles.space} ref={space} />
      {!hasDives && <EmptyStrip />}
      {hasDives && size !== null && size.widthPx > 0 && <StripPage size={size} />}
    </section>
  );
});

/** Water without a line in it yet, and the way to hang the first. */
function EmptyStrip(): ReactNode {
  return (
    <div className={styles.empty}>
      <p className={styles.emptyWords}>
        No dives yet. <CommandButton id="dive.add" className="linked" />
      </p>
    </div>
  );
}
