import { useMemo, type ReactNode } from 'react';
import { CLASS_MIN, classTrip } from '../../../core/mixes/class-dive';
import { ledger } from '../../../core/ledger/ledger';
import { said } from '../../../core/words/said';
import { mixSaid } from '../../../core/words/terms';
import { workingsOf } from '../../../core/workings/all';
import type { FigureId } from '../../../core/workings/types';
import { decimalSign } from '../../figures/decimal-sign';
import { useWords } from '../../parts/use-words';
import { WideTable } from './wide-table';
import styles from './class-room.module.css';

const FIGURES: readonly FigureId[] = [
  'po2Bar',
  'modM',
  'eadM',
  'noStopMin',
  'cns.after',
  'otu.dive',
  'minimumBar',
];

/** A text of the workings with the decimal sign of the reader. */
function read(text: string): string {
  return text.replaceAll(/(?<=\d)\.(?=\d)/g, decimalSign());
}

/** How each figure of the class comes about, the mixes side by side: formula, the numbers put in, what comes out. */
export function ClassWorkings(props: {
  readonly depthM: number;
  readonly percents: readonly number[];
}): ReactNode {
  const { depthM, percents } = props;
  const words = useWords();
  const columns = useMemo(() => {
    const trip = classTrip(depthM, percents);
    return ledger(trip).divers.flatMap((diverLedger) => {
      const [entry] = diverLedger.entries;
      return entry ? [FIGURES.map((figure) => workingsOf(figure, entry, { trip, diverLedger, words }))] : [];
    });
  }, [depthM, percents, words]);
  return (
    <WideTable label="Workings side by side">
      <table className={styles.workings}>
        <caption>Of a first dive of {CLASS_MIN} min at the depth above, in metres and bar</caption>
        <thead>
          <tr>
            <th scope="col">Figure and formula</th>
            {percents.map((percent) => (
              <th key={percent} scope="col">
                {words(said`${mixSaid(percent / 100)}`)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {FIGURES.map((figure, row) => (
            <tr key={figure}>
              <th scope="row">
                {columns[0]?.[row]?.title}
                <p className={styles.formula}>{read(columns[0]?.[row]?.formula ?? '')}</p>
              </th>
              {columns.map((workings, at) => (
                <td key={percents[at]}>
                  <dl>
                    {workings[row]!.steps.map(({ label, value }) => (
                      <div key={label}>
                        <dt>{read(label)}</dt>
                        <dd>{read(value)}</dd>
                      </div>
                    ))}
                  </dl>
                  <strong>{read(workings[row]!.result)}</strong>
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </WideTable>
  );
}
