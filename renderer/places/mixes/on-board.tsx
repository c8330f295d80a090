import type { ReactNode } from 'react';
import { mixO2 } from '../../../core/ledger/mix-choice';
import type { Mix } from '../../../core/document/types';
import { tell } from '../../actions/edit';
import {
  addMix,
  removeMix,
  setCurrency,
  setMixAnalysis,
  setMixPrice,
  setMixShare,
} from '../../actions/mixes';
import { mixText, shareText } from '../../figures/format';
import { parseShare } from '../../figures/parse';
import { Field, TextField } from '../../parts/field';
import { PlainNumberField, ShareField } from '../../parts/number-field';
import { ShareForm } from '../../parts/share-form';
import { useDesk } from '../../store/store';
import { MixSample, mixLines } from './mix-line';
import styles from './on-board.module.css';

function MixRow({ mix }: { readonly mix: Mix }): ReactNode {
  const name = mixText(mixO2(mix));
  return (
    <li className={styles.mix} aria-label={name}>
      <ShareField label="Oxygen" value={mix.o2} commit={(o2) => setMixShare(mix.id, o2)} />
      <Field<number | null>
        label="Analysed"
        value={mix.analysedO2 ?? null}
        show={(o2) => (o2 === null ? 'not yet' : shareText(o2))}
        parse={(text) => (/^(?:not yet)?$/.test(text.trim()) ? { ok: true, value: null } : parseShare(text))}
        commit={(o2) => setMixAnalysis(mix.id, o2)}
      />
      <PlainNumberField
        label="Price of a fill"
        value={mix.costPerFill}
        commit={(cost) => setMixPrice(mix.id, cost)}
      />
      <button
        type="button"
        className="plain"
        aria-label={`Remove ${name}`}
        onClick={() => tell(removeMix(mix.id))}
      >
        Remove
      </button>
    </li>
  );
}

function AddMix(): ReactNode {
  return (
    <ShareForm
      className={styles.add}
      label="One more, oxygen in %"
      action="Put on board"
      take={(share) => {
        const result = addMix(share);
        return result.ok ? null : result.troubles[0];
      }}
    />
  );
}

/** The mixes on board: a line to read, and fields out of the way until asked for. */
export function OnBoard(): ReactNode {
  const mixes = useDesk(({ trip }) => trip.mixes);
  const currency = useDesk(({ trip }) => trip.currency ?? '');
  const sorted = mixes.toSorted((a, b) => a.o2 - b.o2);
  const lines = mixLines(sorted);
  return (
    <details className={styles.board}>
      <summary>
        {sorted.length === 0 ? 'Nothing on board yet' : 'On board: '}
        {sorted.map((mix, at) => (
          <span key={mix.id}>
            {at === 0 ? '' : <span className="unseen">, </span>}
            <MixSample line={lines[at]!} />
            {mixText(mixO2(mix))}
            {mix.analysedO2 === undefined ? '' : ' analysed'}
          </span>
        ))}
      </summary>
      <ul>
        {sorted.map((mix) => (
          <MixRow key={mix.id} mix={mix} />
        ))}
      </ul>
      <div className={styles.add}>
        <AddMix />
        <TextField label="Prices in" value={currency} commit={setCurrency} />
      </div>
    </details>
  );
}
