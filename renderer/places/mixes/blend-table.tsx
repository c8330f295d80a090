import type { ReactNode } from 'react';
import { oxygenBottles, type BlendStep, type OxygenBottle } from '../../../core/mixes/blending';
import type { FillMethod, FillPlan, PartialPressureFill } from '../../../core/mixes/fills';
import { mixO2 } from '../../../core/ledger/mix-choice';
import type { GasLaw } from '../../../core/supply';
import { cylinder, figure, said, type Said } from '../../../core/words/said';
import { mixSaid } from '../../../core/words/terms';
import { useWords } from '../../parts/use-words';
import { WideTable } from './wide-table';
import styles from './blend-table.module.css';

const METHODS: Readonly<Record<FillMethod, Said>> = {
  banked: said`to fill the banks for the trip`,
  'partial-pressure': said`for the trip, without a booster`,
  continuous: said`for the trip`,
  membrane: said``,
};

/** The answer in a sentence: how much oxygen, and in how many bottles. */
export function OxygenLine(props: {
  readonly plan: FillPlan;
  readonly steps: readonly BlendStep[];
  readonly method: FillMethod;
  readonly law: GasLaw;
  readonly bottle: OxygenBottle;
}): ReactNode {
  const words = useWords();
  const { plan, steps, method, law, bottle } = props;
  const { bottles, eachL, downToBar } = oxygenBottles(plan, steps, { method, law }, bottle);
  const { oxygenL } = plan.total;
  if (bottles === 0) {
    return (
      <p className={styles.answer}>
        {method === 'membrane' ? 'A membrane takes no oxygen from bottles.' : 'No oxygen needed.'}
      </p>
    );
  }
  const oxygen = said`${figure('gasUsed', oxygenL)} of oxygen`;
  if (bottles === null) {
    return (
      <p className={`care ${styles.answer}`}>
        {words(
          said`${oxygen}, but the cylinders need it to ${figure('pressureNeeded', downToBar)}, and a bottle has no more than ${figure('pressureTyped', bottle.fillBar)}: it takes a booster.`,
        )}
      </p>
    );
  }
  const each = said`each gives ${figure('gasLeft', eachL)} down to ${figure('pressureNeeded', downToBar)}`;
  return (
    <p className={styles.answer}>
      <strong>{words(said`${bottles} ${bottles === 1 ? said`bottle` : said`bottles`} of oxygen`)}</strong>{' '}
      {words(said`${METHODS[method]}: ${oxygen}; ${each}.`)}
    </p>
  );
}

function Gauge({ fill }: { readonly fill: PartialPressureFill | null }): ReactNode {
  const words = useWords();
  if (fill === null) return <td className="care">not this way</td>;
  const from = fill.isDrained ? said`let down to ${figure('pressureLeft', fill.fromBar)}, ` : said``;
  return <td>{words(said`${from}oxygen to ${figure('pressureTyped', fill.afterOxygenBar)}`)}</td>;
}

/** What a blender reads off the gauge, by both gas laws. */
export function BlendTable(props: {
  readonly steps: readonly BlendStep[];
  readonly startBar: number;
}): ReactNode {
  const words = useWords();
  const { steps, startBar } = props;
  return (
    <WideTable label="Blending step by step">
      <table className={styles.steps}>
        <caption>
          {words(said`From ${figure('pressureTyped', startBar)}, once cooled to 20 °C after each step`)}
        </caption>
        <thead>
          <tr>
            <th scope="col">Mix</th>
            <th scope="col">Cylinder</th>
            <th scope="col">Fills</th>
            <th scope="col">By ideal gas</th>
            <th scope="col">By real gas</th>
            <th scope="col">Then air to</th>
          </tr>
        </thead>
        <tbody>
          {steps.map((step) => (
            <tr key={`${step.mix.id} ${step.waterL} ${step.fillBar}`}>
              <th scope="row">{words(mixSaid(mixO2(step.mix)))}</th>
              <td>{words(said`${cylinder(step)}`)}</td>
              <td>{step.fills}</td>
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
