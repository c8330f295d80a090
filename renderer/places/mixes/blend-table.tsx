import type { ReactNode } from 'react';
import type { BlendStep, FillsMade } from '../../../core/mixes/blending';
import { blendedSaid, gaugeSaid, loopFillsSaid, oxygenSaid } from '../../../core/mixes/blending-words';
import type { PartialPressureFill } from '../../../core/mixes/fills';
import { keptTogether } from '../../../core/line-breaks';
import { mixO2 } from '../../../core/ledger/mix-choice';
import { figure, said } from '../../../core/words/said';
import { mixSaid, ROOM_TEMPERATURE } from '../../../core/words/terms';
import { useWords } from '../../parts/use-words';
import { WideTable } from './wide-table';
import styles from './blend-table.module.css';

/** The answer in a sentence: how much oxygen, and in how many bottles. */
export function OxygenLine({ fills }: { readonly fills: FillsMade }): ReactNode {
  const words = useWords();
  const { plan, bottles, request, bottle } = fills;
  const { lead, rest, isCare } = oxygenSaid(plan, bottles, request.method, bottle);
  return (
    <p className={isCare ? `care ${styles.answer}` : styles.answer}>
      <strong>{keptTogether(words(lead))}</strong>
      {keptTogether(words(rest))}
      {plan.loopOxygenL > 0 ? ` ${keptTogether(words(loopFillsSaid(plan)))}` : null}
    </p>
  );
}

function Gauge({ fill }: { readonly fill: PartialPressureFill | null }): ReactNode {
  const words = useWords();
  const gauge = keptTogether(words(gaugeSaid(fill)));
  return <td className={fill === null ? `care ${styles.gauge}` : styles.gauge}>{gauge}</td>;
}

/** What a blender reads off the gauge, by both gas laws. */
export function BlendTable({ steps }: { readonly steps: readonly BlendStep[] }): ReactNode {
  const words = useWords();
  return (
    <WideTable label="Blending step by step">
      <table className={styles.steps}>
        <caption>{words(said`Once cooled to ${ROOM_TEMPERATURE} after each step`)}</caption>
        <thead>
          <tr>
            <th scope="col">Mix</th>
            <th scope="col">Cylinder</th>
            <th scope="col" className={styles.number}>
              Fills
            </th>
            <th scope="col">From</th>
            <th scope="col">By ideal gas</th>
            <th scope="col">By real gas</th>
            <th scope="col">Then air to</th>
          </tr>
        </thead>
        <tbody>
          {steps.map((step) => (
            <tr key={`${step.mix.id} ${step.waterL} ${step.startBar} ${step.fillBar} ${step.isDiluent}`}>
              <th scope="row">{words(mixSaid(mixO2(step.mix)))}</th>
              <td>{words(blendedSaid(step))}</td>
              <td className={styles.number}>{step.fills}</td>
              <td>{words(said`${figure('pressureTyped', step.startBar)}`)}</td>
              <Gauge fill={step.by.ideal} />
              <Gauge fill={step.by.real} />
              <td>{words(said`${figure('pressureTyped', step.fillBar)}`)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </WideTable>
  );
}
