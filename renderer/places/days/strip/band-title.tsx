import type { ReactNode } from 'react';
import styles from './bands.module.css';

/**
 * What a band shows, written above it: its name, and what the curves are on a line of its own, as beside the
 * name stands the moment from which flying is clear.
 */
export function BandTitle(props: {
  readonly heightPx: number;
  readonly title: string;
  readonly children: string;
}): ReactNode {
  return (
    <div className={styles.title} data-part="band title" style={{ height: props.heightPx }}>
      <p>
        <strong>{props.title}</strong> <span>{props.children}</span>
      </p>
    </div>
  );
}
