import type { ReactNode } from 'react';
import type { TitleLines } from './title-lines';

/** What a band shows, written above it. */
export function BandTitle(props: {
  readonly heightPx: number;
  readonly lines: TitleLines;
  readonly title: string;
  readonly children: string;
}): ReactNode {
  return (
    <div
      className={props.lines === 1 ? 'band-title' : 'band-title is-tall'}
      style={{ height: props.heightPx }}
    >
      <p>
        <strong>{props.title}</strong> <span>{props.children}</span>
      </p>
    </div>
  );
}
