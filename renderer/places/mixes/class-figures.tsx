import type { ReactNode } from 'react';
import type { ClassMix } from '../../../core/mixes/class-dive';
import type { Id } from '../../../core/document/types';
import { figure, said } from '../../../core/words/said';
import { mixSaid } from '../../../core/words/terms';
import { useWords } from '../../parts/use-words';
import { MixSample, type MixLine } from './mix-line';
import styles from './class-room.module.css';

const COLUMNS = 5;

/** The figures of the mixes at the depth, each row underlined by its pressure: oxygen and nitrogen to scale. */
export function ClassFigures(props: {
  readonly mixes: readonly ClassMix[];
  readonly lines: readonly MixLine[];
  readonly depth: string;
  /** Puts a mix in hand, by pointing at its row; null: there is nothing to take. */
  readonly take: ((id: Id | null) => void) | null;
}): ReactNode {
  const { mixes, lines, depth, take } = props;
  const words = useWords();
  return (
    <table className={styles.figures} aria-label={`The mixes at ${depth}`}>
      <thead>
        <tr>
          <th scope="col">
            <span className={styles.oxygen}>oxygen</span> and{' '}
            <span className={styles.nitrogen}>nitrogen</span>
          </th>
          <th scope="col">PO2</th>
          <th scope="col">MOD</th>
          <th scope="col">EAD</th>
          <th scope="col">No-stop</th>
        </tr>
      </thead>
      {mixes.map(({ mix, po2Bar, modM, eadM, isPastMod, curve }, at) => (
        <tbody
          key={mix.id}
          {...(take ? { onPointerEnter: () => take(mix.id), onPointerLeave: () => take(null) } : {})}
        >
          <tr>
            <th scope="row">
              <MixSample line={lines[at]!} />
              {words(mixSaid(mix.o2))}
            </th>
            <td className={isPastMod ? 'care' : ''}>{words(said`${figure('po2Met', po2Bar)}`)}</td>
            <td>{words(said`${figure('depthLimit', modM)}`)}</td>
            <td>{words(said`${figure('depthMet', eadM)}`)}</td>
            <td className={isPastMod ? 'care' : styles.lead}>
              {isPastMod
                ? 'past its MOD'
                : Number.isFinite(curve.meetsMin)
                  ? words(said`${figure('minutesLeft', curve.meetsMin)}`)
                  : 'no end'}
            </td>
          </tr>
          <tr className={styles.bar} aria-hidden="true">
            <td colSpan={COLUMNS}>
              <svg width="100%" height={5}>
                <rect width="100%" height={5} fill="var(--nitrogen-wash)" />
                <rect width={`${mix.o2 * 100}%`} height={5} fill="var(--oxygen)" />
              </svg>
            </td>
          </tr>
        </tbody>
      ))}
    </table>
  );
}
