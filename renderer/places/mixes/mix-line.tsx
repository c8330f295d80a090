import type { ReactNode } from 'react';
import type { Mix } from '../../../core/document/types';
import { isAir } from '../../../core/mixes/stocked-trip';
import styles from './mix-line.module.css';

/** How a mix is drawn: the richer, the further down; grey print still tells the dashes apart. */
const LINES = [
  { colour: 'var(--mix-1)', dashes: '9 5' },
  { colour: 'var(--mix-2)', dashes: '' },
  { colour: 'var(--mix-3)', dashes: '10 4 2 4' },
  { colour: 'var(--mix-4)', dashes: '3 3' },
] as const;

/** A line of a chart, the same wherever a mix is named. */
export interface MixLine {
  readonly colour: string;
  readonly dashes: string;
  readonly isRound: boolean;
}

const AIR: MixLine = { colour: 'var(--mix-air)', dashes: '0.1 5', isRound: true };

/** The line of each mix in order of richness; air is dotted. @param mixes leanest first */
export function mixLines(mixes: readonly Mix[]): readonly MixLine[] {
  const enriched = mixes.filter((mix) => !isAir(mix));
  return mixes.map((mix) =>
    isAir(mix) ? AIR : { ...LINES[enriched.indexOf(mix) % LINES.length]!, isRound: false },
  );
}

/** Attributes of a line drawn so. */
export function strokeOf(
  { colour, dashes, isRound }: MixLine,
  widthPx = 2.2,
): {
  readonly stroke: string;
  readonly strokeWidth: number;
  readonly strokeDasharray?: string;
  readonly strokeLinecap: 'round' | 'butt';
} {
  return {
    stroke: colour,
    strokeWidth: isRound ? widthPx + 0.6 : widthPx,
    ...(dashes === '' ? {} : { strokeDasharray: dashes }),
    strokeLinecap: isRound ? 'round' : 'butt',
  };
}

/** A sample of the line, beside the name of its mix. */
export function MixSample({ line }: { readonly line: MixLine }): ReactNode {
  return (
    <svg className={styles.sample} width={30} height={8} aria-hidden="true">
      <line x1={2} x2={29} y1={4} y2={4} {...strokeOf(line)} />
    </svg>
  );
}
