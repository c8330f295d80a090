import type { ReactNode } from 'react';
import {
  classColumnSaid,
  classGasSaid,
  loopReadSaid,
  type ClassAtDepth,
} from '../../../core/mixes/class-dive';
import type { Id } from '../../../core/document/types';
import { figure, said, type Said } from '../../../core/words/said';
import { useWords } from '../../parts/use-words';
import { MixSample, type MixLine } from './mix-line';
import styles from './class-room.module.css';

const COLUMNS = 5;

/** The no-stop time, or what keeps the gas from the depth. */
function noStopSaid({ past, loop, curve }: ClassAtDepth): Said {
  if (past === 'po2') return said`past the PO2 limit`;
  if (past === 'mod') return loop === null ? said`past its MOD` : said`past its diluent’s MOD`;
  return Number.isFinite(curve.meetsMin) ? said`${figure('minutesLeft', curve.meetsMin)}` : said`no end`;
}

/** The figures of the gases at the depth, each row underlined by its pressure: oxygen and nitrogen to scale. */
export function ClassFigures(props: {
  readonly gases: readonly ClassAtDepth[];
  readonly lines: readonly MixLine[];
  readonly depth: string;
  /** Puts a mix in hand, by pointing at its row; null: there is nothing to take. */
  readonly take: ((id: Id | null) => void) | null;
}): ReactNode {
  const { gases, lines, depth, take } = props;
  const words = useWords();
  const onLoop = gases.find(({ loop }) => loop !== null);
  return (
    <div>
      <table className={styles.figures} aria-label={`What is breathed at ${depth}`}>
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
        {gases.map((gas, at) => (
          <tbody
            key={gas.id}
            {...(take ? { onPointerEnter: () => take(gas.id), onPointerLeave: () => take(null) } : {})}
          >
            <tr>
              <th scope="row">
                <MixSample line={lines[at]!} />
                {words(classGasSaid(gas))}
              </th>
              <td className={gas.past === null ? '' : 'care'}>
                {words(said`${figure('po2Met', gas.po2Bar)}`)}
              </td>
              <td>
                {gas.loop === null ? null : <span className={styles.ofWhat}>diluent </span>}
                {words(said`${figure('depthLimit', gas.modM)}`)}
              </td>
              <td>{gas.eadM === null ? 'none' : words(said`${figure('depthMet', gas.eadM)}`)}</td>
              <td className={gas.past === null ? styles.lead : 'care'}>{words(noStopSaid(gas))}</td>
            </tr>
            <tr className={styles.bar} aria-hidden="true">
              <td colSpan={COLUMNS}>
                <svg width="100%" height={5}>
                  <rect width="100%" height={5} fill="var(--nitrogen-wash)" />
                  <rect width={`${gas.o2 * 100}%`} height={5} fill="var(--oxygen)" />
                </svg>
              </td>
            </tr>
          </tbody>
        ))}
      </table>
      {take !== null && onLoop?.loop ? (
        <p className={styles.loopNote}>
          {words(said`${classColumnSaid(onLoop)}. ${loopReadSaid(onLoop.loop)}`)}
        </p>
      ) : null}
    </div>
  );
}
