import { unitName } from '../../figures/format';
import { useMemo, type ReactNode } from 'react';
import { writeFillRows } from '../../../core/formats/fill-rows';
import { keptTogether } from '../../../core/line-breaks';
import { slugOf } from '../../../core/library';
import { fillsMade, type FillsMade, type OxygenBottle } from '../../../core/mixes/blending';
import {
  BLENDING_CAUTION,
  bottleSaid,
  fillsAskedSaid,
  METHOD_NAMES,
} from '../../../core/mixes/blending-words';
import type { FillMethod, FillPlan } from '../../../core/mixes/fills';
import { failure } from '../../../core/result';
import { said } from '../../../core/words/said';
import { ROOM_TEMPERATURE } from '../../../core/words/terms';
import type { EditResult } from '../../actions/edit';
import { saveDocument } from '../../actions/save-document';
import { csvStyle } from '../../figures/csv-style';
import { wordsIn } from '../../figures/reader';
import { Choice } from '../../parts/choice';
import { CommandButton } from '../../parts/command-button';
import { PlainNumberField, ShareField, UnitField } from '../../parts/number-field';
import { useWords } from '../../parts/use-words';
import { selectLedger } from '../../store/selectors';
import { desk, useDesk } from '../../store/store';
import { BlendTable, OxygenLine } from './blend-table';
import { FillTable } from './fill-table';
import { chooseView, useFillsAsked, useMixesView, type MixesView } from './mixes-view';
import { Troubles } from './troubles';
import styles from './fills.module.css';

function change(patch: Partial<MixesView['fills']>, fills: MixesView['fills']): void {
  chooseView({ fills: { ...fills, ...patch } });
}

function emptyBottle(value: number): EditResult | null {
  if (value > 0) return null;
  return failure({
    kind: 'document',
    what: 'A bottle holds something.',
    where: '',
    mend: 'Type more than 0.',
  });
}

/** The bottle that oxygen comes in, by its water in litres, or by the gas it holds when full in cubic feet. */
function Bottle({ bottle }: { readonly bottle: OxygenBottle }): ReactNode {
  const fills = useMixesView((view) => view.fills);
  const units = useDesk(({ settings }) => settings.units);
  const { waterL, fillBar } = bottle;
  const put = (value: number, patch: Partial<OxygenBottle>): EditResult | void =>
    emptyBottle(value) ?? change({ bottle: { ...bottle, ...patch } }, fills);
  return (
    <>
      {units === 'imperial' ? (
        <UnitField
          label="Oxygen bottle, gas when full"
          kind="volume"
          value={waterL * fillBar}
          decimals={0}
          step={10}
          commit={(litres) => put(litres, { waterL: litres / fillBar })}
        />
      ) : (
        <PlainNumberField
          label="Oxygen bottle, litres of water"
          value={waterL}
          decimals={1}
          commit={(litres) => put(litres, { waterL: litres })}
        />
      )}
      <UnitField
        label="Oxygen bottle, full at"
        kind="pressure"
        value={fillBar}
        decimals={0}
        commit={(bar) => put(bar, { fillBar: bar })}
      />
    </>
  );
}

async function saveCsv(plan: FillPlan): Promise<void> {
  const { trip, settings } = desk.getState();
  const { title } = trip;
  await saveDocument({
    bytes: new TextEncoder().encode(writeFillRows(plan, csvStyle(settings))),
    name: `${slugOf(`${title} fills`)}.csv`,
    mediaType: 'text/csv',
    contents: plan.lines.length === 1 ? 'one row' : `${plan.lines.length} rows`,
  });
}

const METHODS: readonly FillMethod[] = ['banked', 'partial-pressure', 'continuous', 'membrane'];

function Tools(props: {
  readonly asked: ReturnType<typeof useFillsAsked>;
  readonly plan: FillPlan | null;
}): ReactNode {
  const { plan } = props;
  const { request, bottle } = props.asked;
  const words = useWords();
  const fills = useMixesView((view) => view.fills);
  const isPartial = fills.method === 'partial-pressure';
  return (
    <div className={styles.tools}>
      <Choice
        label="Filled"
        value={fills.method}
        options={METHODS.map((value) => ({ value, label: words(METHOD_NAMES[value]) }))}
        commit={(method) => change({ method }, fills)}
      />
      <Choice
        label="Amounts"
        value={request.law}
        options={[
          { value: 'ideal', label: 'ideal: volume times pressure' },
          { value: 'real', label: words(said`with compressibility at ${ROOM_TEMPERATURE}`) },
        ]}
        commit={(next) => change({ law: next }, fills)}
      />
      <UnitField
        label="Cylinders come back with"
        kind="pressure"
        value={request.startBar}
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
      {fills.method === 'membrane' ? null : <Bottle bottle={bottle} />}
      <div className={styles.buttons}>
        {plan === null ? null : (
          <button type="button" className="button" onClick={() => void saveCsv(plan)}>
            Save as CSV
          </button>
        )}
        <CommandButton id="trip.print" className="button">
          Print
        </CommandButton>
      </div>
    </div>
  );
}

/** On paper what is chosen in the window: without it nobody knows what the figures follow from. */
function Asked({ fills }: { readonly fills: FillsMade }): ReactNode {
  const words = useWords();
  const units = useDesk(({ settings }) => settings.units);
  const { request, bottle } = fills;
  const asked = words(fillsAskedSaid(request, unitName('volume', units)));
  return (
    <p className={styles.onPaper}>
      <strong>Fills of the trip</strong>,{' '}
      {keptTogether(request.method === 'membrane' ? asked : `${asked} ${words(bottleSaid(bottle))}`)}
    </p>
  );
}

/** Fills by day and mix, with the oxygen and air to bring, for the trip as it stands. */
export function Fills(): ReactNode {
  const words = useWords();
  const ledger = useDesk(selectLedger);
  const settings = useDesk((state) => state.settings);
  const asked = useFillsAsked(ledger.trip.settings.gasLaw);
  const { request, bottle } = asked;
  const made = useMemo(
    () => fillsMade(ledger, request, bottle, null, wordsIn(settings)),
    [ledger, request, bottle, settings],
  );
  const fills = made.ok && made.value.plan.lines.length > 0 ? made.value : null;
  return (
    <section aria-label="Fills">
      {fills === null ? null : <Asked fills={fills} />}
      {fills === null ? null : <OxygenLine fills={fills} />}
      <Tools asked={asked} plan={fills?.plan ?? null} />
      <p className={`care ${styles.care}`}>{words(BLENDING_CAUTION)}</p>
      {fills === null || fills.steps.length === 0 ? null : <BlendTable steps={fills.steps} />}
      {made.ok ? null : <Troubles troubles={made.troubles} />}
      {made.ok && fills === null ? <p className="soft">No dives yet, so nothing to fill.</p> : null}
      {fills === null ? null : <FillTable plan={fills.plan} label="Table of fills" />}
      <p className={styles.note}>
        A fill for each diver and dive, to the pressure of their cylinder;{' '}
        {unitName('volume', settings.units)} of gas at the surface. Gas lost in hoses and in analysing comes
        on top.
      </p>
    </section>
  );
}
