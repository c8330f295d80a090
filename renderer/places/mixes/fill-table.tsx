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

type Sums = FillPlan['total'];

function SumCells({ sums, hasNotes }: { readonly sums: Sums; readonly hasNotes: boolean }): ReactNode {
  const words = useWords();
  const gas = (litres: number): string => words(said`${figure('gasUsed', litres)}`);
  const currency = useDesk(({ trip }) => trip.currency);
  const notes = fillNotesSaid(sums).map((note) => words(note));
  return (
    <>
      <td>{numberText(sums.fills, 0, 'near')}</td>
      <td>{gas(sums.litres)}</td>
      <td className="figure">{gas(sums.oxygenL)}</td>
      <td>{gas(sums.airL)}</td>
      <td>{moneyText(sums.cost, currency)}</td>
      {hasNotes ? <td className="care">{notes.join(', ')}</td> : null}
    </>
  );
}

function LineRow(props: {
  readonly line: FillLine;
  readonly isFirst: boolean;
  readonly hasNotes: boolean;
}): ReactNode {
  const { line, isFirst, hasNotes } = props;
  const words = useWords();
  return (
    <tr className={isFirst ? styles.first : ''}>
      <th scope="row">
        <span className={isFirst ? '' : 'unseen'}>{dateText(line.date, true)}</span>
      </th>
      <td>{words(gasOfFillSaid(line))}</td>
      <SumCells sums={line} hasNotes={hasNotes} />
    </tr>
  );
}

/** Fills by day and mix, and their sum. */
export function FillTable({ plan, label }: { readonly plan: FillPlan; readonly label: string }): ReactNode {
  const hasNotes = [...plan.lines, plan.total].some((sums) => fillNotesSaid(sums).length > 0);
  return (
    <WideTable label={label}>
      <table className={styles.table}>
        <thead>
          <tr>
            <th scope="col">Day</th>
            <th scope="col">Mix</th>
            <th scope="col">Fills</th>
            <th scope="col">Gas put in</th>
            <th scope="col">Oxygen to bring</th>
            <th scope="col">Air</th>
            <th scope="col">Cost</th>
            {hasNotes ? (
              <th scope="col">
                <span className="unseen">Notes</span>
              </th>
            ) : null}
          </tr>
        </thead>
        <tbody>
          {plan.lines.map((line, i, lines) => (
            <LineRow
              key={`${line.date} ${line.mix.id}`}
              line={line}
              isFirst={line.date !== lines[i - 1]?.date}
              hasNotes={hasNotes}
            />
          ))}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row">In all</th>
            <td />
            <SumCells sums={plan.total} hasNotes={hasNotes} />
          </tr>
        </tfoot>
      </table>
    </WideTable>
  );
}
