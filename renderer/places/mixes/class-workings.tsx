import { useMemo, type ReactNode } from 'react';
import {
  CLASS_MIN,
  classColumnSaid,
  classGases,
  classTrip,
  type ClassLook,
} from '../../../core/mixes/class-dive';
import { classFormulas } from '../../../core/lesson/class-formulas';
import type { PutIn } from '../../../core/lesson/class-parts';
import { wordsOf, type Words } from '../../../core/words/reader';
import { said } from '../../../core/words/said';
import { showOverlay } from '../../actions/view';
import { useReader } from '../../parts/use-words';
import { Maths } from './maths';
import { WideTable } from './wide-table';
import styles from './class-room.module.css';

function Cell(props: {
  readonly putIn: PutIn;
  readonly columns?: number;
  readonly words: Words;
  readonly results: Words;
}): ReactNode {
  const { putIn, columns = 1, words, results } = props;
  const { put, result } = putIn;
  return (
    <td colSpan={columns}>
      {put === null ? (
        <p className={styles.where}>{words(result)}</p>
      ) : (
        <>
          <Maths formula={put} words={words} />
          <strong className={styles.result}>{results(said`= ${result}`)}</strong>
        </>
      )}
    </td>
  );
}

/** How each figure of the class comes about, the gases side by side: formula, the numbers put in, what comes out. */
export function ClassWorkings({ look }: { readonly look: ClassLook }): ReactNode {
  const reader = useReader();
  // Metres and bar are put in; what comes out is told in feet and psi too, to who reads those.
  const words = useMemo(() => wordsOf({ ...reader, units: 'metric' }), [reader]);
  const results = useMemo(
    () => wordsOf({ ...reader, units: reader.units === 'metric' ? 'metric' : 'both' }),
    [reader],
  );
  const { pressure, rows } = useMemo(() => classFormulas(look), [look]);
  const gases = useMemo(() => classGases(classTrip(look)), [look]);
  const openCount = look.percents.length;
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
            {gases.map((gas) => (
              <th key={gas.id} scope="col">
                {words(classColumnSaid(gas))}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ title, formula, onLoop, where, mixes, loop }) => (
            <tr key={words(title)}>
              <th scope="row">
                {words(title)}
                <p className={styles.formula}>
                  <Maths formula={formula} words={words} />
                </p>
                {onLoop === null ? null : (
                  <p className={`${styles.formula} ${styles.onLoop}`}>
                    <Maths formula={['loop:', ...onLoop]} words={words} />
                  </p>
                )}
                <p className={styles.where}>{words(where)}</p>
              </th>
              {mixes.map((putIn, at) => (
                <Cell
                  key={gases[at]!.id}
                  putIn={putIn}
                  columns={mixes.length < openCount ? openCount : 1}
                  words={words}
                  results={results}
                />
              ))}
              {loop === null ? null : <Cell putIn={loop} words={words} results={results} />}
            </tr>
          ))}
        </tbody>
      </table>
    </WideTable>
  );
}
