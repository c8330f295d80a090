import { useMemo, type ReactNode } from 'react';
import { CLASS_MIN } from '../../../core/mixes/class-dive';
import { classFormulas } from '../../../core/lesson/class-formulas';
import { said } from '../../../core/words/said';
import { mixSaid } from '../../../core/words/terms';
import { showOverlay } from '../../actions/view';
import { useWords } from '../../parts/use-words';
import { Maths } from './maths';
import { WideTable } from './wide-table';
import styles from './class-room.module.css';

/** How each figure of the class comes about, the mixes side by side: formula, the numbers put in, what comes out. */
export function ClassWorkings(props: {
  readonly depthM: number;
  readonly percents: readonly number[];
}): ReactNode {
  const { depthM, percents } = props;
  const words = useWords();
  const { pressure, rows } = useMemo(() => classFormulas(depthM, percents), [depthM, percents]);
  return (
    <WideTable label="Workings side by side">
      <p className={styles.paper}>
        <button
          type="button"
          className="linked"
          onClick={() => showOverlay({ kind: 'lesson', what: 'workings' })}
        >
          On paper
        </button>
      </p>
      <table className={styles.workings}>
        <caption>
          Of a first dive of {CLASS_MIN} min, in metres and bar:{' '}
          <Maths formula={[...pressure.formula, '=', ...pressure.put]} words={words} />
        </caption>
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
          {rows.map(({ title, formula, where, mixes }) => (
            <tr key={words(title)}>
              <th scope="row">
                {words(title)}
                <p className={styles.formula}>
                  <Maths formula={formula} words={words} />
                </p>
                <p className={styles.where}>{words(where)}</p>
              </th>
              {mixes.map(({ put, result }, at) => (
                <td
                  key={percents[at]}
                  {...(mixes.length === 1 && percents.length > 1 ? { colSpan: percents.length } : {})}
                >
                  <Maths formula={put} words={words} />
                  <strong className={styles.result}>{words(said`= ${result}`)}</strong>
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </WideTable>
  );
}
