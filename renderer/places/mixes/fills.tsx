import { unitName } from '../../figures/format';
import { useMemo, type ReactNode } from 'react';
import { fillPlan } from '../../../core/mixes/fills';
import { wordsIn } from '../../figures/reader';
import { Choice } from '../../parts/choice';
import { CommandButton } from '../../parts/command-button';
import { ShareField, UnitField } from '../../parts/number-field';
import { selectLedger } from '../../store/selectors';
import { useDesk } from '../../store/store';
import { FillTable } from './fill-table';
import { chooseView, useMixesView, type MixesView } from './mixes-view';
import { Troubles } from './troubles';
import styles from './fills.module.css';

function change(patch: Partial<MixesView['fills']>, fills: MixesView['fills']): void {
  chooseView({ fills: { ...fills, ...patch } });
}

function Tools({ law }: { readonly law: 'ideal' | 'real' }): ReactNode {
  const fills = useMixesView((view) => view.fills);
  const isPartial = fills.method === 'partial-pressure';
  return (
    <div className={styles.tools}>
      <Choice
        label="Filled"
        value={fills.method}
        options={[
          { value: 'banked', label: 'from banks of the mix' },
          { value: 'partial-pressure', label: 'by partial pressure: oxygen, then air' },
        ]}
        commit={(method) => change({ method }, fills)}
      />
      <Choice
        label="Amounts"
        value={law}
        options={[
          { value: 'ideal', label: 'ideal: volume times pressure' },
          { value: 'real', label: 'with compressibility at 20 °C' },
        ]}
        commit={(next) => change({ law: next }, fills)}
      />
      <UnitField
        label="Cylinders come back with"
        kind="pressure"
        value={fills.startBar}
        decimals={0}
        commit={(startBar) => change({ startBar }, fills)}
      />
      {isPartial ? (
        <Choice
          label="What is left in them"
          value={fills.startO2 === null ? 'same' : 'other'}
          options={[
            { value: 'same', label: 'the mix they get again' },
            { value: 'other', label: 'another share' },
          ]}
          commit={(value) => change({ startO2: value === 'same' ? null : 0.21 }, fills)}
        />
      ) : null}
      {isPartial && fills.startO2 !== null ? (
        <ShareField
          label="Oxygen left in them"
          value={fills.startO2}
          commit={(startO2) => change({ startO2 }, fills)}
        />
      ) : null}
      <div className={styles.buttons}>
        <CommandButton id="trip.print" className="button">
          Print
        </CommandButton>
      </div>
    </div>
  );
}

/** Fills by day and mix, with the oxygen and air to bring, for the trip as it stands. */
export function Fills(): ReactNode {
  const ledger = useDesk(selectLedger);
  const settings = useDesk((state) => state.settings);
  const { method, law, startBar, startO2 } = useMixesView((view) => view.fills);
  const usedLaw = law ?? ledger.trip.settings.gasLaw;
  const plan = useMemo(
    () => fillPlan(ledger, { method, law: usedLaw, startBar, startO2 }, null, wordsIn(settings)),
    [ledger, method, usedLaw, startBar, startO2, settings],
  );
  return (
    <section aria-label="Fills">
      <Tools law={usedLaw} />
      <p className="care">
        Blending needs training and oxygen-clean gear; every cylinder is analysed before it is dived, by
        whoever dives it.
      </p>
      {plan.ok ? null : <Troubles troubles={plan.troubles} />}
      {plan.ok && plan.value.lines.length === 0 ? (
        <p className="soft">No dives yet, so nothing to fill.</p>
      ) : null}
      {plan.ok && plan.value.lines.length > 0 ? <FillTable plan={plan.value} label="Table of fills" /> : null}
      <p className={styles.note}>
        A fill for each diver and dive, to the pressure of their cylinder;{' '}
        {unitName('volume', settings.units)} of gas at the surface. Gas lost in hoses and in analysing comes
        on top.
      </p>
    </section>
  );
}
