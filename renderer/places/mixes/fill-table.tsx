import type { ReactNode } from 'react';
import { fillNotesSaid, gasOfFillSaid } from '../../../core/mixes/blending-words';
import type { FillLine, FillPlan } from '../../../core/mixes/fills';
import { figure, said } from '../../../core/words/said';
import { dateText, numberText } from '../../figures/format';
import { useWords } from '../../parts/use-words';
import { useDesk } from '../../store/store';
import { moneyText } from './mixes-words';
import { WideTable } from './wide-table';
import styles from './fill-table.module.css';

type Sums = Omit<FillLine, 'date' | 'mix'>;

/** What some fills have and others have not: a column of nothing is left out. */
interface Columns {
  readonly hasOxygen: boolean;
  readonly hasAir: boolean;
  readonly hasNotes: boolean;
}

function columnsOf({ lines, total }: FillPlan): Columns {
  return {
    hasOxygen: total.oxygenL > 0,
    hasAir: lines.some(({ airL }) => airL !== null),
    hasNotes: [...lines, total].some((sums) => fillNotesSaid(sums).length > 0),
  };
}

function SumCells({ sums, columns }: { readonly sums: Sums; readonly columns: Columns }): ReactNode {
  const words = useWords();
  const gas = (litres: number): string => words(said`${figure('gasUsed', litres)}`);
  const currency = useDesk(({ trip }) => trip.currency);
  const notes = fillNotesSaid(sums).map((note) => words(note));
  return (
    <>
      <td className={styles.number}>{numberText(sums.fills, 0, 'near')}</td>
      <td className={styles.number}>{gas(sums.litres)}</td>
      {columns.hasOxygen ? <td className={`figure ${styles.number}`}>{gas(sums.oxygenL)}</td> : null}
      {columns.hasAir ? (
        <td className={styles.number}>{sums.airL === null ? 'not known' : gas(sums.airL)}</td>
      ) : null}
      <td className={styles.number}>{sums.cost === null ? 'no price' : moneyText(sums.cost, currency)}</td>
      {columns.hasNotes ? <td className={`care ${styles.notes}`}>{notes.join(', ')}</td> : null}
    </>
  );
}

/** The fills of a day, which stay on one page. */
function DayRows(props: { readonly lines: readonly FillLine[]; readonly columns: Columns }): ReactNode {
  const { lines, columns } = props;
  const words = useWords();
  return (
    <tbody>
      {lines.map((line, i) => (
        <tr key={line.mix.id} className={i === 0 ? styles.first : ''}>
          <th scope="row">
            <span className={i === 0 ? '' : 'unseen'}>{dateText(line.date, true)}</span>
          </th>
          <td>{words(gasOfFillSaid(line))}</td>
          <SumCells sums={line} columns={columns} />
        </tr>
      ))}
    </tbody>
  );
}

/** Fills by day and mix, and their sum. */
export function FillTable({ plan, label }: { readonly plan: FillPlan; readonly label: string }): ReactNode {
  const columns = columnsOf(plan);
  const days = [...new Set(plan.lines.map(({ date }) => date))];
  return (
    <WideTable label={label}>
      <table className={styles.table}>
        <thead>
          <tr>
            <th scope="col">Day</th>
            <th scope="col">Mix</th>
            <th scope="col" className={styles.number}>
              Fills
            </th>
            <th scope="col" className={styles.number}>
              Gas put in
            </th>
            {columns.hasOxygen ? (
              <th scope="col" className={styles.number}>
                Oxygen to bring
              </th>
            ) : null}
            {columns.hasAir ? (
              <th scope="col" className={styles.number}>
                Air
              </th>
            ) : null}
            <th scope="col" className={styles.number}>
              Cost
            </th>
            {columns.hasNotes ? (
              <th scope="col" className={styles.notes}>
                <span className="unseen">Notes</span>
              </th>
            ) : null}
          </tr>
        </thead>
        {days.map((day) => (
          <DayRows key={day} lines={plan.lines.filter(({ date }) => date === day)} columns={columns} />
        ))}
        <tfoot>
          <tr>
            <th scope="row">In all</th>
            <td />
            <SumCells sums={plan.total} columns={columns} />
          </tr>
        </tfoot>
      </table>
    </WideTable>
  );
}
